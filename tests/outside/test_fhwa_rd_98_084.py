"""The coating rule of FHWA-RD-98-084: steel at least 3 degC above the dew point. Read on the agency's page.

TRAP: 3 degC and the 5 degF printed beside it are not the same; 5 degF is 2.78 degC, and 3 degC is the stricter.
"""

import pytest

from tests.outside.asking import Calc

# Air 30 degC at 55 percent: dew point 19.97 degC over water, worked out apart from this project.
CASES = [("22.5 degC", False), ("22.9 degC", False), ("23.0 degC", True), ("30 degC", True)]


@pytest.mark.parametrize(("surface", "passes"), CASES)
def test_at_least_three_degrees(calc: Calc, surface: str, passes: bool) -> None:
    answer = calc("dew-point", air="30 degC", humidity="55 percent", surface=surface)
    assert (answer.warned("stop") == []) is passes
    assert answer.word("advice") == ("coat" if passes else "do-not-coat")


def test_a_panel_as_cold_as_damp_air_fails(calc: Calc) -> None:
    answer = calc("dew-point", air="10 degC", humidity="85 percent", surface="10 degC")
    assert answer.number("margin", "delta_degC") == pytest.approx(2.41, abs=0.0051)
    assert answer.warned("stop")


def test_trap_five_fahrenheit_degrees_are_not_enough(calc: Calc) -> None:
    least = calc("dew-point", air="20 degC", humidity="60 percent", surface="20 degC").number("least_surface", "degC")
    assert least == pytest.approx(15.0, abs=0.0051)  # 11.995 + 3
    five_fahrenheit = least - 3 + 5 / 1.8
    answer = calc("dew-point", air="20 degC", humidity="60 percent", surface=f"{five_fahrenheit:.3f} degC")
    assert answer.warned("stop")
    enough = calc("dew-point", air="20 degC", humidity="60 percent", surface=f"{least + 0.001:.3f} degC")
    assert enough.warned("stop") == []
