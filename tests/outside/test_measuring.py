"""Distances, openings, gaps, hinges and warm steel against examples read in print."""

import math

import pytest

from tests.outside.asking import Calc


def between(calc: Calc, first: tuple[float, ...], second: tuple[float, ...]) -> tuple[float, float, float]:
    names = ("x_1", "y_1", "z_1", "x_2", "y_2", "z_2")
    places = zip(names, first + second, strict=True)
    answer = calc("point-distance", **{name: f"{place} mm" for name, place in places})
    return (answer.number("distance", "mm"), answer.number("plan_distance", "mm"),
            answer.number("height_difference", "mm"))  # fmt: skip


@pytest.mark.parametrize(
    ("first", "second", "printed", "within"),
    [
        ((7, 2, 9), (10, 1, 1), 8.60232526, 1e-8),  # mathway.com, read; cut, not rounded
        ((1, -3, 2), (5, 4, -3), 9.487, 0.00051),  # an answer page, read
        ((2, 3, 4), (5, 7, 1), 5.83, 0.0051),  # bit1024.com, read
        ((-1, -1, -1), (2, 2, 2), 5.20, 0.0051),  # the same, read
        ((1, 2, 3), (4, 6, 8), 7.0710678, 1e-7),  # a teaching page, read as 5 times the root of 2
        ((1234.5, -456, 321), (234.5, 300, -50), 1307.3550, 0.0001),  # worked out apart
    ],
)
def test_straight(
    calc: Calc, first: tuple[float, ...], second: tuple[float, ...], printed: float, within: float
) -> None:
    assert between(calc, first, second)[0] == pytest.approx(printed, abs=within)


def test_trap_tape_and_level_tram_differ_by_54_mm(calc: Calc) -> None:
    # the two kinds of dimension: 2001 measuring worksheet, read; the figures worked out apart
    distance, plan, height = between(calc, (1234.5, -456, 321), (234.5, 300, -50))
    assert plan == pytest.approx(1253.6092, abs=0.0001)
    assert height == pytest.approx(371, abs=1e-9)
    assert distance - plan == pytest.approx(53.75, abs=0.01)
    assert between(calc, (0, 0, 0), (1200, 0, 120))[0] == pytest.approx(1205.985, abs=0.001)


def test_30_40_50(calc: Calc) -> None:
    # inchcalculator.com, read
    answer = calc("opening-square", width="30 inch", height="40 inch", diagonal_1="50 inch", diagonal_2="50 inch")
    assert answer.number("square_diagonal", "inch") == pytest.approx(50, abs=1e-9)
    assert answer.number("passes") == 1


def test_racked_by_6_mm(calc: Calc) -> None:
    # 1000 by 700 with its top pushed 6 mm: 1225.5758 and 1215.7450, worked out apart
    answer = calc("opening-square", width="1000 mm", height="700 mm", diagonal_1="1225.5758 mm",
                  diagonal_2="1215.7450 mm")  # fmt: skip
    assert answer.number("difference", "mm") == pytest.approx(9.8307, abs=0.0002)
    assert answer.number("lean", "mm") == pytest.approx(6.000, abs=0.0005)
    assert answer.number("square_diagonal", "mm") == pytest.approx(1220.6556, abs=0.0001)
    assert answer.word("advice") == "shorten-first"


@pytest.mark.parametrize(
    "sides", [{"width": "1000 mm"}, {"width": "960 mm"}, {"width": "980 mm", "width_top": "960 mm"}]
)
def test_trap_an_even_trapezoid_has_equal_diagonals(calc: Calc, sides: dict[str, str]) -> None:
    # freeandhandy.com, read: opposite sides must be equal too. Bottom 1000, top 960, 700 high
    diagonal = f"{math.hypot(980, 700)} mm"
    answer = calc("opening-square", **sides, height="700 mm", diagonal_1=diagonal, diagonal_2=diagonal)
    assert answer.number("difference", "mm") == pytest.approx(0, abs=1e-9)
    assert answer.number("passes") == 0
    assert answer.word("advice") == "not-a-rectangle"


def test_equal_diagonals_alone_always_ask_for_the_other_sides(calc: Calc) -> None:
    told = {"width": "1000 mm", "height": "700 mm", "diagonal_1": "1221 mm", "diagonal_2": "1221 mm"}
    assert any("Opposite sides" in said for said in calc("opening-square", **told).warned("care"))
    sides = calc("opening-square", **told, width_top="1000 mm", height_other="700 mm")
    assert not any("Opposite sides" in said for said in sides.warned("care"))


OPENING = {f"{side}_{place}": "1000 mm" for side in ("this", "other") for place in range(1, 5)}


def test_trap_differences_do_not_cancel(calc: Calc) -> None:
    # +6 and -6 have a mean of nothing
    answer = calc("opening-compare", **(OPENING | {"this_1": "1006 mm", "this_2": "994 mm"}))
    assert answer.number("largest", "mm") == pytest.approx(6, abs=1e-9)
    assert answer.number("passes") == 0


def test_npl(calc: Calc) -> None:
    # National Physical Laboratory, read: 500.035 mm at 23.7 °C is 500.013 mm at 20 °C
    answer = calc("expansion", length="500.035 mm", rise="-3.7 delta_degC", coefficient="0.0000117")
    assert 500.035 + answer.number("change", "mm") == pytest.approx(500.013, abs=0.0006)


@pytest.mark.parametrize(
    ("length", "rise", "coefficient", "mm"),
    [
        ("0.4 m", "80 delta_degC", "0.000015", 0.48),  # gradesaver.com 19.8, read
        ("12 m", "55 delta_degC", "0.000012", 7.92),  # jiskha.com, read
        ("12 m", "32 delta_degC", "0.000012", 4.608),  # the same, read as 4.61
        ("100 inch", "5 delta_degF", "0.0000072 1/delta_degF", 0.0036 * 25.4),  # classroom.synonym.com, read
        ("1.5 m", "30 delta_degC", "0.000012", 0.540),  # worked out apart
        ("1.5 m", "30 delta_degC", "0.000011", 0.495),  # worked out apart
    ],
)
def test_growth(calc: Calc, length: str, rise: str, coefficient: str, mm: float) -> None:
    answer = calc("expansion", length=length, rise=rise, coefficient=coefficient)
    assert answer.number("change", "mm") == pytest.approx(mm, abs=0.0006)


@pytest.mark.parametrize(("celsius", "strain"), [(100, 9.984e-4), (600, 8.3984e-3)])
def test_hot_steel_outgrows_the_straight_line(calc: Calc, celsius: int, strain: float) -> None:
    # EN 1993-1-2 3.4.1.1, read in code that quotes it: good to 4 percent at 100 °C, 17 percent short at 600 °C
    line = calc("expansion", length="1 m", rise=f"{celsius - 20} delta_degC", coefficient="0.000012")
    short = 1 - line.number("change", "mm") / (1000 * strain)
    assert short == pytest.approx({100: 0.038, 600: 0.171}[celsius], abs=0.001)
    assert any("hotter" in said or "grows faster" in said for said in line.warned("care")) is (celsius > 120)


DOOR = {f"gap_{place}": "4 mm" for place in range(1, 5)} | {f"flush_{place}": "0 mm" for place in range(1, 5)}
DOOR |= {"target_gap": "4 mm", "target_flush": "0 mm"}


@pytest.mark.parametrize(
    ("changed", "advice"),
    [
        ({}, "leave"),
        ({"gap_4": "6 mm", "gap_3": "5 mm"}, "close-fourth"),
        ({"gap_1": "6 mm", "gap_2": "5 mm"}, "close-first"),
        ({f"gap_{place}": "6 mm" for place in range(1, 5)}, "move-closer"),
        ({f"gap_{place}": "2.5 mm" for place in range(1, 5)}, "move-away"),
        ({"flush_4": "2 mm"}, "fourth-in"),
        ({"flush_1": "2 mm"}, "first-in"),
        ({f"flush_{place}": "2 mm" for place in range(1, 5)}, "move-in"),
        ({f"flush_{place}": "-2 mm" for place in range(1, 5)}, "move-out"),
        ({"gap_2": "6 mm"}, "work-edge"),
        ({"flush_3": "-2 mm"}, "work-edge"),
        ({"gap_4": "6 mm", "flush_1": "5 mm"}, "close-fourth"),  # the turn comes before in and out
    ],
)
def test_what_to_do_with_a_gap(calc: Calc, changed: dict[str, str], advice: str) -> None:
    # no published figure; each case worked out by hand
    assert calc("gap-flush", **(DOOR | changed)).word("advice") == advice


@pytest.mark.parametrize(
    ("changed", "shift", "advice"),
    [
        ({}, 2, "bend-up"),
        ({"hinges": "bolted"}, 2, "slide-up"),
        ({"lift": "-5 mm"}, -2, "bend-down"),
        ({"lift": "-5 mm", "hinges": "bolted"}, -2, "slide-down"),
        ({"lift": "0 mm"}, 0, "leave"),
        ({"pins": "worn"}, 2, "renew-pins"),
        ({"pins": "not-checked"}, 2, "check-pins"),
        ({"lift": "11 mm"}, 4.4, "look-for-damage"),
    ],
)
def test_which_hinge_and_which_way(calc: Calc, changed: dict[str, str], shift: float, advice: str) -> None:
    door = {"hinge_spacing": "400 mm", "door_length": "1000 mm", "lift": "5 mm", "pins": "sound"}
    answer = calc("hinge-shift", **(door | changed))
    assert answer.number("shift", "mm") == pytest.approx(shift, abs=1e-9)
    assert answer.word("advice") == advice


def test_the_door_really_rises(calc: Calc) -> None:
    # turned about its bottom hinge, front at the left: the top pin must go left for the latch edge to go up
    answer = calc("hinge-shift", hinge_spacing="420 mm", door_length="1100 mm", lift="6 mm", pins="sound")
    turn = math.radians(answer.number("angle", "degree"))
    latch_up, top_forward = 1100 * math.sin(turn), 420 * math.sin(turn)
    assert latch_up == pytest.approx(6, abs=1e-9)
    assert top_forward == pytest.approx(answer.number("shift", "mm"), abs=1e-9)
