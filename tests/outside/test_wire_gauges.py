"""SWG and BWG against the University of North Carolina's dictionary of units and a tube maker's millimetres, both read.

Inches are printed to three or four places and must agree exactly; millimetres to 0.01 mm. TRAPS: a public table that is
shifted by a row, and the British sheet gauge BG, which is not BWG.
"""

import pytest

from tests.outside.asking import Calc

ROWS = [  # number, SWG, BWG, in inches
    (10, 0.128, 0.134), (12, 0.104, 0.109), (14, 0.080, 0.083), (16, 0.064, 0.065), (18, 0.048, 0.049),
    (19, 0.040, 0.042), (20, 0.036, 0.035), (22, 0.028, 0.028), (24, 0.022, 0.022), (26, 0.018, 0.018),
    (28, 0.0148, 0.014), (30, 0.0124, 0.012),
]  # fmt: skip
MILLIMETRES = [("swg", 18, 1.22), ("swg", 20, 0.91), ("swg", 22, 0.71), ("bwg", 18, 1.24), ("bwg", 20, 0.89)]


@pytest.mark.parametrize(("number", "swg", "bwg"), ROWS)
def test_rows(calc: Calc, number: int, swg: float, bwg: float) -> None:
    for series, inches in (("swg", swg), ("bwg", bwg)):
        answer = calc("sheet-gauge", gauge=str(number), series=series)
        assert answer.number("thickness", "inch") == pytest.approx(inches, rel=1e-9)


@pytest.mark.parametrize(("series", "number", "millimetres"), MILLIMETRES)
def test_millimetres_of_a_tube_maker(calc: Calc, series: str, number: int, millimetres: float) -> None:
    # tps-technitube.com, read
    answer = calc("sheet-gauge", gauge=str(number), series=series)
    assert answer.number("thickness", "mm") == pytest.approx(millimetres, abs=0.0051)


@pytest.mark.parametrize(("number", "shifted"), [(18, 0.058), (19, 0.065), (22, 0.042)])
def test_trap_a_public_swg_table_is_shifted(calc: Calc, number: int, shifted: float) -> None:
    # steelavailable.com, read: prints SWG 22 as 0.042 in, and so on
    assert calc("sheet-gauge", gauge=str(number), series="swg").number("thickness", "inch") < shifted - 0.005


def test_trap_bg_is_not_bwg(calc: Calc) -> None:
    # ashmoreandallen.co.uk, read: BG 20 is 0.99 mm
    answer = calc("sheet-gauge", gauge="20", series="bwg")
    assert answer.number("thickness", "mm") < 0.99 - 0.05
    assert any("BG 20" in said for said in answer.warned("note"))
