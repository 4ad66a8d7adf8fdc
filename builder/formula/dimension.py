"""Dimensions: the seven base quantities and the sound level as exact powers, and their names in words."""

from __future__ import annotations

from fractions import Fraction

Dimension = tuple[int, int, int, int, int, int, int, int]
"""Powers of length, mass, time, current, temperature, substance, luminosity and sound level."""

NO_DIMENSION: Dimension = (0, 0, 0, 0, 0, 0, 0, 0)
BASES = ("[length]", "[mass]", "[time]", "[current]", "[temperature]", "[substance]", "[luminosity]", "[level]")
_BASE_UNITS = ("m", "kg", "s", "A", "kelvin", "mol", "cd", "dB")
TEMPERATURE: Dimension = (0, 0, 0, 0, 1, 0, 0, 0)
LEVEL: Dimension = (0, 0, 0, 0, 0, 0, 0, 1)

_NAMES: dict[Dimension, tuple[str, str]] = {
    NO_DIMENSION: ("a bare number", "1"),
    (1, 0, 0, 0, 0, 0, 0, 0): ("a length", "mm"),
    (2, 0, 0, 0, 0, 0, 0, 0): ("an area", "m**2"),
    (3, 0, 0, 0, 0, 0, 0, 0): ("a volume", "liter"),
    (4, 0, 0, 0, 0, 0, 0, 0): ("a second moment of area", "mm**4"),
    (0, 1, 0, 0, 0, 0, 0, 0): ("a mass", "kg"),
    (0, 0, 1, 0, 0, 0, 0, 0): ("a time", "min"),
    (0, 0, 0, 1, 0, 0, 0, 0): ("a current", "A"),
    TEMPERATURE: ("a temperature difference", "delta_degC"),
    LEVEL: ("a sound level", "dB"),
    (0, 0, -1, 0, 0, 0, 0, 0): ("a frequency or speed of rotation", "1/min"),
    (1, 0, -1, 0, 0, 0, 0, 0): ("a speed", "m/min"),
    (1, 0, -2, 0, 0, 0, 0, 0): ("an acceleration", "m/s**2"),
    (3, 0, -1, 0, 0, 0, 0, 0): ("a flow", "liter/min"),
    (1, 1, -2, 0, 0, 0, 0, 0): ("a force", "kN"),
    (-1, 1, -2, 0, 0, 0, 0, 0): ("a pressure", "MPa"),
    (2, 1, -2, 0, 0, 0, 0, 0): ("an energy or torque", "N*m"),
    (2, 1, -3, 0, 0, 0, 0, 0): ("a power", "W"),
    (2, 1, -3, -1, 0, 0, 0, 0): ("a voltage", "V"),
    (2, 1, -3, -2, 0, 0, 0, 0): ("a resistance", "ohm"),
    (2, 1, -2, -2, 0, 0, 0, 0): ("an inductance", "henry"),
    (3, 1, -3, -2, 0, 0, 0, 0): ("a resistivity", "ohm*m"),
    (-3, 1, 0, 0, 0, 0, 0, 0): ("a density or concentration", "kg/m**3"),
    (0, 1, -1, 0, 0, 0, 0, 0): ("a mass flow", "kg/h"),
    (0, 0, 0, 0, -1, 0, 0, 0): ("a rate per degree", "1/kelvin"),
    (-1, 0, 0, 0, 0, 0, 0, 0): ("a number per length", "1/m"),
    (-2, 0, 0, 0, 0, 0, 0, 0): ("a number per area", "1/m**2"),
    (-2, 1, 0, 0, 0, 0, 0, 0): ("a mass per area", "kg/m**2"),
    (-1, 1, 0, 0, 0, 0, 0, 0): ("a mass per length", "kg/m"),
}


def multiply(left: Dimension, right: Dimension, sign: int = 1) -> Dimension:
    """Return the dimension of a product, or of a quotient where `sign` is -1."""
    a, b, c, d, e, f, g, h = (x + sign * y for x, y in zip(left, right, strict=True))
    return (a, b, c, d, e, f, g, h)


def raise_to(dimension: Dimension, exponent: Fraction) -> Dimension | None:
    """Return the dimension of a power; None where it would not be whole."""
    powers = [power * exponent for power in dimension]
    if any(power.denominator != 1 for power in powers):
        return None
    a, b, c, d, e, f, g, h = (int(power) for power in powers)
    return (a, b, c, d, e, f, g, h)


def describe_dimension(dimension: Dimension) -> str:
    """Name a dimension for an author: `a length`, or its powers where it has no name."""
    return _NAMES[dimension][0] if dimension in _NAMES else f"a quantity in {unit_text(dimension)}"


def example_unit(dimension: Dimension) -> str:
    """Return a unit that has this dimension, for advice."""
    return _NAMES[dimension][1] if dimension in _NAMES else unit_text(dimension)


def unit_text(dimension: Dimension) -> str:
    """Return the dimension spelled in base units, such as `kg*m/s**2`."""
    above = [_power(name, power) for name, power in zip(_BASE_UNITS, dimension, strict=True) if power > 0]
    below = ["/" + _power(name, -power) for name, power in zip(_BASE_UNITS, dimension, strict=True) if power < 0]
    return ("*".join(above) or "1") + "".join(below)


def _power(name: str, power: int) -> str:
    return name if power == 1 else f"{name}**{power}"
