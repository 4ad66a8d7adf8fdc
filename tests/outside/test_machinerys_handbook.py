"""Bends against Machinery's Handbook, 31st edition, page 1421, equations 32 to 34 and figure 13, as read online.

The handbook gives 0.55, 0.64 and 0.71 T with 1.57 R for 90 degrees, which are k of 0.350, 0.407 and 0.452; it rounds to
0.001 in, so that is asked.
"""

import math

import pytest

from tests.outside.asking import Calc

SOFT_STEEL = 0.64 * 2 / math.pi


def allowance(calc: Calc, angle: float, radius: float, thickness: float, k: float) -> float:
    """In inches."""
    answer = calc("bend", angle=f"{angle} degree", radius=f"{radius} inch", thickness=f"{thickness} inch", k=f"{k:.9f}")
    return answer.number("allowance", "inch")


def test_figure_13(calc: Calc) -> None:
    hook = allowance(calc, 180, 0.375, 0.125, SOFT_STEEL)
    knee = allowance(calc, 60, 0.625, 0.125, SOFT_STEEL)  # drawn as 120 degrees between the legs
    assert hook == pytest.approx(1.338, abs=0.001)
    assert knee == pytest.approx(0.707, abs=0.001)
    assert 3.5 + hook + knee == pytest.approx(5.545, abs=0.001)


@pytest.mark.parametrize(("coefficient", "k"), [(0.55, 0.350), (0.64, 0.407), (0.71, 0.452)])
@pytest.mark.parametrize(("radius", "thickness"), [(0.0625, 0.0359), (0.125, 0.0478), (0.25, 0.125)])
def test_equations_32_to_34(calc: Calc, coefficient: float, k: float, radius: float, thickness: float) -> None:
    printed = coefficient * thickness + 1.57 * radius
    assert allowance(calc, 90, radius, thickness, k) == pytest.approx(printed, abs=0.001)


def test_trap_the_angle_is_the_one_bent_through(calc: Calc) -> None:
    # read: a drawing's 60 degrees between the legs is 120 degrees bent
    drawn, bent = (allowance(calc, angle, 0.25, 0.125, SOFT_STEEL) for angle in (60, 120))
    assert bent == pytest.approx(2 * drawn, rel=1e-9)


def test_a_fold_of_180_degrees_has_an_allowance_and_no_deduction(calc: Calc) -> None:
    # tan(90 degrees) diverges: read on the help page of a hem tool, which refuses it too
    answer = calc("bend", angle="180 degree", radius="0.4 mm", thickness="0.8 mm", k="0.44")
    assert answer.number("allowance", "mm") == pytest.approx(2.36248, abs=1e-5)  # worked out apart from this project
    assert answer.why_not("deduction") is not None
    assert answer.why_not("setback") is not None
    assert answer.warned("care")


def test_a_fold_in_radians_is_refused_a_deduction_too(calc: Calc) -> None:
    answer = calc("bend", angle="3.141592653589793 radian", radius="1 mm", thickness="1 mm", k="0.4")
    assert answer.why_not("deduction") is not None or answer.number("deduction", "mm") > 1e6
