"""Turns of drills and discs against pages on machining and on grinding wheels, all read.

Printed turns are whole numbers; a row rounded to ten or to a hundred is asked for to half of that. TRAPS: a table of
rounded turns, a worn wheel, and a mark in metres a second taken for one in turns.
"""

import pytest

from tests.outside.asking import Calc


@pytest.mark.parametrize(
    ("diameter", "cutting", "printed", "within"),
    [
        ("10 mm", "25 m/min", 796, 0.51),  # jacotools.com, read
        ("0.5 inch", "80 ft/min", 611, 0.51),  # machinistpost.com, read, with the constant 3.82
        ("8 mm", "25 m/min", 995, 0.51),  # worked out apart
        ("8 mm", "12 m/min", 477, 0.51),  # worked out apart
        ("0.5 inch", "70 ft/min", 530, 5.1),  # etantdonnes.com, read; rounded to ten
    ],
)
def test_drills(calc: Calc, diameter: str, cutting: str, printed: float, within: float) -> None:
    answer = calc("drill-speed", diameter=diameter, cutting_speed=cutting)
    assert answer.number("speed", "1/min") == pytest.approx(printed, abs=within)


def test_trap_a_table_of_rounded_turns(calc: Calc) -> None:
    # the same row: the arithmetic gives 534.8 (worked out apart)
    answer = calc("drill-speed", diameter="0.5 inch", cutting_speed="70 ft/min")
    assert answer.number("speed", "1/min") == pytest.approx(534.8, abs=0.051)


@pytest.mark.parametrize(
    ("diameter", "marked", "printed", "within"),
    [
        ("6 inch", "6500 ft/min", 4138, 0.51),  # generalbroach.com, read
        ("125 mm", "80 m/s", 12200, 51),  # novoabrasive.com, read; rounded to a hundred
        ("125 mm", "80 m/s", 12223, 0.51),  # worked out apart
        ("115 mm", "80 m/s", 13286, 0.51),  # worked out apart
        ("230 mm", "80 m/s", 6643, 0.51),  # worked out apart
        ("75 mm", "80 m/s", 20372, 0.51),  # worked out apart
    ],
)
def test_highest_turns_of_a_disc(calc: Calc, diameter: str, marked: str, printed: float, within: float) -> None:
    answer = calc("disc-speed", diameter=diameter, speed="1000 1/min", marked_speed=marked)
    assert answer.number("highest_speed", "1/min") == pytest.approx(printed, abs=within)


def test_a_small_wheel_on_a_fast_tool(calc: Calc) -> None:
    # worked out apart: 3 in at 25,000 turns is 19,635 ft/min, 99.7 m/s, over a mark of 80 m/s
    answer = calc("disc-speed", diameter="3 inch", speed="25000 1/min", marked_speed="80 m/s")
    assert answer.number("surface_speed", "ft/min") == pytest.approx(19635, abs=0.51)
    assert answer.number("surface_speed", "m/s") == pytest.approx(99.7, abs=0.051)
    assert answer.number("safe") == 0
    assert any("faster than the disc may" in said for said in answer.warned("stop"))


def test_trap_turns_of_a_worn_wheel(calc: Calc) -> None:
    # generalbroach.com, read, prints D1 / (D2 x turns); the same rim speed needs turns x D1 / D2, and neither is given
    new = calc("disc-speed", diameter="125 mm", speed="11000 1/min", marked_speed="80 m/s")
    worn = calc("disc-speed", diameter="100 mm", speed="11000 1/min", marked_speed="80 m/s")
    ratio = worn.number("highest_speed", "1/min") / new.number("highest_speed", "1/min")
    assert ratio == pytest.approx(1.25, rel=1e-9)
    assert worn.number("surface_speed", "m/s") < new.number("surface_speed", "m/s")


def test_trap_two_kinds_of_mark(calc: Calc) -> None:
    # a mark of 10,000 turns binds before 80 m/s does on 125 mm
    answer = calc(
        "disc-speed", diameter="125 mm", speed="11000 1/min", marked_speed="80 m/s", marked_turns="10000 1/min"
    )
    assert answer.number("highest_speed", "1/min") == pytest.approx(10000, rel=1e-9)
    assert answer.number("safe") == 0


@pytest.mark.parametrize(("look", "safe", "stops"), [("unsaid", 1, 0), ("sound", 1, 0), ("doubtful", 0, 1)])
def test_a_doubtful_disc_is_never_safe(calc: Calc, look: str, safe: int, stops: int) -> None:
    # 29 CFR 1910.215(d)(1), read as quoted: looked over before it is mounted
    answer = calc("disc-speed", diameter="125 mm", speed="1000 1/min", marked_speed="80 m/s", look=look)
    assert answer.number("safe") == safe
    assert len(answer.warned("stop")) == stops
    assert any("alone does not make it safe" in said for said in answer.warned("care")) is (look == "unsaid")
