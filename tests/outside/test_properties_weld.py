"""What must hold of each welding calculator for any input, found by hypothesis; no figure stands here."""

import math

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.outside.asking import Answer, Calc
from tests.sweeps import examples

sound = settings(max_examples=examples(120), deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


def within(low: float, high: float, places: int = 2) -> st.SearchStrategy[float]:
    """Decimal numbers as people type them."""
    scale = 10**places
    return st.integers(math.ceil(low * scale), math.floor(high * scale)).map(lambda whole: whole / scale)


def two(each: st.SearchStrategy[float]) -> st.SearchStrategy[list[float]]:
    """Two of them, the smaller first."""
    return st.lists(each, min_size=2, max_size=2).map(sorted)


coatings = st.sampled_from(["bare", "hot-dip-zinc", "electro-zinc"])
steels = st.sampled_from(["high-strength", "advanced", "unknown"])
failures, yes_or_no = st.sampled_from(["button", "partial", "flat", "crack"]), st.sampled_from(["yes", "no"])
body_sheet = within(0.41, 3.0)
SETTINGS = ("force", "weld_time", "cycles", "current")


def schedule(ask: Calc, thickness: float, coating: str, mains: int = 50, **more: str) -> Answer:
    return ask("spot-schedule", thickness=f"{thickness} mm", coating=coating, mains=f"{mains} Hz", **more)


def is_stopped(answer: Answer) -> bool:
    return answer.warned("stop") != []


class TestSpotSchedule:
    @sound
    @given(sheets=two(body_sheet), coating=coatings)
    def test_thicker_sheet_never_takes_less(self, ask: Calc, sheets: list[float], coating: str) -> None:
        thin, thick = (schedule(ask, sheet, coating) for sheet in sheets)
        for output, unit in (("force", "kN"), ("weld_time", "ms"), ("current", "kA"), ("tip_face", "mm"),
                             ("least_pitch", "mm"), ("least_overlap", "mm"), ("nugget", "mm")):  # fmt: skip
            assert thin.number(output, unit) <= thick.number(output, unit) * (1 + 1e-9)

    @sound
    @given(sheet=body_sheet)
    def test_hot_dip_zinc_never_takes_less_than_bare(self, ask: Calc, sheet: float) -> None:
        bare, zinc = schedule(ask, sheet, "bare"), schedule(ask, sheet, "hot-dip-zinc")
        for output, unit in (("force", "kN"), ("current", "kA")):
            assert zinc.number(output, unit) >= bare.number(output, unit)

    @sound
    @given(sheet=body_sheet, coating=coatings)
    def test_cycles_go_with_the_mains_and_time_does_not(self, ask: Calc, sheet: float, coating: str) -> None:
        fifty, sixty = (schedule(ask, sheet, coating, mains) for mains in (50, 60))
        assert fifty.number("weld_time", "ms") == pytest.approx(sixty.number("weld_time", "ms"), rel=1e-12)
        assert 6 * fifty.number("cycles") == pytest.approx(5 * sixty.number("cycles"), rel=1e-12)
        assert fifty.number("cycles") == pytest.approx(fifty.number("weld_time", "s") * 50, rel=1e-12)

    @sound
    @given(sheet=within(0.1, 10), coating=coatings, strength=steels, gun=within(0, 20))
    def test_other_steel_is_never_answered_and_always_stopped(
        self, ask: Calc, sheet: float, coating: str, strength: str, gun: float
    ) -> None:
        answer = schedule(ask, sheet, coating, strength=strength, force_available=f"{gun} kN")
        assert [output for output in SETTINGS if answer.why_not(output) is None] == []
        assert is_stopped(answer)

    @sound
    @given(sheet=body_sheet, coating=coatings, force=two(within(0.1, 20)), current=two(within(0.1, 50)))
    def test_a_weaker_gun_is_never_warned_of_less(
        self, ask: Calc, sheet: float, coating: str, force: list[float], current: list[float]
    ) -> None:
        weak, strong = (
            schedule(ask, sheet, coating, force_available=f"{press} kN", current_available=f"{amperes} kA")
            for press, amperes in zip(force, current, strict=True)
        )
        assert len(weak.warned("stop")) >= len(strong.warned("stop"))
        is_short = strong.number("force", "kN") > force[1] or strong.number("current", "kA") > current[1]
        spoken = [said for said in strong.warned("stop") + strong.warned("care") if "the least ISO" in said]
        assert (spoken != []) is is_short


class TestSpotNugget:
    @sound
    @given(sheets=st.lists(within(0.4, 3), min_size=3, max_size=3))
    def test_any_order_of_three_has_one_governing_sheet(self, ask: Calc, sheets: list[float]) -> None:
        answers = [
            ask("spot-nugget", sheet_1=f"{first} mm", sheet_2=f"{second} mm", sheet_3=f"{third} mm")
            for first, second, third in (sheets, sheets[::-1], sheets[1:] + sheets[:1])
        ]
        found = {answer.number("governing", "mm") for answer in answers}
        assert len(found) == 1
        assert found.pop() == pytest.approx(sorted(sheets)[1], rel=1e-12)

    @sound
    @given(sheets=st.lists(within(0.4, 3), min_size=2, max_size=4))
    def test_no_interface_asks_more_than_its_sheets(self, ask: Calc, sheets: list[float]) -> None:
        answer = ask("spot-nugget", **{f"sheet_{place}": f"{sheet} mm" for place, sheet in enumerate(sheets, 1)})
        for place in (1, 2, 3):
            output = f"interface_{place}"
            if place >= len(sheets):
                assert answer.why_not(output) is not None
                continue
            asked = answer.number(output, "mm")
            assert asked**2 == pytest.approx(16 * min(sheets[place - 1 : place + 1]), rel=1e-9)
        assert (answer.why_not("least_nugget") is None) is (len(sheets) < 4)
        if len(sheets) == 4:
            assert is_stopped(answer)
        else:
            assert answer.number("setup_nugget", "mm") > answer.number("least_nugget", "mm")


class TestButtonCheck:
    @sound
    @given(sheet=within(0.5, 3), widths=st.tuples(within(0, 20), within(0, 20)), failure=failures, second=yes_or_no)
    def test_size_never_passes_alone(
        self, ask: Calc, sheet: float, widths: tuple[float, float], failure: str, second: str
    ) -> None:
        inputs = {"thickness": f"{sheet} mm", "width_1": f"{widths[0]} mm", "width_2": f"{widths[1]} mm",
                  "failure": failure}  # fmt: skip
        answer = ask("button-check", **inputs, second_spot=second)
        assert answer.number("passes") in ({0, 1} if failure == "button" else {0})
        assert answer.number("setup_proven") == (answer.number("passes") if second == "yes" else 0)
        assert (answer.word("verdict") == "good") is (answer.number("setup_proven") == 1)
        assert (answer.number("passes") == 0) is any("Do not weld on the car" in said for said in answer.warned("stop"))
        # where nobody says which spot it was, never more is allowed than for a first spot
        assert ask("button-check", **inputs).number("setup_proven") == 0

    @sound
    @given(sheet=within(0.5, 3), widths=st.tuples(within(0, 20), within(0, 20)))
    def test_the_order_of_the_widths_is_no_matter(self, ask: Calc, sheet: float, widths: tuple[float, float]) -> None:
        one, other = (
            ask("button-check", thickness=f"{sheet} mm", width_1=f"{first} mm", width_2=f"{second} mm",
                failure="button")
            for first, second in (widths, widths[::-1])
        )  # fmt: skip
        assert one.number("button", "mm") == pytest.approx(other.number("button", "mm"), rel=1e-12)
        assert one.number("passes") == other.number("passes")


class TestFlangeCheck:
    @sound
    @given(flange=within(5, 40, 1), radius=within(0, 10, 1), tip=within(3, 12, 1), edge=within(0, 15, 1))
    def test_a_tip_that_passes_lies_wholly_on_the_land(
        self, ask: Calc, flange: float, radius: float, tip: float, edge: float
    ) -> None:
        answer = ask("flange-check", flange=f"{flange} mm", radius=f"{radius} mm", tip_face=f"{tip} mm",
                     edge_distance=f"{edge} mm")  # fmt: skip
        line, land = answer.number("centre_line", "mm"), max(flange - radius, 0)
        fits = line - tip / 2 >= -1e-6 and line + tip / 2 <= land + 1e-6
        assert (answer.number("passes") == 1) is fits
        assert is_stopped(answer) is not fits
        assert line >= edge - 1e-9
        assert 0 <= answer.number("widest_tip", "mm") <= land + 1e-9

    @sound
    @given(flanges=two(within(5, 40, 1)), radius=within(0, 10, 1), edge=within(0, 15, 1))
    def test_a_wider_flange_never_takes_a_smaller_tip(
        self, ask: Calc, flanges: list[float], radius: float, edge: float
    ) -> None:
        narrow, wide = (
            ask("flange-check", flange=f"{flange} mm", radius=f"{radius} mm", tip_face="5 mm",
                edge_distance=f"{edge} mm").number("widest_tip", "mm")
            for flange in flanges
        )  # fmt: skip
        assert narrow <= wide + 1e-9


class TestSpotStrength:
    @sound
    @given(sheets=two(within(0.4, 3)), strengths=two(within(200, 1300, 0)))
    def test_thicker_and_stronger_never_hold_less(self, ask: Calc, sheets: list[float], strengths: list[float]) -> None:
        less, more = (
            ask("spot-strength", thickness=f"{sheet} mm", tensile_strength=f"{strength} MPa")
            for sheet, strength in zip(sheets, strengths, strict=True)
        )
        for output in ("shear", "cross_tension"):
            assert less.number(output, "kN") <= more.number(output, "kN") * (1 + 1e-9)
        assert any("Never fewer welds" in said for said in less.warned("care"))


class TestPlugWeld:
    @sound
    @given(hole=within(1, 40, 1), sheet=within(0.3, 3), spots=st.integers(0, 1000), nugget=within(1, 20, 1))
    def test_never_fewer_plugs_than_spots(
        self, ask: Calc, hole: float, sheet: float, spots: int, nugget: float
    ) -> None:
        answer = ask("plug-weld", hole=f"{hole} mm", sheet=f"{sheet} mm", spots_replaced=str(spots),
                     nugget=f"{nugget} mm")  # fmt: skip
        assert answer.number("plugs") >= spots
        # nor less rim in all than the spots had
        assert answer.number("plugs") * hole >= spots * nugget * (1 - 1e-6)
        if hole >= nugget:
            assert answer.number("plugs") == spots

    @sound
    @given(hole=within(3, 20, 1), sheet=within(0.3, 3), plugs=st.integers(0, 200), wire=within(0.5, 1.6, 1),
           crown=within(0, 3, 1), efficiency=st.integers(50, 100))  # fmt: skip
    def test_the_wire_that_stays_is_the_weld(
        self, ask: Calc, hole: float, sheet: float, plugs: int, wire: float, crown: float, efficiency: int
    ) -> None:
        answer = ask("plug-wire", hole=f"{hole} mm", sheet=f"{sheet} mm", plugs=str(plugs), wire=f"{wire} mm",
                     crown=f"{crown} mm", efficiency=f"{efficiency} percent")  # fmt: skip
        volume = answer.number("volume", "mm**3")
        drawn = answer.number("wire_length", "mm") * math.pi / 4 * wire**2
        assert drawn * efficiency / 100 == pytest.approx(volume, rel=1e-9)
        without = plugs * math.pi / 4 * hole**2 * sheet
        assert without * (1 - 1e-9) <= volume
        # a cap no higher than its radius lies between a cone and a cylinder of its height
        if 2 * crown <= hole:
            cylinder = plugs * math.pi / 4 * hole**2 * crown
            assert cylinder / 3 * (1 - 1e-9) <= volume - without + 1e-9
            assert volume - without <= cylinder * (1 + 1e-9) + 1e-9


class TestWireFeed:
    @sound
    @given(sheets=two(within(0.3, 6)), wires=st.sampled_from([("0.6", "0.8"), ("0.8", "0.9"), ("0.9", "1.2")]))
    def test_thicker_sheet_more_feed_and_thicker_wire_less(
        self, ask: Calc, sheets: list[float], wires: tuple[str, str]
    ) -> None:
        wire = f"{wires[0]} mm"
        thin, thick = (ask("wire-feed", thickness=f"{sheet} mm", wire=wire, joint="lap") for sheet in sheets)
        assert thin.number("feed", "m/min") <= thick.number("feed", "m/min") * (1 + 1e-12)
        wider = ask("wire-feed", thickness=f"{sheets[0]} mm", wire=f"{wires[1]} mm", joint="lap")
        assert wider.number("feed", "m/min") < thin.number("feed", "m/min")

    @sound
    @given(sheet=within(0.3, 10), wire=within(0.1, 3))
    def test_a_plug_is_never_given_a_figure(self, ask: Calc, sheet: float, wire: float) -> None:
        answer = ask("wire-feed", thickness=f"{sheet} mm", wire=f"{wire} mm", joint="plug")
        assert answer.why_not("current") is not None
        assert answer.why_not("feed") is not None
        assert answer.word("advice") == "hotter-start-from-coupon"


class TestHeatInput:
    @sound
    @given(voltage=within(5, 40, 1), current=within(10, 400, 0), speeds=two(within(50, 2000, 0)),
           process=st.sampled_from(["mag", "tig", "manual-metal-arc"]))  # fmt: skip
    def test_faster_is_never_hotter_and_no_arc_gives_all_it_has(
        self, ask: Calc, voltage: float, current: float, speeds: list[float], process: str
    ) -> None:
        slow, fast = (
            ask("heat-input", voltage=f"{voltage} V", current=f"{current} A", speed=f"{speed} mm/min", process=process)
            for speed in speeds
        )
        assert fast.number("heat_input", "J/mm") <= slow.number("heat_input", "J/mm") * (1 + 1e-12)
        assert 0 < slow.number("heat_input", "J/mm") < slow.number("energy", "J/mm")


class TestTongReach:
    @sound
    @given(reaches=two(within(50, 1500, 0)), gap=within(50, 600, 0), arm=within(8, 45, 0), base=within(20, 1000, 0),
           mains=st.sampled_from([50, 60]))  # fmt: skip
    def test_longer_arms_never_carry_more(
        self, ask: Calc, reaches: list[float], gap: float, arm: float, base: float, mains: int
    ) -> None:
        inputs = {"cylinder_force": "3 kN", "arm_to_cylinder": "200 mm", "arm_to_tip": "400 mm",
                  "gap": f"{gap} mm", "arm_diameter": f"{arm} mm", "base_resistance": f"{base} microohm",
                  "mains": f"{mains} Hz", "short_reach": f"{reaches[0]} mm"}  # fmt: skip
        same, longer, direct = (
            ask("tong-reach", **inputs, **more)
            for more in (
                {"reach": f"{reaches[0]} mm"},
                {"reach": f"{reaches[1]} mm"},
                {"reach": f"{reaches[1]} mm", "supply": "inverter"},
            )
        )
        assert same.number("current_percent", "percent") == pytest.approx(100, rel=1e-9)
        assert 0 < longer.number("current_percent", "percent") <= 100 * (1 + 1e-9)
        assert longer.number("inductance", "nH") >= same.number("inductance", "nH") * (1 - 1e-9)
        assert direct.number("inductance", "nH") > 0
        assert direct.number("current_percent", "percent") <= 100 * (1 + 1e-9)

    @sound
    @given(force=within(0.1, 10), lever=within(50, 500, 0), arms=two(within(100, 1500, 0)))
    def test_a_longer_lever_never_presses_harder(
        self, ask: Calc, force: float, lever: float, arms: list[float]
    ) -> None:
        short, long = (
            ask("tong-reach", cylinder_force=f"{force} kN", arm_to_cylinder=f"{lever} mm", arm_to_tip=f"{arm} mm",
                short_reach="150 mm", reach="300 mm", gap="150 mm", arm_diameter="25 mm",
                base_resistance="200 microohm", mains="50 Hz").number("tip_force", "kN")
            for arm in arms
        )  # fmt: skip
        assert long <= short * (1 + 1e-12)
        assert long * arms[1] == pytest.approx(force * lever, rel=1e-9)


class TestTipCount:
    @sound
    @given(welds=st.integers(0, 5000), each=st.integers(1, 500), bears=st.integers(0, 30))
    def test_the_tips_weld_them_all_and_one_fewer_does_not(self, ask: Calc, welds: int, each: int, bears: int) -> None:
        answer = ask("tip-count", welds=str(welds), welds_per_dressing=str(each), dressings_per_tip=str(bears))
        pairs, dressings = answer.number("tips"), answer.number("dressings")
        assert (pairs + dressings) * each >= welds > (pairs + dressings - 1) * each or welds == 0
        assert 0 <= dressings <= pairs * bears
        if welds:
            assert (pairs - 1) * (bears + 1) * each < welds
