"""Strength of one spot: a formula from memory, between two tables that were read.

From memory: the formulas of AWS D8.1M, whose clause nobody read; their figures were worked out apart. Read: the least
shear of the American schedule and the nominal shear of AISI (a building design handbook, table 8.6). Nominal shear has
no safety factor off it and the formula is for the least nugget, so the order of the three is what is asked for.
"""

import pytest

from tests.outside.asking import Calc

AISI = [  # inch, kips, read
    (0.020, 0.48), (0.030, 1.00), (0.040, 1.42), (0.050, 1.65), (0.060, 2.28), (0.070, 2.83), (0.080, 3.33),
    (0.090, 4.00), (0.100, 4.99), (0.110, 6.07), (0.125, 7.29),
]  # fmt: skip


@pytest.mark.parametrize(
    ("strength", "thickness", "shear", "cross"),
    [(600, 1.0, 4.416, 1.250), (270, 0.8, 1.395, 0.765), (980, 1.2, 8.801, 1.867), (600, 1.5, 8.112, 3.050)],
)
def test_from_memory(calc: Calc, strength: float, thickness: float, shear: float, cross: float) -> None:
    answer = calc("spot-strength", thickness=f"{thickness} mm", tensile_strength=f"{strength} MPa")
    assert answer.number("shear", "kN") == pytest.approx(shear, abs=0.00051)
    assert answer.number("cross_tension", "kN") == pytest.approx(cross, abs=0.00051)


@pytest.mark.parametrize(("thickness", "kips"), AISI)
def test_the_three_stand_in_order(calc: Calc, thickness: float, kips: float) -> None:
    # The schedule's steel is of 290 to 310 MPa, read. Its shear is 1.5 to 1.8 times the formula, and AISI's nominal
    # shear 1.3 to 2 times the schedule; wide bounds, since the three are different things.
    answer = calc("spot-strength", thickness=f"{thickness} inch", tensile_strength="300 MPa")
    formula, schedule = answer.number("shear", "kN"), answer.number("table_shear", "kN")
    assert 1.5 <= schedule / formula <= 1.8
    assert 1.3 <= kips * 4.4482216 / schedule <= 2.0


def test_trap_figures_of_two_editions_are_not_mixed(calc: Calc) -> None:
    # 0.040 in: 1.42 kips nominal in the older table, 1.269 by the later formula (from memory). It answers neither.
    answer = calc("spot-strength", thickness="0.040 inch", tensile_strength="300 MPa")
    for output in ("shear", "table_shear"):
        assert answer.number(output, "lbf") < 1269


def test_it_says_that_it_is_no_argument(calc: Calc) -> None:
    answer = calc("spot-strength", thickness="1 mm", tensile_strength="300 MPa")
    assert any("Never fewer welds" in said for said in answer.warned("care"))
