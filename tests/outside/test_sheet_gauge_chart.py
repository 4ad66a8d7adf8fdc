"""Manufacturers' and galvanized gauges against a steel seller's chart and Machinery's Handbook, 31st ed., p. 1453.

Inches are read; millimetres are theirs times 25.4, to 0.001 mm. TRAPS: the handbook's own misprint at 10 gauge; one
number, five thicknesses.
"""

import pytest

from tests.outside.asking import Calc

ROWS = [  # gauge, manufacturers' inches and mm, galvanized inches and mm
    (10, 0.1345, 3.416, 0.1382, 3.510), (14, 0.0747, 1.897, 0.0785, 1.994), (16, 0.0598, 1.519, 0.0635, 1.613),
    (18, 0.0478, 1.214, 0.0516, 1.311), (19, 0.0418, 1.062, 0.0456, 1.158), (20, 0.0359, 0.912, 0.0396, 1.006),
    (22, 0.0299, 0.759, 0.0336, 0.853), (24, 0.0239, 0.607, 0.0276, 0.701), (28, 0.0149, 0.378, 0.0187, 0.475),
]  # fmt: skip


@pytest.mark.parametrize(("gauge", "plain", "plain_mm", "zinc", "zinc_mm"), ROWS)
def test_rows(calc: Calc, gauge: int, plain: float, plain_mm: float, zinc: float, zinc_mm: float) -> None:
    for series, inches, millimetres in (("manufacturers", plain, plain_mm), ("galvanized", zinc, zinc_mm)):
        answer = calc("sheet-gauge", gauge=str(gauge), series=series)
        assert answer.number("thickness", "inch") == pytest.approx(inches, abs=1e-9)
        assert answer.number("thickness", "mm") == pytest.approx(millimetres, abs=0.00051)


@pytest.mark.parametrize("gauge", range(10, 29))
def test_galvanized_is_the_plain_gauge_and_its_allowance(calc: Calc, gauge: int) -> None:
    # roofonline.com, weight of sheet steel, read: 0.00375 in more; both columns are rounded to 0.0001 in
    plain = calc("sheet-gauge", gauge=str(gauge), series="manufacturers").number("thickness", "inch")
    coated = calc("sheet-gauge", gauge=str(gauge), series="galvanized")
    assert coated.number("thickness", "inch") - plain == pytest.approx(0.00375, abs=0.00011)
    assert coated.number("steel", "inch") == pytest.approx(plain, abs=0.00011)


def test_trap_the_handbook_prints_ten_gauge_wrong(calc: Calc) -> None:
    # 0.1395 in beside 3.416 mm, as stored; 3.416 mm is 0.1345 in
    answer = calc("sheet-gauge", gauge="10", series="manufacturers")
    assert answer.number("thickness", "inch") != pytest.approx(0.1395, abs=0.001)
    assert answer.number("thickness", "mm") == pytest.approx(3.416, abs=0.00051)


def test_trap_one_number_five_thicknesses(calc: Calc) -> None:
    printed = {"us-statute": 0.0375, "manufacturers": 0.0359, "galvanized": 0.0396, "swg": 0.036, "bwg": 0.035}
    found = {name: calc("sheet-gauge", gauge="20", series=name).number("thickness", "inch") for name in printed}
    assert found == pytest.approx(printed, abs=1e-9)
    assert len(set(found.values())) == len(printed)


def test_a_weight_of_ten_gauge_worked_in_print(calc: Calc) -> None:
    # offroaders.com, read: 41.82 x 0.1345 = 5.625 lb/ft2, printed rounded up
    thickness = calc("sheet-gauge", gauge="10", series="manufacturers").number("thickness", "inch")
    assert 41.82 * thickness == pytest.approx(5.625, abs=0.0005)
