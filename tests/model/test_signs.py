"""Units as readers see them."""

from __future__ import annotations

import pytest

from builder.model.signs import sign, with_sign
from builder.view.here import minutes_shown


@pytest.mark.parametrize(("unit", "shown"), [
    ("mm", "mm"), ("degC", "°C"), ("delta_degC", "°C"), ("percent", "%"), ("m**2", "m²"), ("m**2/liter", "m²/L"),
    ("N*m", "N·m"), ("1/min", "1/min"), ("um", "µm"), ("mg/m**3", "mg/m³"), ("inch", "in"), ("kJ/mm", "kJ/mm"),
])  # fmt: skip
def test_a_unit_has_the_sign_of_the_trade(unit: str, shown: str) -> None:
    assert sign(unit) == shown


def test_number_and_sign_stay_on_one_line() -> None:
    assert with_sign("0.8", "mm") == "0.8\u00a0mm"
    assert with_sign("45", "degree") == "45°"
    assert with_sign("3", "") == "3"


@pytest.mark.parametrize(("minutes", "shown"), [(0, "0 min"), (12, "12 min"), (60, "1 h"), (400, "6 h 40 min")])
def test_times_are_told_in_hours_and_minutes(minutes: float, shown: str) -> None:
    assert minutes_shown(minutes).replace("\u00a0", " ") == shown
