"""The units of every day with their exact factors, so that most books never wait a third of a second for Pint.

Every row says what Pint says of that name, to the last digit; the tests hold each against it. The inch, the pound and
the gallon are exact by definition (NIST SP 811, 2008, appendix B), pi is cut after fifty digits as Pint cuts it.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from builder.formula.dimension import NO_DIMENSION, TEMPERATURE, Dimension

_PI = Fraction("3.1415926535897932384626433832795028841971693993751")
_INCH = Fraction("0.0254")
_POUND_FORCE = Fraction("4.4482216152605")
_ROWS: tuple[tuple[Dimension, dict[str, str | Fraction]], ...] = (
    ((1, 0, 0, 0, 0, 0, 0, 0), {
        "m": "1", "meter": "1", "cm": "0.01", "centimeter": "0.01", "mm": "0.001", "millimeter": "0.001",
        "um": "1e-6", "micrometer": "1e-6", "nm": "1e-9", "km": "1000",
        "inch": _INCH, "ft": "0.3048", "yd": "0.9144", "thou": "2.54e-5", "mile": "1609.344",
    }),
    ((3, 0, 0, 0, 0, 0, 0, 0), {
        "liter": "0.001", "l": "0.001", "ml": "1e-6", "gallon": 231 * _INCH**3,
        "fluid_ounce": 231 * _INCH**3 / 128,
    }),
    ((0, 1, 0, 0, 0, 0, 0, 0), {
        "kg": "1", "g": "0.001", "mg": "1e-6", "tonne": "1000", "lb": "0.45359237", "oz": "45359237/1600000000",
    }),
    ((0, 0, 1, 0, 0, 0, 0, 0), {
        "s": "1", "ms": "0.001", "min": "60", "h": "3600", "hour": "3600", "day": "86400", "week": "604800",
        "month": "2629800",
    }),
    ((0, 0, 0, 1, 0, 0, 0, 0), {"A": "1", "kA": "1000", "mA": "0.001"}),
    (TEMPERATURE, {"kelvin": "1", "delta_degC": "1", "delta_degF": "5/9"}),
    ((1, 1, -2, 0, 0, 0, 0, 0), {
        "N": "1", "daN": "10", "kN": "1000", "MN": "1e6", "kgf": "9.80665",
        "lbf": _POUND_FORCE,
    }),
    ((-1, 1, -2, 0, 0, 0, 0, 0), {
        "Pa": "1", "kPa": "1000", "MPa": "1e6", "GPa": "1e9", "bar": "1e5", "mbar": "100",
        "psi": _POUND_FORCE / _INCH**2, "ksi": 1000 * _POUND_FORCE / _INCH**2,
    }),
    ((2, 1, -2, 0, 0, 0, 0, 0), {"J": "1", "kJ": "1000", "MJ": "1e6"}),
    ((2, 1, -3, 0, 0, 0, 0, 0), {"W": "1", "kW": "1000", "VA": "1", "kVA": "1000",
        "hp": 550 * 12 * _INCH * _POUND_FORCE}),
    ((2, 1, -3, -1, 0, 0, 0, 0), {"V": "1", "kV": "1000", "mV": "0.001"}),
    ((2, 1, -3, -2, 0, 0, 0, 0), {"ohm": "1", "mohm": "0.001", "microohm": "1e-6"}),
    ((2, 1, -2, -2, 0, 0, 0, 0), {"H": "1", "uH": "1e-6", "nH": "1e-9"}),
    ((0, 0, -1, 0, 0, 0, 0, 0), {"Hz": "1", "kHz": "1000"}),
    (NO_DIMENSION, {"percent": "0.01", "ppm": "1e-6", "radian": "1", "degree": _PI / 180}),
)  # fmt: skip


class Everyday(NamedTuple):
    """A name's dimension, and its factor and offset to base units."""

    dimension: Dimension
    factor: Fraction
    offset: Fraction = Fraction(0)


EVERYDAY = {
    name: Everyday(dimension, Fraction(factor)) for dimension, row in _ROWS for name, factor in row.items()
} | {
    "degC": Everyday(TEMPERATURE, Fraction(1), Fraction("273.15")),
    "degF": Everyday(TEMPERATURE, Fraction(5, 9), Fraction("459.67") * Fraction(5, 9)),
}  # fmt: skip
