"""Dew points over water against WMO-No. 8, Annex 4.B (constants 17.62 and 243.12).

The annex was read in a weather-station manual that reproduces it; the grid below was worked out from its formula
apart from this project, to 0.01 degC, so it must agree to half of that.
"""

import pytest

from tests.outside.asking import Calc

HALF_A_HUNDREDTH = 0.0051
AIR = (5, 10, 15, 20, 25, 30, 35)
GRID = {  # relative humidity in percent: dew point in degC for each air temperature above
    30: (-11.17, -6.81, -2.46, 1.88, 6.21, 10.53, 14.84),
    45: (-5.97, -1.40, 3.15, 7.70, 12.24, 16.77, 21.29),
    60: (-2.13, 2.58, 7.29, 12.00, 16.69, 21.39, 26.07),
    70: (-0.02, 4.78, 9.57, 14.36, 19.15, 23.93, 28.71),
    85: (2.69, 7.59, 12.50, 17.40, 22.30, 27.20, 32.10),
    95: (4.27, 9.24, 14.20, 19.17, 24.14, 29.11, 34.08),
}
CELLS = [(air, humidity, GRID[humidity][place]) for humidity in GRID for place, air in enumerate(AIR)]


@pytest.mark.parametrize(("air", "humidity", "dew_point"), CELLS)
def test_the_grid(calc: Calc, air: int, humidity: int, dew_point: float) -> None:
    answer = calc("dew-point", air=f"{air} degC", humidity=f"{humidity} percent", surface="20 degC")
    assert answer.number("dew_point", "degC") == pytest.approx(dew_point, abs=HALF_A_HUNDREDTH)
    assert answer.number("margin", "delta_degC") == pytest.approx(20 - dew_point, abs=HALF_A_HUNDREDTH)


def test_another_published_pair_of_constants_agrees_within_its_own_error(calc: Calc) -> None:
    # 22 degC and 78 percent: 17.98 published with 17.27 and 237.7, whose stated error reaches 0.4 degC;
    # seen in a worked homework answer (assignmentexpert.com, question 86009), not in the guide.
    answer = calc("dew-point", air="22 degC", humidity="78 percent", surface="22 degC")
    assert answer.number("dew_point", "degC") == pytest.approx(17.98, abs=0.05)


def test_fahrenheit_gives_the_same(calc: Calc) -> None:
    in_celsius = calc("dew-point", air="20 degC", humidity="60 percent", surface="15 degC")
    in_fahrenheit = calc("dew-point", air="68 degF", humidity="60 percent", surface="59 degF")
    for output, unit in (("dew_point", "degC"), ("margin", "delta_degC")):
        assert in_fahrenheit.number(output, unit) == pytest.approx(in_celsius.number(output, unit), abs=1e-9)
