"""Spot layout against published rows: reinforcement bars, drilled holes, and the welding schedule's least pitch.

Counts are whole numbers and must be equal. TRAPS: the weld that floating point loses, and a page that counts one space
too many.
"""

from fractions import Fraction

import pytest

from tests.outside.asking import Calc

NONE = {"factory_count": "0"}


@pytest.mark.parametrize(
    ("length", "pitch", "ends", "count"),
    [
        ("12 ft", "12 inch", "3 inch", 12),  # theprimecalculator.com, rebar spacing, read: 138 in at 12 in
        ("20 ft", "12 inch", "3 inch", 20),  # the same page: 234 in at 12 in
    ],
)
def test_bars(calc: Calc, length: str, pitch: str, ends: str, count: int) -> None:
    answer = calc("spot-layout", length=length, pitch=pitch, end_distance=ends, **NONE)
    assert answer.number("count") == count
    assert answer.number("spacing", "inch") >= 12


def test_holes(calc: Calc) -> None:
    # blog.uds-diy.eu, read: 570 mm, 4 holes, edges 120 and 150 mm, here made equal: 100 mm between centres
    answer = calc("spot-layout", length="570 mm", pitch="100 mm", end_distance="135 mm", **NONE)
    assert answer.number("count") == 4
    assert answer.number("spacing", "mm") == pytest.approx(100, abs=1e-9)
    assert answer.number("first_mark", "mm") == pytest.approx(135, abs=1e-9)


def test_trap_one_space_too_many(calc: Calc) -> None:
    # engineersedge.com, division of lengths, equation 2, read: divides by n + 1 though both edges are taken off
    answer = calc("spot-layout", length="570 mm", pitch="100 mm", end_distance="135 mm", **NONE)
    wrong = (570 - 2 * 135) / (4 + 1)
    assert answer.number("spacing", "mm") != pytest.approx(wrong, abs=1)
    last = answer.number("first_mark", "mm") + (answer.number("count") - 1) * answer.number("spacing", "mm")
    assert last == pytest.approx(570 - 135, abs=1e-9)


@pytest.mark.parametrize(
    ("length", "pitch"),
    [("960 mm", "40 mm"), ("96 cm", "4 cm"), ("0.96 m", "0.04 m"), ("0.96 m", "40 mm"), ("960000 micrometer", "40 mm")],
)
def test_trap_floor_loses_a_weld(calc: Calc, length: str, pitch: str) -> None:
    # the sum of a schoolbook: 24 spaces, 25 posts; in metres a computer finds 23.999... and drops one
    answer = calc("spot-layout", length=length, pitch=pitch, end_distance="0 mm", **NONE)
    assert answer.number("count") == 25
    assert answer.number("spacing", "mm") == pytest.approx(40, abs=1e-9)


@pytest.mark.parametrize("pitch", [7, 12, 15, 19, 25, 33, 35, 40, 55])
def test_trap_every_exact_layout_keeps_its_last_weld(calc: Calc, pitch: int) -> None:
    # exact fractions are the oracle
    for spaces in range(1, 60):
        length = Fraction(pitch * spaces, 10)
        answer = calc("spot-layout", length=f"{float(length)} cm", pitch=f"{pitch} mm", end_distance="0 mm", **NONE)
        assert answer.number("count") == spaces + 1


LEAST = [  # the schedule for SAE 1010, read whole: thickness in inches, least pitch in inches
    (0.031, "1/2"), (0.040, "3/4"), (0.050, "7/8"), (0.062, "1"),
]  # fmt: skip


@pytest.mark.parametrize(("thickness", "least"), LEAST)
def test_the_schedules_least_pitch_has_the_last_word(calc: Calc, thickness: float, least: str) -> None:
    spaces = 11
    length = spaces * float(Fraction(least))
    inputs = {"length": f"{length} inch", "pitch": f"{least} inch", "end_distance": "0 inch"}
    at_least = calc("spot-layout", **inputs, factory_count="9", least_pitch=f"{least} inch")
    assert at_least.number("count") == spaces + 1  # 9 times 1.3 is 11.7, so 12 fit exactly
    assert at_least.warned("stop") == []
    crowded = calc("spot-layout", **inputs, factory_count="12", least_pitch=f"{least} inch")
    assert crowded.number("count") == spaces + 1
    assert crowded.number("least_count") == 16
    assert crowded.word("governs") == "least-pitch"
    assert any("least pitch" in said for said in crowded.warned("stop"))


def test_three_sheets_take_30_percent_more_pitch(calc: Calc) -> None:
    # a reprint's note F, read: 0.75 in becomes 0.975 in (24.77 mm)
    inputs = {"length": "9.75 inch", "pitch": "0.5 inch", "end_distance": "0 inch", "factory_count": "4"}
    assert calc("spot-layout", **inputs, least_pitch="0.75 inch").number("count") == 14
    three = calc("spot-layout", **inputs, least_pitch="0.975 inch")
    assert three.number("count") == 11
    assert three.number("spacing", "mm") == pytest.approx(24.77, abs=0.0051)


def test_no_room(calc: Calc) -> None:
    answer = calc("spot-layout", length="30 mm", pitch="40 mm", end_distance="16 mm", **NONE)
    assert answer.why_not("count") is not None
    assert any("no room" in said for said in answer.warned("stop"))


def test_one_spot_stands_in_the_middle(calc: Calc) -> None:
    answer = calc("spot-layout", length="50 mm", pitch="40 mm", end_distance="15 mm", **NONE)
    assert answer.number("count") == 1
    assert answer.number("first_mark", "mm") == pytest.approx(25, abs=1e-9)
