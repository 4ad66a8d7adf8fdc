"""Headlamp aim against a page and an inspection's band; toe against two pages on millimetres and degrees (all read).

The band is the British inspection's, as a beam tester's manual prints it. Tolerances are half the last printed digit.
"""

import pytest

from tests.outside.asking import Calc


@pytest.mark.parametrize(("distance", "aim", "drop"), [("10 m", "1 percent", 100), ("10 m", "1.2 percent", 120)])
def test_printed_inclination(calc: Calc, distance: str, aim: str, drop: float) -> None:
    # exledusa.com, read on a secondary page: 1 percent is 10 cm in 10 m, 1.2 percent is 12 cm
    answer = calc("lamp-drop", distance=distance, lamp_height="700 mm", aim=aim)
    assert answer.number("drop", "mm") == pytest.approx(drop, rel=1e-9)


@pytest.mark.parametrize(
    ("height", "top", "bottom"), [(600, 0.5, 2.0), (850, 0.5, 2.0), (850.1, 1.25, 2.75), (1100, 1.25, 2.75)]
)
def test_band_of_the_inspection(calc: Calc, height: float, top: float, bottom: float) -> None:
    # manualshive.com 1416979, page 6, read: up to and with 850 mm 0.5 to 2 percent, above 1.25 to 2.75
    answer = calc("lamp-drop", distance="8 m", lamp_height=f"{height} mm", aim="1.3 percent")
    found = [(height - answer.number(edge, "mm")) / 80 for edge in ("band_top", "band_bottom")]
    assert found == pytest.approx([top, bottom], rel=1e-9)


@pytest.mark.parametrize(("cut_off", "words"), [(800.1, "Too high"), (800, ""), (650, ""), (649.9, "Too low"), (0, "")])
def test_what_is_measured_is_judged(calc: Calc, cut_off: float, words: str) -> None:
    answer = calc("lamp-drop", distance="10 m", lamp_height="850 mm", aim="1 percent", cut_off=f"{cut_off} mm")
    assert [said.split(".")[0] for said in answer.warned("stop")] == ([words] if words else [])
    assert (answer.why_not("found_aim") is None) is bool(cut_off)


@pytest.mark.parametrize(
    ("toe", "unit", "width", "degrees"),
    [
        (4, "mm", 727.7, 0.31),  # elbosquecountry.com.ar, read: arcsine of 4 / 727.7, the pair
        (0.1875, "inch", 9.25, 1.16),  # vracing.iwebland.com, read: 3/16 in on a circumference of 58.1 in
        (1, "inch", 57.2987, 1.0),  # worked out apart: the sine of one degree
    ],
)
def test_toe_in_degrees(calc: Calc, toe: float, unit: str, width: float, degrees: float) -> None:
    answer = calc("toe-tape", front=f"60 {'inch' if unit == 'inch' else 'cm'}", width=f"{width} {unit}",
                  rear=f"{60 + toe} inch" if unit == "inch" else f"{600 + toe} mm")  # fmt: skip
    assert answer.number("toe", unit) == pytest.approx(toe, rel=1e-9)
    assert answer.number("toe_angle", "degree") == pytest.approx(degrees, abs=0.0051)
    assert 2 * answer.number("toe_each", "degree") == pytest.approx(answer.number("toe_angle", "degree"))


def test_wheels_that_point_out(calc: Calc) -> None:
    answer = calc("toe-tape", front="1500 mm", rear="1496 mm", width="727.7 mm")
    assert answer.number("toe_angle", "degree") == pytest.approx(-0.31, abs=0.0051)
    assert any("point out" in said for said in answer.warned("note"))


def test_measures_of_no_axle(calc: Calc) -> None:
    answer = calc("toe-tape", front="1500 mm", rear="2300 mm", width="620 mm")
    assert answer.why_not("toe_angle") is not None
    assert any("one axle" in said for said in answer.warned("stop"))
