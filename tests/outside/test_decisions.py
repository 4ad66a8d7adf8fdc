"""The three decisions row by row. They are common practice: no published table was found, so each row is asked once.

Published bits: 30 cm round a mounting is the area a British inspection looks at (official appendix, its opening read);
plugs stand in for spots only where spots were (quoted in a magazine, read); multi-phase and martensitic steel lose
strength at even the lowest straightening heat (automakers' and steel institute's study, read).
"""

import pytest

from tests.outside.asking import Calc

FREE = {
    "joint": "spot", "layers": "2", "kept": "back", "kept_thickness": "1.2 mm", "scrap_thickness": "0.8 mm",
    "flange_width": "16 mm", "backed": "yes", "scrap_face_reach": "yes", "edge_reach": "yes", "strength": "mild",
    "lip_reuse": "no",
}  # fmt: skip
JUDGE = {"maker": "no", "zone": "load-path", "shape": "as-made", "metal": "sound", "strength": "mild"}
JOIN = {
    "maker": "no", "joint": "factory-spot", "strength": "mild", "metals": "steel", "layers": "2", "to_mount": "100 cm",
    "faces": "both", "gun": "passes", "stack_fits": "yes",
}  # fmt: skip

Changed = dict[str, str]

FREE_ROWS: list[tuple[Changed, str, str]] = [  # what is changed, advice, then
    ({"maker": "yes"}, "follow-maker", "go-on-by-the-maker"),
    ({"joint": "seam"}, "not-a-spot", "clean-and-look"),
    ({"joint": "plug", "strength": "unknown"}, "not-a-spot", "clean-and-look"),
    ({"strength": "advanced"}, "mill-scrap", "dress-and-gauge"),
    ({"strength": "unknown", "kept": "both"}, "mill-scrap", "assign-holes"),
    ({"strength": "unknown", "layers": "4"}, "mill-scrap", "ask-again"),
    ({"strength": "unknown", "rusted": "yes"}, "mill-scrap", "judge-the-flange"),
    ({"strength": "unknown", "scrap_face_reach": "no"}, "mill-scrap", "gain-access-first"),
    ({"kept": "both"}, "mill-plug-side", "assign-holes"),
    ({"kept": "front", "scrap_face_reach": "no"}, "drill-kept-as-plug-holes", "assign-holes"),
    ({"kept": "both", "layers": "3"}, "piece-by-piece", "ask-again"),
    ({"layers": "4"}, "piece-by-piece", "ask-again"),
    ({"layers": "3"}, "mill-top-sheet", "dress-and-gauge"),
    ({"rusted": "yes"}, "measure-first", "judge-the-flange"),
    ({"kept_thickness": "0.79 mm"}, "mill-scrap", "dress-and-gauge"),
    ({"flange_width": "11.9 mm"}, "weaken-and-part", "dress-and-gauge"),
    ({"backed": "no"}, "weaken-and-part", "dress-and-gauge"),
    ({"lip_reuse": "yes"}, "weaken-and-part", "dress-and-gauge"),
    ({"delicate": "yes"}, "weaken-and-part", "dress-and-gauge"),
    ({"flange_width": "12 mm"}, "break-open", "dress-and-gauge"),
    ({"kept_thickness": "0.8 mm"}, "break-open", "dress-and-gauge"),
    ({"edge_reach": "no"}, "mill-scrap", "dress-and-gauge"),
    ({"strength": "high-strength"}, "mill-scrap", "dress-and-gauge"),
    ({"edge_reach": "no", "scrap_face_reach": "no"}, "stop-and-gain-access", "ask-again"),
    ({"edge_reach": "no", "scrap_face_reach": "no", "flange_width": "8 mm"}, "stop-and-gain-access", "ask-again"),
]
JUDGE_ROWS: list[tuple[Changed, str]] = [
    ({"maker": "yes", "zone": "mount", "shape": "torn"}, "follow-maker"),
    ({"zone": "mount", "shape": "torn"}, "renew-whole-or-refer"),
    ({"zone": "mount", "shape": "kinked"}, "renew-whole-or-refer"),
    ({"zone": "mount", "metal": "thinned"}, "renew-whole-or-refer"),
    ({"zone": "mount", "lost": "1 percent"}, "renew-whole-or-refer"),
    ({"shape": "kinked", "strength": "advanced"}, "renew"),
    ({"shape": "kinked", "strength": "unknown", "zone": "skin"}, "renew"),
    ({"zone": "closed-section", "shape": "kinked"}, "renew-or-section"),
    ({"zone": "closed-section", "shape": "torn", "strength": "unknown"}, "renew-or-section"),
    ({"shape": "bent", "returns": "yes"}, "straighten-cold"),
    ({"shape": "bent", "returns": "yes", "strength": "high-strength"}, "straighten-cold"),
    ({"shape": "bent", "returns": "yes", "strength": "advanced"}, "stop-and-ask"),
    ({"shape": "bent", "returns": "unknown"}, "stop-and-ask"),
    ({"metal": "perforated"}, "cut-to-sound-metal"),
    ({"lost": "34 percent"}, "cut-to-sound-metal"),
    ({"shape": "bent", "returns": "yes", "metal": "perforated"}, "cut-to-sound-metal"),
    ({"zone": "flat-floor", "metal": "perforated"}, "fabricate-patch"),
    ({"metal": "scale", "measured_sound": "yes", "faying": "no"}, "clean-and-encapsulate"),
    ({"metal": "scale", "measured_sound": "yes"}, "stop-and-ask"),
    ({"metal": "scale", "faying": "no"}, "stop-and-ask"),
    ({"metal": "flange-gone"}, "fabricate-flange"),
    ({"zone": "skin", "shape": "kinked"}, "renew-skin"),
    ({"zone": "skin", "shape": "kinked", "back_access": "yes", "stretch": "small"}, "metal-finish"),
    ({"zone": "skin", "shape": "kinked", "back_access": "yes"}, "stop-and-ask"),
    ({"shape": "torn"}, "stop-and-ask"),
]
JOIN_ROWS: list[tuple[Changed, str]] = [
    ({"maker": "yes", "strength": "unknown", "metals": "mixed"}, "follow-maker"),
    ({"strength": "advanced"}, "maker-only-else-stop"),
    ({"strength": "unknown"}, "maker-only-else-stop"),
    ({"metals": "aluminium"}, "rivet-and-bond"),
    ({"metals": "mixed"}, "rivet-and-bond"),
    ({"joint": "patch", "to_mount": "30 cm"}, "continuous-seam"),
    ({"joint": "patch", "to_mount": "30.1 cm"}, "stop-and-ask"),
    ({"to_mount": "5 cm"}, "spot"),  # a factory spot flange beside a mount is no patch
    ({"layers": "4"}, "inner-pair-first"),
    ({"joint": "door-edge"}, "hem-and-bond"),
    ({"adhesive": "yes"}, "weld-bond"),
    ({"adhesive": "yes", "gun": "fails"}, "plug"),
    ({}, "spot"),
    ({"strength": "high-strength"}, "spot"),
    ({"faces": "one"}, "plug"),
    ({"gun": "fails"}, "plug"),
    ({"gun": "not-tried"}, "stop-and-ask"),
    ({"stack_fits": "unknown"}, "stop-and-ask"),
    ({"stack_fits": "no"}, "stop-and-ask"),
    ({"joint": "section", "may_section": "yes"}, "sleeve-and-butt"),
    ({"joint": "section"}, "stop-and-ask"),
    ({"joint": "section", "may_section": "no"}, "stop-and-ask"),
    ({"joint": "skin-joint"}, "butt-and-planish"),
    ({"joint": "other"}, "stop-and-ask"),
]


@pytest.mark.parametrize(("changed", "advice", "then"), FREE_ROWS)
def test_free_welds(calc: Calc, changed: Changed, advice: str, then: str) -> None:
    answer = calc("free-welds", **(FREE | changed))
    assert (answer.word("advice"), answer.word("then")) == (advice, then)


@pytest.mark.parametrize(("changed", "advice"), JUDGE_ROWS)
def test_repair_or_renew(calc: Calc, changed: Changed, advice: str) -> None:
    assert calc("repair-or-renew", **(JUDGE | changed)).word("advice") == advice


@pytest.mark.parametrize(("changed", "advice"), JOIN_ROWS)
def test_join_method(calc: Calc, changed: Changed, advice: str) -> None:
    assert calc("join-method", **(JOIN | changed)).word("advice") == advice


CONSIDER: list[tuple[Changed, str]] = [
    ({"zone": "mount", "shape": "torn", "part": "none"}, "never-fabricate"),
    ({"shape": "kinked", "strength": "advanced", "part": "none"}, "never-fabricate"),
    ({"zone": "mount", "shape": "torn", "part": "donor"}, "donor-looked-over"),
    ({"zone": "closed-section", "shape": "kinked", "part": "none"}, "donor-else-fabricate"),
    ({"metal": "perforated", "original": "yes"}, "price-both"),
    ({"metal": "perforated", "repair_hours": "12 h", "renew_hours": "11.9 h"}, "offer-renewing"),
    ({"metal": "perforated", "repair_hours": "12 h", "renew_hours": "12 h"}, "go-on"),
    ({"metal": "perforated", "repair_hours": "12 h"}, "go-on"),
]


@pytest.mark.parametrize(("changed", "consider"), CONSIDER)
def test_what_to_consider_after_the_row(calc: Calc, changed: Changed, consider: str) -> None:
    assert calc("repair-or-renew", **(JUDGE | changed)).word("consider") == consider


@pytest.mark.parametrize("strength", ["advanced", "unknown"])
def test_no_heat_on_steel_that_loses_its_strength(calc: Calc, strength: str) -> None:
    judged = calc("repair-or-renew", **(JUDGE | {"strength": strength, "shape": "bent", "returns": "yes"}))
    assert any("No heat on this steel" in said for said in judged.warned("stop"))
    assert judged.word("advice") != "straighten-cold"
    mild = calc("repair-or-renew", **(JUDGE | {"shape": "bent", "returns": "yes"}))
    assert not any("No heat" in said for said in mild.warned("stop"))
    joined = calc("join-method", **(JOIN | {"strength": strength}))
    assert any("Hard or unknown steel" in said for said in joined.warned("stop"))


def test_a_distance_nobody_measured_counts_as_beside_the_mount(calc: Calc) -> None:
    patch = {key: value for key, value in JOIN.items() if key != "to_mount"} | {"joint": "patch"}
    assert calc("join-method", **patch).word("advice") == "continuous-seam"


def test_what_is_left_out_is_taken_the_strict_way(calc: Calc) -> None:
    scale = calc("repair-or-renew", **(JUDGE | {"metal": "scale"}))
    assert scale.word("advice") == "stop-and-ask"
    assert any("not measured" in said for said in scale.warned("care"))
    section = calc("join-method", **(JOIN | {"joint": "section"}))
    assert any("No section joint" in said for said in section.warned("stop"))
