"""What must hold of each calculator for any input, found by hypothesis; no figure stands here."""

import math

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.outside.asking import Calc
from tests.sweeps import examples

sound = settings(max_examples=examples(200), deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


def within(low: float, high: float, places: int = 3) -> st.SearchStrategy[float]:
    """Decimal numbers as people type them."""
    scale = 10**places
    return st.integers(math.ceil(low * scale), math.floor(high * scale)).map(lambda whole: whole / scale)


def four(each: st.SearchStrategy[float]) -> st.SearchStrategy[list[float]]:
    """Four of them."""
    return st.lists(each, min_size=4, max_size=4)


lengths, pitches, ends = within(60, 3000, 1), within(5, 200, 1), within(0, 30, 1)
counts, factors = st.integers(0, 80), within(1, 3, 2)


def welds(
    ask: Calc, length: float, pitch: float, end: float, factory: int, least: float = 0, uplift: float = 1.3
) -> float:
    answer = ask("spot-layout", length=f"{length} mm", pitch=f"{pitch} mm", end_distance=f"{end} mm",
                  factory_count=str(factory), least_pitch=f"{least} mm", uplift=str(uplift))  # fmt: skip
    return answer.number("count")


class TestDewPoint:
    @sound
    @given(air=within(-20, 60), humidity=within(1, 100))
    def test_never_above_the_air(self, ask: Calc, air: float, humidity: float) -> None:
        answer = ask("dew-point", air=f"{air} degC", humidity=f"{humidity} percent", surface="20 degC")
        assert answer.number("dew_point", "degC") <= air + 1e-9

    @sound
    @given(air=within(-20, 60), humidity=st.tuples(within(1, 100), within(1, 100)))
    def test_damper_air_never_leaves_more_margin(self, ask: Calc, air: float, humidity: tuple[float, float]) -> None:
        dry, damp = (
            ask("dew-point", air=f"{air} degC", humidity=f"{part} percent", surface="20 degC")
            for part in sorted(humidity)
        )
        assert damp.number("margin", "delta_degC") <= dry.number("margin", "delta_degC") + 1e-9
        assert len(damp.warned("stop")) >= len(dry.warned("stop"))


class TestSheetGauge:
    @pytest.mark.parametrize("series", ["us-statute", "manufacturers", "galvanized", "swg", "bwg"])
    def test_a_higher_number_is_never_thicker(self, ask: Calc, series: str) -> None:
        answers = [ask("sheet-gauge", gauge=str(gauge), series=series) for gauge in range(1, 41)]
        found = [answer.number("thickness", "mm") for answer in answers if answer.why_not("thickness") is None]
        assert len(found) >= 18
        assert found == sorted(found, reverse=True)
        assert len(set(found)) == len(found)


class TestBend:
    @sound
    @given(angle=within(1, 179), radius=within(0, 20), thickness=within(0.3, 6), k=within(0, 0.5))
    def test_the_blank_is_between_the_inside_and_the_outside_lengths(
        self, ask: Calc, angle: float, radius: float, thickness: float, k: float
    ) -> None:
        answer = ask("bend", angle=f"{angle} degree", radius=f"{radius} mm", thickness=f"{thickness} mm", k=str(k))
        outside = 2 * answer.number("setback", "mm")
        assert -1e-9 <= answer.number("deduction", "mm") <= outside + 1e-9
        assert answer.number("allowance", "mm") >= math.radians(angle) * radius - 1e-9

    @sound
    @given(angles=st.tuples(within(1, 180), within(1, 180)), k=within(0, 0.5))
    def test_more_angle_never_takes_less_sheet(self, ask: Calc, angles: tuple[float, float], k: float) -> None:
        less, more = (
            ask("bend", angle=f"{angle} degree", radius="1 mm", thickness="1 mm", k=str(k)).number("allowance", "mm")
            for angle in sorted(angles)
        )
        assert less <= more + 1e-12


class TestSpotLayout:
    @sound
    @given(length=lengths, pitch=st.tuples(pitches, pitches), end=ends, factory=counts)
    def test_more_pitch_never_more_welds(
        self, ask: Calc, length: float, pitch: tuple[float, float], end: float, factory: int
    ) -> None:
        close, wide = sorted(pitch)
        assert welds(ask, length, wide, end, factory) <= welds(ask, length, close, end, factory)

    @sound
    @given(length=st.tuples(lengths, lengths), pitch=pitches, end=ends, factory=counts, least=within(0, 60, 1))
    def test_a_longer_seam_never_fewer_welds(
        self, ask: Calc, length: tuple[float, float], pitch: float, end: float, factory: int, least: float
    ) -> None:
        short, long = sorted(length)
        assert welds(ask, short, pitch, end, factory, least) <= welds(ask, long, pitch, end, factory, least)

    @sound
    @given(length=lengths, pitch=pitches, end=ends, factory=counts, uplift=factors)
    def test_never_fewer_than_the_factory_count_without_a_least_pitch(
        self, ask: Calc, length: float, pitch: float, end: float, factory: int, uplift: float
    ) -> None:
        assert welds(ask, length, pitch, end, factory, uplift=uplift) >= factory * uplift - 1e-6

    @sound
    @given(length=lengths, pitch=pitches, end=ends, factory=counts, least=within(1, 60, 1))
    def test_never_closer_than_the_least_pitch_and_never_fewer_in_silence(
        self, ask: Calc, length: float, pitch: float, end: float, factory: int, least: float
    ) -> None:
        answer = ask("spot-layout", length=f"{length} mm", pitch=f"{pitch} mm", end_distance=f"{end} mm",
                      factory_count=str(factory), least_pitch=f"{least} mm")  # fmt: skip
        if answer.number("count") > 1:
            assert answer.number("spacing", "mm") >= least * (1 - 1e-6)
        fewer = answer.number("count") < 1.3 * factory - 1e-6
        assert any("fewer spots" in said for said in answer.warned("stop")) is fewer


class TestBead:
    @sound
    @given(size=within(1, 20), length=within(0.1, 50), pack=within(50, 1000, 0), waste=within(0, 50, 0))
    def test_the_packs_hold_it_and_one_fewer_does_not(
        self, ask: Calc, size: float, length: float, pack: float, waste: float
    ) -> None:
        answer = ask("bead", profile="half-round", size=f"{size} mm", length=f"{length} m", pack=f"{pack} ml",
                      waste=f"{waste} percent")  # fmt: skip
        packs, needed = answer.number("packs"), answer.number("needed", "ml")
        assert packs * pack >= needed * (1 - 1e-6)
        assert (packs - 1) * pack < needed

    @sound
    @given(size=within(1, 20), length=within(0.1, 50))
    def test_a_square_holds_the_round_which_holds_two_halves(self, ask: Calc, size: float, length: float) -> None:
        square, round_, half, fillet = (
            ask("bead", profile=profile, size=f"{size} mm", length=f"{length} m", pack="310 ml").number("volume", "ml")
            for profile in ("square", "round", "half-round", "fillet")
        )
        assert square > round_ > fillet > half
        assert 2 * half == pytest.approx(round_)
        assert 2 * fillet == pytest.approx(square)


class TestCoverage:
    @sound
    @given(area=within(0.1, 100), film=within(5, 500), solids=within(5, 100), loss=within(0, 95))
    def test_the_solids_that_land_are_the_film(
        self, ask: Calc, area: float, film: float, solids: float, loss: float
    ) -> None:
        answer = ask("coverage", area=f"{area} m**2", dry_film=f"{film} micrometer", solids=f"{solids} percent",
                      loss=f"{loss} percent")  # fmt: skip
        landed = answer.number("volume", "liter") * solids / 100 * (1 - loss / 100)
        assert landed == pytest.approx(area * film / 1000, rel=1e-9)
        covered = answer.number("spreading", "m**2/liter") * answer.number("volume", "liter")
        assert covered == pytest.approx(area, rel=1e-9)

    @sound
    @given(losses=st.tuples(within(0, 95), within(0, 95)))
    def test_more_loss_never_takes_less_paint(self, ask: Calc, losses: tuple[float, float]) -> None:
        less, more = (
            ask("coverage", area="10 m**2", dry_film="60 um", solids="55 percent", loss=f"{loss} percent")
            for loss in sorted(losses)
        )
        assert less.number("volume", "liter") <= more.number("volume", "liter")


class TestRamForce:
    @sound
    @given(area=within(0.5, 100), pressure=within(0, 1000), extensions=st.integers(0, 6), rated=within(0, 500))
    def test_an_extension_and_a_rating_never_allow_more(
        self, ask: Calc, area: float, pressure: float, extensions: int, rated: float
    ) -> None:
        inputs = {"area": f"{area} cm**2", "pressure": f"{pressure} bar"}
        plain = ask("ram-force", **inputs)
        limited = ask("ram-force", **inputs, extensions=str(extensions), rated_force=f"{rated} kN")
        assert limited.number("highest_pressure", "psi") <= plain.number("highest_pressure", "psi")
        assert limited.number("force", "kN") == plain.number("force", "kN") == pytest.approx(area * pressure / 100)
        if rated:
            assert limited.number("highest_force", "kN") <= rated * (1 + 1e-9)
        is_over = pressure > limited.number("highest_pressure", "bar") * (1 + 1e-12)
        assert any("Over the highest" in said for said in limited.warned("stop")) is is_over


class TestNoiseDose:
    @sound
    @given(levels=four(within(80, 115, 1)), times=four(within(0, 2, 2)))
    def test_the_stricter_yardstick_never_finds_less(self, ask: Calc, levels: list[float], times: list[float]) -> None:
        noises = {f"level_{place}": f"{level} dB" for place, level in enumerate(levels, 1)}
        noises |= {f"time_{place}": f"{time} h" for place, time in enumerate(times, 1)}
        answer = ask("noise-dose", **noises)
        # from 77.5 dBA upwards NIOSH allows less time than OSHA: 8 / 2 ** ((L - 85) / 3) < 8 / 2 ** ((L - 90) / 5)
        assert answer.number("niosh_dose", "percent") >= answer.number("osha_dose", "percent")

    @sound
    @given(level=within(60, 115, 1), time=within(0.1, 8, 2), more=within(60, 115, 1), longer=within(0, 4, 2))
    def test_another_noise_never_lessens_the_dose(
        self, ask: Calc, level: float, time: float, more: float, longer: float
    ) -> None:
        one = ask("noise-dose", level_1=f"{level} dB", time_1=f"{time} h")
        two = ask("noise-dose", level_1=f"{level} dB", time_1=f"{time} h", level_2=f"{more} dB", time_2=f"{longer} h")
        for dose in ("osha_dose", "niosh_dose"):
            assert two.number(dose, "percent") >= one.number(dose, "percent")
        assert (one.number("osha_dose", "percent") > 100) <= bool(one.warned("stop"))
