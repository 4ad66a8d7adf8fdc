"""Galvanic pairs against the anodic index (read on secondary pages that agree) and two military orders (read).

Indexes are printed to 0.05 V and asked for exactly. TRAPS: a limit met in floating volts, zinc on steel called a fault,
galvanized and plated zinc as one row, a sea-water list taken for this one.
"""

import pytest

from tests.outside.asking import Answer, Calc

INDEX = {  # volts against gold, as the secondary pages print them
    "rhodium-plate": 0.05, "silver": 0.15, "monel": 0.15, "nickel": 0.30, "titanium": 0.30, "copper": 0.35,
    "low-brass": 0.35, "brass": 0.40, "high-brass": 0.45, "stainless-18cr": 0.50, "chromium-plate": 0.60,
    "tin-plate": 0.60, "stainless-12cr": 0.60, "tin-lead-solder": 0.65, "lead": 0.70, "aluminium-2000": 0.75,
    "carbon-steel": 0.85, "aluminium-5000-6000": 0.90, "aluminium-silicon-castings": 0.90,
    "aluminium-other-castings": 0.95, "cadmium-plate": 0.95, "galvanized-steel": 1.20, "zinc": 1.25,
    "magnesium": 1.75, "beryllium": 1.85,
}  # fmt: skip


def pair(calc: Calc, one: str, other: str, place: str = "harsh") -> Answer:
    return calc("galvanic-pair", metal_a=one, metal_b=other, place=place)


@pytest.mark.parametrize(("metal", "volts"), INDEX.items())
def test_each_row_against_gold(calc: Calc, metal: str, volts: float) -> None:
    answer = pair(calc, metal, "gold")
    assert answer.number("difference", "V") == pytest.approx(volts, abs=1e-12)
    assert answer.word("anode") == "first"


WORKED = [  # differences and verdicts worked out apart from the rows: harsh, normal, controlled
    ("carbon-steel", "aluminium-5000-6000", 0.05, (1, 1, 1), "second"),
    ("galvanized-steel", "aluminium-5000-6000", 0.30, (0, 0, 1), "first"),
    ("stainless-18cr", "aluminium-5000-6000", 0.40, (0, 0, 1), "second"),
    ("stainless-18cr", "carbon-steel", 0.35, (0, 0, 1), "second"),
    ("magnesium", "carbon-steel", 0.90, (0, 0, 0), "first"),
    ("gold", "silver", 0.15, (1, 1, 1), "second"),  # exactly the harsh limit, which passes (secondary pages)
    ("copper", "high-brass", 0.10, (1, 1, 1), "second"),
    ("titanium", "copper", 0.05, (1, 1, 1), "second"),
]


@pytest.mark.parametrize(("one", "other", "volts", "verdicts", "anode"), WORKED)
def test_worked_pairs(calc: Calc, one: str, other: str, volts: float, verdicts: tuple[int, ...], anode: str) -> None:
    for place, passes in zip(("harsh", "normal", "controlled"), verdicts, strict=True):
        answer = pair(calc, one, other, place)
        assert answer.number("difference", "V") == pytest.approx(volts, abs=1e-12)
        assert answer.number("passes") == passes
        assert answer.word("anode") == anode
        assert any("Not metal to metal" in said for said in answer.warned("stop")) is not bool(passes)


@pytest.mark.parametrize(
    ("one", "other", "place", "limit"),
    [
        ("aluminium-5000-6000", "aluminium-2000", "harsh", 0.15),  # 0.90 - 0.75
        ("stainless-18cr", "aluminium-2000", "normal", 0.25),  # 0.75 - 0.50
        ("gold", "stainless-18cr", "controlled", 0.50),
    ],
)
def test_trap_a_limit_met_exactly(calc: Calc, one: str, other: str, place: str, limit: float) -> None:
    answer = pair(calc, one, other, place)
    assert answer.number("allowed", "V") == pytest.approx(limit, abs=1e-12)
    assert answer.number("passes") == 1
    assert 0.90 - 0.75 > 0.15  # what a comparison in floating volts would find


@pytest.mark.parametrize("zinc", ["galvanized-steel", "zinc"])
@pytest.mark.parametrize("place", ["harsh", "normal", "controlled"])
def test_trap_zinc_on_steel_is_no_fault(calc: Calc, zinc: str, place: str) -> None:
    for one, other in ((zinc, "carbon-steel"), ("carbon-steel", zinc)):
        answer = pair(calc, one, other, place)
        assert answer.number("passes") == 1
        assert answer.word("advice") == "seal-and-isolate"
        assert answer.word("anode") == ("first" if one == zinc else "second")
        assert answer.warned("stop") == []
        assert any("Seal and isolate" in said for said in answer.warned("note"))


def test_trap_galvanized_and_plated_zinc_are_two_rows(calc: Calc) -> None:
    # 1.20 and 1.25 V, read on secondary pages; some lists print one row
    assert pair(calc, "galvanized-steel", "zinc").number("difference", "V") == pytest.approx(0.05, abs=1e-12)


@pytest.mark.parametrize("metal", ["magnesium", "zinc", "aluminium-5000-6000"])
def test_military_order_on_the_anode_side_of_steel(calc: Calc, metal: str) -> None:
    # MIL-STD-889B, Table II as read at wovenwire.com: magnesium, zinc, aluminium 5052, 3003, 6061 before steel 1010
    assert pair(calc, metal, "carbon-steel").word("anode") == "first"


@pytest.mark.parametrize("metal", ["stainless-12cr", "copper", "nickel"])
def test_military_order_on_the_cathode_side_of_steel(calc: Calc, metal: str) -> None:
    # the same: stainless 410 active, copper and nickel after steel
    assert pair(calc, metal, "carbon-steel").word("anode") == "second"


def test_sea_water_ranks_otherwise_and_the_page_says_so(calc: Calc) -> None:
    # US Naval Research Laboratory, read: aluminium 6061 -0.76, steel -0.61, passive 304 -0.08 V in sea water
    aluminium = pair(calc, "aluminium-5000-6000", "carbon-steel")
    assert aluminium.number("difference", "V") == pytest.approx(0.05, abs=1e-12)
    sea_water = 0.76 - 0.61
    assert sea_water == pytest.approx(3 * aluminium.number("difference", "V"))
    assert aluminium.word("advice") == "isolate-always"
    assert any("0.15 V apart" in said for said in aluminium.warned("care"))
    stainless = pair(calc, "carbon-steel", "stainless-18cr", "controlled")
    assert stainless.number("difference", "V") < 0.61 - 0.08
    assert any("0.53 V" in said for said in stainless.warned("care"))


def test_one_metal_has_no_anode(calc: Calc) -> None:
    answer = pair(calc, "copper", "copper")
    assert (answer.number("difference", "V"), answer.word("anode"), answer.number("passes")) == (0, "neither", 1)
