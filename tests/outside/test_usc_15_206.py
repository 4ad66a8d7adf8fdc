"""Sheet thickness against 15 U.S.C. 206 (Act of 3 March 1893), read in three copies that agree.

The statute prints inches and millimetres exactly, so both must agree to the last figure it prints.
"""

import pytest

from tests.outside.asking import Calc

ROWS = [  # gauge, inches, millimetres, ounces to the square foot, as printed
    (10, 0.140625, 3.571875, 90), (11, 0.125, 3.175, 80), (12, 0.109375, 2.778125, 70), (13, 0.09375, 2.38125, 60),
    (14, 0.078125, 1.984375, 50), (15, 0.0703125, 1.7859375, 45), (16, 0.0625, 1.5875, 40), (17, 0.05625, 1.42875, 36),
    (18, 0.05, 1.27, 32), (19, 0.04375, 1.11125, 28), (20, 0.0375, 0.9525, 24), (21, 0.034375, 0.873125, 22),
    (22, 0.03125, 0.79375, 20), (23, 0.028125, 0.714375, 18), (24, 0.025, 0.635, 16), (25, 0.021875, 0.555625, 14),
    (26, 0.01875, 0.47625, 12), (27, 0.0171875, 0.4365625, 11),
]  # fmt: skip


@pytest.mark.parametrize(("gauge", "inches", "millimetres", "ounces"), ROWS)
def test_every_row_read(calc: Calc, gauge: int, inches: float, millimetres: float, ounces: float) -> None:
    answer = calc("sheet-gauge", gauge=str(gauge), series="us-statute")
    assert answer.number("thickness", "mm") == pytest.approx(millimetres, rel=1e-9)
    assert answer.number("thickness", "inch") == pytest.approx(inches, rel=1e-9)
    # The section rests on wrought iron at 480 lb/ft3: inches times 640 is ounces, exactly.
    assert answer.number("thickness", "inch") * 640 == pytest.approx(ounces, rel=1e-9)


@pytest.mark.parametrize("gauge", ["9", "28", "40"])
def test_rows_that_nobody_read_are_not_answered(calc: Calc, gauge: str) -> None:
    why = calc("sheet-gauge", gauge=gauge, series="us-statute").why_not("thickness")
    assert why is not None
    assert why.startswith("outside the table")
