"""Dew points against psychrolib 2.5.0, which uses the ASHRAE handbook's finer vapour-pressure formulas.

From 0 degC upwards the two forms lie within 0.033 degC of each other, so 0.05 is asked. TRAP: below 0 degC the library
answers the frost point, over ice, and must not be used to judge a dew point over water.
"""

import psychrolib
import pytest

from tests.outside.asking import Calc

AIR = (5, 10, 15, 20, 25, 30, 35)
HUMIDITY = range(30, 100, 5)


@pytest.fixture(autouse=True)
def in_celsius() -> None:
    psychrolib.SetUnitSystem(psychrolib.SI)


def both(calc: Calc, air: float, humidity: int) -> tuple[float, float]:
    answer = calc("dew-point", air=f"{air} degC", humidity=f"{humidity} percent", surface=f"{air} degC")
    return answer.number("dew_point", "degC"), float(psychrolib.GetTDewPointFromRelHum(air, humidity / 100))


@pytest.mark.parametrize("air", AIR)
def test_above_freezing_they_agree(calc: Calc, air: int) -> None:
    compared = 0
    for humidity in HUMIDITY:
        ours, theirs = both(calc, air, humidity)
        if theirs >= 0:
            assert ours == pytest.approx(theirs, abs=0.05), humidity
            compared += 1
    assert compared >= 5


@pytest.mark.parametrize(
    ("air", "humidity", "dew_point"),
    # the library's own figures as noted when it was first run; they hold the installed version to its word
    [(20, 60, 12.01), (25, 50, 13.86), (30, 55, 19.98), (10, 85, 7.60), (35, 95, 34.08), (15, 40, 1.52)],
)
def test_noted_figures(calc: Calc, air: int, humidity: int, dew_point: float) -> None:
    ours, theirs = both(calc, air, humidity)
    assert theirs == pytest.approx(dew_point, abs=0.0051)
    assert ours == pytest.approx(dew_point, abs=0.05)


@pytest.mark.parametrize(("air", "humidity", "frost_point"), [(5, 30, -9.92), (10, 30, -6.01), (5, 50, -4.03)])
def test_trap_below_freezing_the_library_answers_the_frost_point(
    calc: Calc, air: int, humidity: int, frost_point: float
) -> None:
    ours, theirs = both(calc, air, humidity)
    assert theirs == pytest.approx(frost_point, abs=0.0051)
    assert 0.3 < theirs - ours < 1.26  # frost settles first, by up to 1.25 degC
    answer = calc("dew-point", air=f"{air} degC", humidity=f"{humidity} percent", surface=f"{air} degC")
    assert any("Frost" in said for said in answer.warned("care"))
