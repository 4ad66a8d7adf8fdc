"""What must hold of the coating calculators and the three decisions for any input; no figure stands here."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.outside.asking import Calc
from tests.outside.test_properties import sound, within

METALS = st.sampled_from(["gold", "titanium", "copper", "brass", "stainless-18cr", "aluminium-2000", "carbon-steel",
                          "aluminium-5000-6000", "galvanized-steel", "zinc", "magnesium"])  # fmt: skip
PLACES = ("harsh", "normal", "controlled")
YES_NO = st.sampled_from(["yes", "no"])


class TestFilmBuild:
    @sound
    @given(film=within(5, 500), solids=within(20, 100), thinner=within(0, 100), coats=st.integers(1, 5))
    def test_the_wet_film_read_back_is_the_dry_film(
        self, ask: Calc, film: float, solids: float, thinner: float, coats: int
    ) -> None:
        paint = {"dry_film": f"{film} um", "solids": f"{solids} percent", "thinner": f"{thinner} percent"}
        wet = ask("film-build", **paint, coats=str(coats)).number("wet_each", "um")
        back = ask("film-build", **paint, comb=f"{wet:.9f} um").number("dry_reached", "um")
        assert back * coats == pytest.approx(film, rel=1e-6)
        assert wet * coats >= film * (1 - 1e-12)

    @sound
    @given(thinner=st.tuples(within(0, 200), within(0, 200)))
    def test_thinner_never_asks_for_less(self, ask: Calc, thinner: tuple[float, float]) -> None:
        less, more = (
            ask("film-build", dry_film="60 um", solids="55 percent", thinner=f"{part} percent")
            for part in sorted(thinner)
        )
        assert less.number("wet_film", "um") <= more.number("wet_film", "um")


class TestMix:
    @sound
    @given(
        total=within(1, 5000), a=within(0.5, 100), b=within(0.1, 100), c=within(0, 50), rho=within(0.7, 2),
        third=st.sampled_from(["parts", "percent"]), by=st.sampled_from(["volume", "weight"]),
    )  # fmt: skip
    def test_the_parts_are_the_whole_and_the_scale_never_falls(
        self, ask: Calc, total: float, a: float, b: float, c: float, rho: float, third: str, by: str
    ) -> None:
        answer = ask("mix", total=f"{total} ml", part_a=str(a), part_b=str(b), part_c=str(c), third=third, by=by,
                      density_a=f"{rho} g/ml", density_b="1.02 g/ml", density_c="0.87 g/ml")  # fmt: skip
        volumes = [answer.number(f"volume_{part}", "ml") for part in "abc"]
        assert sum(volumes) == pytest.approx(total, rel=1e-9)
        scale = [answer.number(f"scale_{part}", "g") for part in "abc"]
        assert scale == sorted(scale)
        assert scale[2] == pytest.approx(volumes[0] * rho + volumes[1] * 1.02 + volumes[2] * 0.87, rel=1e-9)
        if by == "weight":
            assert answer.number("mass_b_per_100_a") == pytest.approx(100 * b / a, rel=1e-9)


class TestCureTime:
    @sound
    @given(shops=st.tuples(within(10, 50, 1), within(10, 50, 1)), factor=within(1, 4, 2))
    def test_colder_is_never_sooner(self, ask: Calc, shops: tuple[float, float], factor: float) -> None:
        cold, warm = (
            ask("cure-time", sheet_time="10 h", sheet_temperature="20 degC", shop_temperature=f"{shop} degC",
                 factor=str(factor), least_temperature="10 degC")
            for shop in sorted(shops)
        )  # fmt: skip
        assert cold.number("time", "h") >= warm.number("time", "h") * (1 - 1e-12)
        for answer in (cold, warm):
            assert answer.number("shortest", "h") <= answer.number("time", "h") <= answer.number("longest", "h")

    @sound
    @given(shop=within(-40, 150, 1), least=within(-20, 60, 1))
    def test_no_figure_below_the_least_temperature(self, ask: Calc, shop: float, least: float) -> None:
        answer = ask("cure-time", sheet_time="10 h", sheet_temperature="20 degC", shop_temperature=f"{shop} degC",
                      factor="2", least_temperature=f"{least} degC")  # fmt: skip
        is_answered = answer.why_not("time") is None
        assert is_answered is (least <= shop and 0 <= shop <= 50)
        assert is_answered is (answer.warned("stop") == [])


class TestRecoatWindow:
    @sound
    @given(
        ago=within(0, 60), least=within(0, 24), more=within(0.1, 48), shop=within(10, 50, 1), sheet=within(10, 50, 1)
    )
    def test_it_never_coats_outside_the_window_of_the_sheet(
        self, ask: Calc, ago: float, least: float, more: float, shop: float, sheet: float
    ) -> None:
        answer = ask("recoat-window", applied_ago=f"{ago} h", least=f"{least} h", most=f"{least + more} h",
                      shop_temperature=f"{shop} degC", sheet_temperature=f"{sheet} degC")  # fmt: skip
        assert answer.number("earliest", "h") >= least * (1 - 1e-9)
        assert answer.number("latest", "h") <= (least + more) * (1 + 1e-9)
        if answer.word("advice") == "coat-now":
            assert least * (1 - 1e-6) - 1e-6 <= ago <= (least + more) * (1 + 1e-6) + 1e-6
            assert answer.warned("stop") == []
        else:
            assert answer.warned("stop") != []


class TestGalvanicPair:
    @sound
    @given(one=METALS, other=METALS, place=st.sampled_from(PLACES))
    def test_it_does_not_matter_which_is_named_first(self, ask: Calc, one: str, other: str, place: str) -> None:
        here = ask("galvanic-pair", metal_a=one, metal_b=other, place=place)
        there = ask("galvanic-pair", metal_a=other, metal_b=one, place=place)
        assert here.number("difference", "V") == there.number("difference", "V")
        assert here.number("passes") == there.number("passes")
        turned = {"first": "second", "second": "first", "neither": "neither"}
        assert here.word("anode") == turned[there.word("anode")]
        assert here.word("advice") == there.word("advice")

    @sound
    @given(one=METALS, other=METALS)
    def test_a_milder_place_never_admits_less(self, ask: Calc, one: str, other: str) -> None:
        found = [ask("galvanic-pair", metal_a=one, metal_b=other, place=place).number("passes") for place in PLACES]
        assert found == sorted(found)

    @sound
    @given(one=METALS, other=METALS, third=METALS)
    def test_differences_add_up(self, ask: Calc, one: str, other: str, third: str) -> None:
        def apart(a: str, b: str) -> float:
            return ask("galvanic-pair", metal_a=a, metal_b=b, place="harsh").number("difference", "V")

        assert apart(one, third) <= apart(one, other) + apart(other, third) + 1e-12


STANDING_STILL = {"ask-again", "gain-access-first", "judge-the-flange"}
FORCE = {  # how much a way asks of the sheet that stays
    "stop-and-gain-access": 0, "measure-first": 0, "not-a-spot": 0, "piece-by-piece": 1, "mill-scrap": 1,
    "mill-top-sheet": 1, "mill-plug-side": 1, "drill-kept-as-plug-holes": 2, "weaken-and-part": 2, "break-open": 3,
}  # fmt: skip
stacks = st.fixed_dictionaries({
    "joint": st.sampled_from(["spot", "spot", "spot", "bond", "plug"]),
    "layers": st.integers(2, 5).map(str),
    "kept": st.sampled_from(["back", "front", "middle", "both"]),
    "kept_thickness": st.sampled_from(["0.7 mm", "1.0 mm", "1.5 mm"]),
    "scrap_thickness": st.sampled_from(["0.7 mm", "1.0 mm", "1.5 mm"]),
    "flange_width": st.sampled_from(["8 mm", "12 mm", "20 mm"]),
    "backed": YES_NO, "scrap_face_reach": YES_NO, "edge_reach": YES_NO, "lip_reuse": YES_NO, "rusted": YES_NO,
    "delicate": YES_NO,
})  # fmt: skip


class TestFreeWelds:
    @sound
    @given(stack=stacks, known=st.sampled_from(["mild", "high-strength", "advanced"]))
    def test_unknown_is_never_looser_than_known(self, ask: Calc, stack: dict[str, str], known: str) -> None:
        def force(strength: str) -> int:
            answer = ask("free-welds", **stack, strength=strength)
            return 0 if answer.word("then") in STANDING_STILL else FORCE[answer.word("advice")]

        assert force("unknown") <= force(known)
        assert ask("free-welds", **stack, strength="unknown").word("advice") not in {"break-open", "weaken-and-part"}

    @sound
    @given(stack=stacks, strength=st.sampled_from(["mild", "high-strength", "advanced", "unknown"]))
    def test_the_makers_way_always_wins(self, ask: Calc, stack: dict[str, str], strength: str) -> None:
        assert ask("free-welds", **stack, strength=strength, maker="yes").word("advice") == "follow-maker"

    @sound
    @given(stack=stacks, strength=st.sampled_from(["mild", "high-strength", "advanced", "unknown"]))
    def test_a_chisel_only_where_the_scrap_gives_way(self, ask: Calc, stack: dict[str, str], strength: str) -> None:
        answer = ask("free-welds", **stack, strength=strength)
        if answer.word("advice") == "break-open":
            assert strength == "mild"
            assert stack["scrap_thickness"] <= stack["kept_thickness"]
            assert (stack["backed"], stack["edge_reach"], stack["lip_reuse"]) == ("yes", "yes", "no")
        if stack["scrap_face_reach"] == "no":
            assert answer.word("advice") != "mill-top-sheet"
            assert answer.word("advice") != "mill-scrap" or answer.word("then") in STANDING_STILL


KEPT_AS_IT_IS = {"straighten-cold", "metal-finish", "clean-and-encapsulate", "fabricate-patch", "fabricate-flange"}
damages = st.fixed_dictionaries({
    "zone": st.sampled_from(["mount", "closed-section", "load-path", "flat-floor", "skin"]),
    "shape": st.sampled_from(["as-made", "bent", "kinked", "torn"]),
    "metal": st.sampled_from(["sound", "scale", "thinned", "perforated", "flange-gone"]),
    "lost": st.sampled_from(["0 percent", "20 percent", "50 percent"]),
    "returns": st.sampled_from(["yes", "no", "unknown"]), "measured_sound": YES_NO, "faying": YES_NO,
    "back_access": YES_NO, "stretch": st.sampled_from(["small", "large", "unknown"]),
    "part": st.sampled_from(["made", "donor", "none"]),
})  # fmt: skip


class TestRepairOrRenew:
    @sound
    @given(damage=damages, known=st.sampled_from(["mild", "high-strength", "advanced"]))
    def test_unknown_is_never_looser_than_known(self, ask: Calc, damage: dict[str, str], known: str) -> None:
        unknown = ask("repair-or-renew", maker="no", **damage, strength="unknown").word("advice")
        other = ask("repair-or-renew", maker="no", **damage, strength=known).word("advice")
        if unknown in KEPT_AS_IT_IS:
            assert other in KEPT_AS_IT_IS
        if known == "advanced":
            assert unknown == other

    @sound
    @given(damage=damages, strength=st.sampled_from(["mild", "high-strength", "advanced", "unknown"]))
    def test_a_mount_is_never_patched_and_the_maker_always_wins(
        self, ask: Calc, damage: dict[str, str], strength: str
    ) -> None:
        assert ask("repair-or-renew", maker="yes", **damage, strength=strength).word("advice") == "follow-maker"
        answer = ask("repair-or-renew", maker="no", **damage, strength=strength)
        is_hurt = damage["shape"] in {"kinked", "torn"} or damage["metal"] in {"thinned", "perforated", "flange-gone"}
        if damage["zone"] == "mount" and (is_hurt or damage["lost"] != "0 percent"):
            assert answer.word("advice") == "renew-whole-or-refer"
            assert answer.word("consider") != "donor-else-fabricate"
            assert answer.warned("stop") != []

    @sound
    @given(damage=damages, strength=st.sampled_from(["mild", "unknown"]))
    def test_what_nobody_judged_is_never_looser(self, ask: Calc, damage: dict[str, str], strength: str) -> None:
        open_ = damage | {"returns": "unknown", "stretch": "unknown", "measured_sound": "no", "faying": "yes"}
        unjudged = ask("repair-or-renew", maker="no", **open_, strength=strength).word("advice")
        assert unjudged not in {"straighten-cold", "metal-finish", "clean-and-encapsulate"}


WELDED = {"continuous-seam", "weld-bond", "spot", "plug", "sleeve-and-butt", "butt-and-planish", "hem-and-bond",
          "inner-pair-first"}  # fmt: skip
joints = st.fixed_dictionaries({
    "joint": st.sampled_from(["factory-spot", "patch", "door-edge", "section", "skin-joint", "other"]),
    "metals": st.sampled_from(["steel", "steel", "aluminium", "mixed"]),
    "layers": st.integers(2, 5).map(str),
    "to_mount": st.sampled_from(["0 cm", "30 cm", "80 cm"]),
    "faces": st.sampled_from(["both", "one"]),
    "gun": st.sampled_from(["passes", "fails", "not-tried"]),
    "stack_fits": st.sampled_from(["yes", "no", "unknown"]),
    "adhesive": YES_NO,
    "may_section": st.sampled_from(["yes", "no", "unknown"]),
})  # fmt: skip


class TestJoinMethod:
    @sound
    @given(joint=joints, known=st.sampled_from(["mild", "high-strength", "advanced"]))
    def test_unknown_steel_is_never_welded(self, ask: Calc, joint: dict[str, str], known: str) -> None:
        unknown = ask("join-method", maker="no", **joint, strength="unknown")
        assert unknown.word("advice") not in WELDED
        assert unknown.warned("stop") != []
        if known == "advanced":
            assert ask("join-method", maker="no", **joint, strength=known).word("advice") == unknown.word("advice")

    @sound
    @given(joint=joints, strength=st.sampled_from(["mild", "high-strength", "advanced", "unknown"]))
    def test_the_makers_way_always_wins(self, ask: Calc, joint: dict[str, str], strength: str) -> None:
        assert ask("join-method", maker="yes", **joint, strength=strength).word("advice") == "follow-maker"

    @sound
    @given(joint=joints)
    def test_no_spot_without_a_coupon_and_no_section_without_leave(self, ask: Calc, joint: dict[str, str]) -> None:
        advice = ask("join-method", maker="no", **joint, strength="mild").word("advice")
        if advice == "spot":
            assert (joint["gun"], joint["faces"], joint["stack_fits"]) == ("passes", "both", "yes")
        if advice == "sleeve-and-butt":
            assert joint["may_section"] == "yes"
        if joint["joint"] == "patch" and joint["metals"] == "steel":
            assert advice not in {"plug", "spot"}


class TestVapourLimit:
    @sound
    @given(solvents=st.tuples(within(0, 500), within(0, 500)), cavity=within(1, 200), limit=within(0.5, 10, 2))
    def test_more_solvent_is_never_safer(
        self, ask: Calc, solvents: tuple[float, float], cavity: float, limit: float
    ) -> None:
        less, more = (
            ask("vapour-limit", cavity=f"{cavity} liter", solvent=f"{solvent} ml", density="0.87 g/ml",
                 molar_mass="106", lower_limit=f"{limit} percent")
            for solvent in sorted(solvents)
        )  # fmt: skip
        assert less.number("share", "percent") <= more.number("share", "percent")
        assert len(less.warned("stop")) <= len(more.warned("stop"))


class TestLampDrop:
    @sound
    @given(distance=within(1, 20, 2), height=within(400, 1200, 1), aim=within(0, 3, 2))
    def test_the_mark_lies_in_the_band_where_the_aim_does(
        self, ask: Calc, distance: float, height: float, aim: float
    ) -> None:
        answer = ask("lamp-drop", distance=f"{distance} m", lamp_height=f"{height} mm", aim=f"{aim} percent")
        top, mark, bottom = (answer.number(name, "mm") for name in ("band_top", "mark", "band_bottom"))
        assert height >= top > bottom
        is_outside = any("outside the band" in said for said in answer.warned("care"))
        if not is_outside:
            assert bottom - 1e-6 <= mark <= top + 1e-6


class TestToeTape:
    @sound
    @given(front=within(1300, 1600, 1), toe=within(-20, 20, 1), width=within(300, 800, 1))
    def test_in_and_out_mirror_each_other(self, ask: Calc, front: float, toe: float, width: float) -> None:
        def angle(ahead: float, behind: float) -> float:
            answer = ask("toe-tape", front=f"{ahead:.1f} mm", rear=f"{behind:.1f} mm", width=f"{width} mm")
            return answer.number("toe_angle", "degree")

        assert angle(front, front + toe) == pytest.approx(-angle(front + toe, front), abs=1e-9)
        # an arcsine is at least its argument, and for these within one in a thousand of it
        radians = abs(toe) / width
        assert radians * (1 - 1e-9) <= math.radians(abs(angle(front, front + toe))) <= radians * 1.001 + 1e-9
