"""Units against published factors and against Pint itself, readings and differences, and advice."""

import subprocess
import sys
from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formula import convert, offered_units, unit, unit_advice
from builder.formula.everyday import EVERYDAY
from builder.formula.units import COMMON, ask_pint
from builder.model.quantity import Quantity
from tests.formula.cases import Case, cases

PLAIN_PINT: "pint.UnitRegistry[float]" = pint.UnitRegistry()


@pytest.mark.parametrize("case", cases("units.txt"))
def test_published_factors(case: Case) -> None:
    name, factor, _ = case.columns
    found = unit(name)
    assert found is not None
    assert float(found.factor) == pytest.approx(float(factor), rel=1e-13)


@pytest.mark.parametrize("name", [name for name in COMMON if name != "dB"])
def test_as_pint_has_it(name: str) -> None:
    found = unit(name)
    assert found is not None
    one = PLAIN_PINT.Quantity(1.0, name).to_base_units()
    assert found.to_base(Fraction(1)) == pytest.approx(one.magnitude, rel=1e-12)
    powers = {f"[{base}]": power for base, power in zip(
        ("length", "mass", "time", "current", "temperature", "substance", "luminosity"), found.dimension, strict=False
    ) if power}  # fmt: skip
    assert dict(one.dimensionality) == powers


@pytest.mark.parametrize("name", EVERYDAY)
def test_units_of_every_day_are_pints_to_the_last_digit(name: str) -> None:
    assert unit(name) == ask_pint(name)


def test_readings_and_differences() -> None:
    points = {name for name in COMMON if (found := unit(name)) is not None and found.is_point}
    assert points == {"degC", "degF"}
    assert convert(Quantity("70", "degF"), "degC") == pytest.approx(21.1111111, abs=1e-6)
    assert convert(Quantity("-40", "degF"), "degC") == -40
    assert convert(Quantity("20", "degC"), "kelvin") is None
    assert convert(Quantity("9", "delta_degF"), "kelvin") == 5


@pytest.mark.parametrize(
    ("name", "advice"),
    [("rpm", "write 1/min"), ("mil", "thou"), ("degC/min", "delta_degC"), ("KN", "kN"), ("dBm", "dB"),
     ("m//s", "unit such as"),
     ("", "unit such as"), ("milimetre", "millimeter"), ("m/rpm", "1/min"), ("USD", "Pint"), ("neper", "Pint")],
)  # fmt: skip
def test_no_such_unit(name: str, advice: str) -> None:
    assert unit(name) is None
    assert advice in unit_advice(name)


def test_offered_units_measure_the_same() -> None:
    for name in COMMON:
        own = unit(name)
        assert own is not None
        offered = offered_units(own)
        assert offered[0] == own
        assert {(one.dimension, one.is_point) for one in offered} == {(own.dimension, own.is_point)}
    millimetre = unit("mm")
    assert millimetre is not None
    assert {"mm", "inch"} <= {one.name for one in offered_units(millimetre)}


@given(st.decimals(min_value=-10000, max_value=10000, places=4), st.sampled_from(COMMON))
def test_there_and_back_is_the_same_number(number: object, name: str) -> None:
    found = unit(name)
    assert found is not None
    value = float(str(number))
    assert found.from_base(found.to_base(Fraction(str(number)))) == pytest.approx(value, rel=1e-12, abs=1e-9)


def test_pint_is_loaded_late() -> None:
    code = (
        "import sys, builder.formula; assert 'pint' not in sys.modules; "
        "builder.formula.unit('kg/mm**2'); assert 'pint' not in sys.modules; "
        "builder.formula.unit('furlong'); assert 'pint' in sys.modules"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
