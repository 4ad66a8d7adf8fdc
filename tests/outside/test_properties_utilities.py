"""What must hold of calculators of supply, air, tools, time and staying well for any input; no figure stands here."""

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from tests.outside.asking import Answer, Calc
from tests.outside.test_properties import within
from tests.sweeps import examples

sound = settings(max_examples=examples(100), deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
two = st.tuples


class TestDutyCycle:
    @sound
    @given(rated=within(10, 500, 1), duty=within(1, 100, 1), used=two(within(10, 600, 1), within(10, 600, 1)))
    def test_more_current_never_more_welding(
        self, ask: Calc, rated: float, duty: float, used: tuple[float, float]
    ) -> None:
        less, more = (
            ask("duty-cycle", rated_current=f"{rated} A", rated_duty=f"{duty} percent", used_current=f"{current} A")
            for current in sorted(used)
        )
        assert more.number("duty", "percent") <= less.number("duty", "percent") + 1e-9
        assert 0 < more.number("duty", "percent") <= 100
        assert more.number("continuous_current", "A") <= rated + 1e-9
        both = more.number("weld_time", "min") + more.number("rest_time", "min")
        assert both == pytest.approx(10, rel=1e-12)

    @sound
    @given(rated=within(10, 500, 1), duty=within(1, 100, 1))
    def test_the_current_without_rest_has_full_duty(self, ask: Calc, rated: float, duty: float) -> None:
        given = {"rated_current": f"{rated} A", "rated_duty": f"{duty} percent"}
        free = ask("duty-cycle", **given, used_current=f"{rated} A").number("continuous_current", "A")
        assume(free >= 1)
        again = ask("duty-cycle", **given, used_current=f"{free} A")
        assert again.number("duty", "percent") == pytest.approx(100, rel=1e-9)


class TestGasDuration:
    @sound
    @given(pressure=within(0, 300, 1), residual=two(within(0, 50, 1), within(0, 50, 1)), flow=within(1, 30, 1))
    def test_leaving_more_in_never_lasts_longer(
        self, ask: Calc, pressure: float, residual: tuple[float, float], flow: float
    ) -> None:
        less, more = (
            ask("gas-duration", water_volume="20 liter", pressure=f"{pressure} bar", flow=f"{flow} liter/min",
                residual=f"{left} bar").number("duration", "min")
            for left in sorted(residual)
        )  # fmt: skip
        assert 0 <= more <= less


class TestTurns:
    @sound
    @given(diameter=within(3, 100, 1), cutting=within(1, 100, 1))
    def test_a_drill_turns_back_to_its_cutting_speed(self, ask: Calc, diameter: float, cutting: float) -> None:
        drill = ask("drill-speed", diameter=f"{diameter} mm", cutting_speed=f"{cutting} m/min")
        turns = drill.number("speed", "1/min")
        disc = ask("disc-speed", diameter=f"{diameter} mm", speed=f"{turns} 1/min", marked_speed="80 m/s")
        assert disc.number("surface_speed", "m/min") == pytest.approx(cutting, rel=1e-9)

    @sound
    @given(
        diameter=within(20, 300, 1), speed=st.integers(500, 40_000), marked=within(30, 100, 0),
        turns=st.integers(0, 30_000), look=st.sampled_from(["unsaid", "sound", "doubtful"]),
    )  # fmt: skip
    def test_safe_is_never_over_a_mark_nor_silent(
        self, ask: Calc, diameter: float, speed: int, marked: float, turns: int, look: str
    ) -> None:
        answer = ask("disc-speed", diameter=f"{diameter} mm", speed=f"{speed} 1/min", marked_speed=f"{marked} m/s",
                     marked_turns=f"{turns} 1/min", look=look)  # fmt: skip
        if answer.number("safe") == 1:
            assert answer.number("surface_speed", "m/s") <= marked + 1e-9
            assert turns == 0 or speed <= turns
            assert look != "doubtful"
            assert answer.warned("stop") == []
        else:
            assert answer.warned("stop")


class TestSupplyCurrent:
    @sound
    @given(power=within(0.1, 100), voltage=within(100, 500, 0), factor=two(within(0.1, 1, 2), within(0.1, 1, 2)))
    def test_a_better_power_factor_never_takes_more(
        self, ask: Calc, power: float, voltage: float, factor: tuple[float, float]
    ) -> None:
        poor, good = (
            ask("supply-current", power=f"{power} kW", voltage=f"{voltage} V", phases="3", power_factor=str(part))
            for part in sorted(factor)
        )
        assert good.number("current", "A") <= poor.number("current", "A") + 1e-9
        assert good.number("apparent_power", "kVA") >= power - 1e-9


class TestCableDrop:
    @sound
    @given(
        size=two(within(0.5, 50, 2), within(0.5, 50, 2)), length=two(within(1, 200, 1), within(1, 200, 1)),
        current=within(1, 100, 1),
    )  # fmt: skip
    def test_thicker_and_shorter_never_loses_more(
        self, ask: Calc, size: tuple[float, float], length: tuple[float, float], current: float
    ) -> None:
        (thin, thick), (short, long) = sorted(size), sorted(length)
        worse, better = self.at(ask, thin, long, current), self.at(ask, thick, short, current)
        if worse.why_not("drop") is None:
            assert better.number("drop", "V") <= worse.number("drop", "V") + 1e-12
            assert 0 < worse.number("drop_percent", "percent") < 100
        assert len(better.warned("stop")) <= len(worse.warned("stop"))
        assert better.number("awg") <= worse.number("awg") + 1e-9

    @sound
    @given(size=within(0.5, 50, 2), degrees=two(within(-20, 120, 0), within(-20, 120, 0)))
    def test_warmer_is_never_better_nor_aluminium(self, ask: Calc, size: float, degrees: tuple[float, float]) -> None:
        cold, warm = (self.at(ask, size, 10, 10, temperature=f"{told} degC") for told in sorted(degrees))
        assert cold.number("drop", "V") <= warm.number("drop", "V") + 1e-12
        aluminium = self.at(ask, size, 10, 10, temperature=f"{max(degrees)} degC", metal="aluminium")
        assert warm.number("drop", "V") < aluminium.number("drop", "V")

    @staticmethod
    def at(ask: Calc, size: float, length: float, current: float, **more: str) -> Answer:
        given = {"supply": "230 V", "metal": "copper"} | more
        return ask("cable-drop", size=f"{size} mm**2", length=f"{length} m", current=f"{current} A", **given)


class TestAir:
    @sound
    @given(flow=within(1, 60, 1), length=within(1, 50, 1), bore=two(within(4, 25, 1), within(4, 25, 1)))
    def test_a_wider_hose_never_loses_more(
        self, ask: Calc, flow: float, length: float, bore: tuple[float, float]
    ) -> None:
        thin, wide = (
            ask("hose-drop", flow=f"{flow} m**3/h", length=f"{length} m", bore=f"{inside} mm", pressure="7 bar")
            for inside in sorted(bore)
        )
        if thin.why_not("drop") is None:
            assert wide.number("drop", "bar") <= thin.number("drop", "bar") + 1e-12
            assert 0 < thin.number("left", "bar") <= 7
        else:
            assert any("cannot pass" in said for said in thin.warned("care"))

    @sound
    @given(volume=within(1, 2000, 1), low=within(0, 10, 2), high=within(0, 10, 2), flow=within(1, 100, 1))
    def test_filling_and_emptying_take_the_same_time(
        self, ask: Calc, volume: float, low: float, high: float, flow: float
    ) -> None:
        up, down = (
            ask("receiver-time", volume=f"{volume} liter", from_pressure=f"{start} bar", to_pressure=f"{end} bar",
                flow=f"{flow} m**3/h")
            for start, end in ((low, high), (high, low))
        )  # fmt: skip
        assert up.number("time", "min") == pytest.approx(down.number("time", "min"), rel=1e-12)
        assert up.number("time", "min") >= 0


class TestTorqueAdapter:
    @sound
    @given(wrench=within(150, 1000, 0), adapter=within(0, 140, 0), angles=two(within(0, 180, 1), within(0, 180, 1)))
    def test_turning_back_never_sets_lower(
        self, ask: Calc, wrench: float, adapter: float, angles: tuple[float, float]
    ) -> None:
        ahead, back = (
            ask("torque-adapter", torque="100 N*m", wrench=f"{wrench} mm", adapter=f"{adapter} mm",
                angle=f"{angle} degree").number("setting", "N*m")
            for angle in sorted(angles)
        )  # fmt: skip
        assert ahead <= back + 1e-9
        assert 100 * wrench / (wrench + adapter) - 1e-9 <= ahead


class TestTimeEstimate:
    @sound
    @given(figures=two(within(0, 100, 1), within(0, 100, 1), within(0, 100, 1)), rust=within(1, 5, 2))
    def test_between_its_ends_and_rust_never_less(
        self, ask: Calc, figures: tuple[float, float, float], rust: float
    ) -> None:
        least, likely, most = sorted(figures)
        given = {"least": f"{least} h", "likely": f"{likely} h", "most": f"{most} h"}
        plain, rusty = ask("time-estimate", **given), ask("time-estimate", **given, rust_factor=str(rust))
        assert least - 1e-9 <= plain.number("mean", "h") <= most + 1e-9
        assert plain.number("spread", "h") >= 0
        for output in ("mean", "spread", "lowest", "highest"):
            assert rusty.number(output, "h") >= plain.number(output, "h") - 1e-9


class TestHotWorkClock:
    @sound
    @given(closing=within(12, 30, 2), watch=within(0, 4, 2), tidy=within(0, 2, 2))
    def test_all_of_it_ends_at_closing_and_the_clock_is_never_late(
        self, ask: Calc, closing: float, watch: float, tidy: float
    ) -> None:
        answer = ask("hot-work-clock", closing=f"{closing} h", watch=f"{watch} h", tidy=f"{tidy} h")
        latest = answer.number("latest_stop", "h")
        assert latest + watch + tidy == pytest.approx(closing, abs=1e-9)
        minutes = answer.number("stop_hour") * 60 + answer.number("stop_minute")
        assert latest * 60 - 1 < minutes <= latest * 60 + 1e-6
        assert 0 <= answer.number("stop_minute") <= 59


class TestEyeShade:
    @sound
    @given(
        process=st.sampled_from(["mag", "tig", "manual-metal-arc", "plasma-cut"]),
        currents=two(within(1, 500, 1), within(1, 500, 1)),
    )
    def test_more_current_never_lighter(self, ask: Calc, process: str, currents: tuple[float, float]) -> None:
        less, more = (
            ask("eye-shade", process=process, current=f"{amps} A").number("shade") for amps in sorted(currents)
        )
        assert less <= more


class TestAirLimits:
    @sound
    @given(
        air=st.lists(within(0, 20, 2), min_size=3, max_size=3),
        limits=st.lists(within(0.1, 20, 2), min_size=3, max_size=3),
        holds=st.sampled_from(["unsaid", "neither", "isocyanate", "chromate"]),
    )  # fmt: skip
    def test_one_more_substance_never_passes_what_failed(
        self, ask: Calc, air: list[float], limits: list[float], holds: str
    ) -> None:
        given: dict[str, str] = {}
        sums, passes = [], []
        for place, (value, limit) in enumerate(zip(air, limits, strict=True), 1):
            given |= {f"concentration_{place}": f"{value} mg/m**3", f"limit_{place}": f"{limit} mg/m**3"}
            answer = ask("exposure-mix", **given, holds=holds)
            sums.append(answer.number("sum"))
            passes.append(answer.number("passes"))
        assert sums == sorted(sums)
        assert passes == sorted(passes, reverse=True)
        assert holds in ("unsaid", "neither") or passes == [0, 0, 0]

    @sound
    @given(release=within(1, 5000, 0), limit=two(within(1, 1000, 0), within(1, 1000, 0)), mixing=within(1, 10, 1))
    def test_a_stricter_limit_never_takes_less_air(
        self, ask: Calc, release: float, limit: tuple[float, float], mixing: float
    ) -> None:
        strict, loose = (
            ask("dilution-air", release=f"{release} mg/min", limit=f"{each} mg/m**3", mixing=str(mixing))
            for each in sorted(limit)
        )
        assert strict.number("flow", "m**3/h") >= loose.number("flow", "m**3/h") - 1e-9
        assert loose.number("flow", "m**3/h") >= loose.number("perfect", "m**3/h") - 1e-9
