"""Units: from a unit's name its dimension and exact factor to base units, found through Pint and kept."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Any

from builder.formula.dimension import BASES, LEVEL, NO_DIMENSION, Dimension, multiply, raise_to
from builder.formula.everyday import EVERYDAY
from builder.formula.numbers import exact, quotient, to_float
from builder.model.near import near_names
from builder.model.quantity import Quantity

MAX_UNIT_LENGTH = 60
MAX_EXACT = 2**53
"""Whole numbers up to here are floats without loss."""
_PART = re.compile(r"([*/]?) ?(1|[A-Za-zµμΩ°][A-Za-z0-9_µμΩ°]*)(?:(?:\*\*|\^)(-?[0-9]))?(?: |$|(?=[*/]))")

REFUSED = {
    "rpm": "write 1/min",
    "RPM": "write 1/min",
    "revolutions_per_minute": "write 1/min",
    "mil": "write thou: a mil is also an angle",
    "C": "write degC",
    "F": "write degF",
    "ton": "write tonne, or lb for the short ton: ton means several masses",
}
"""Names that mean something else than the author thinks, and what to write."""

COMMON = tuple(
    """
    mm cm m km millimeter centimeter meter inch ft yd thou micrometer um nm mm**2 cm**2 m**2 inch**2 ft**2
    mm**3 cm**3 m**3 inch**3 ft**3
    ml liter l gallon pint quart g kg mg tonne lb oz N kN MN kgf lbf Pa kPa MPa GPa bar mbar psi ksi
    degC degF delta_degC delta_degF kelvin s ms min h hour day week year A kA mA V kV mV W kW hp J kJ MJ Hz kHz
    ohm mohm microohm henry farad N*m lbf*ft m/s m/min mm/s mm/min ft/min inch/min m/s**2
    liter/min l/min m**3/h ft**3/min 1/min 1/s 1/h degree radian turn percent ppm dB
    mg/m**3 g/m**3 g/cm**3 kg/m**3 g/ml lb/gallon kJ/mm kJ/inch J/mm m**2/liter ft**2/gallon
    1/kelvin 1/delta_degC mm**4 kg/m kg/m**2 kg/h lux cd mol V*A kVA kWh
    """.split()  # noqa: SIM905 - a list of quoted names would fill a page
)
"""The units a book is likely to use; a misspelt unit is compared with these."""

_OFFERED = tuple(
    tuple(row.split())
    for row in (
        "mm cm m inch ft", "micrometer thou mm", "mm**2 cm**2 m**2 inch**2 ft**2", "ml liter m**3 gallon",
        "mm**3 cm**3 m**3 inch**3", "N kN kgf lbf", "MPa bar kPa psi", "Pa kPa bar psi", "GPa MPa ksi",
        "degC degF", "delta_degC delta_degF", "g kg lb oz", "s min h", "m/s m/min ft/min", "mm/s m/min inch/min",
        "mm/min mm/s m/min inch/min", "liter/min m**3/h ft**3/min", "N*m lbf*ft", "W kW hp", "A kA", "V kV", "J kJ",
        "kJ/mm J/mm kJ/inch", "g/cm**3 kg/m**3 lb/gallon", "mg/m**3 g/m**3", "m**2/liter ft**2/gallon", "microohm ohm",
        "mm**4 cm**4 inch**4", "Hz 1/min",
    )
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit: a value in it becomes base units by `value * factor + offset`, exactly."""

    name: str
    dimension: Dimension
    factor: Fraction
    offset: Fraction = Fraction(0)
    is_point: bool = False
    """degC and degF name readings (points); delta_degC, delta_degF and kelvin name differences."""

    def __hash__(self) -> int:
        return hash(self.name)

    def to_base(self, value: Fraction) -> float:
        """Return an exact value in this unit as a float in base units, rounded once."""
        # Whole numbers side by side: bringing fractions to their lowest terms takes most of the time of a check.
        below = value.denominator * self.factor.denominator
        above = value.numerator * self.factor.numerator
        if self.offset:
            above = above * self.offset.denominator + self.offset.numerator * below
            below *= self.offset.denominator
        return quotient(above, below)

    def from_base(self, value: float) -> float:
        """Return a float in base units as a float in this unit, rounded once."""
        own = exact(value)
        above, below = own.numerator, own.denominator
        if self.offset:
            above = above * self.offset.denominator - self.offset.numerator * below
            below *= self.offset.denominator
        return quotient(above * self.factor.denominator, below * self.factor.numerator)

    @property
    def ratio(self) -> tuple[float, float]:
        """The factor as `multiply by, divide by`: exact whole floats wherever they are small enough."""
        above, below = self.factor.numerator, self.factor.denominator
        if above <= MAX_EXACT and below <= MAX_EXACT:
            return float(above), float(below)
        return to_float(self.factor), 1.0


@lru_cache(maxsize=4096)
def unit(name: str) -> Unit | None:
    """Look a unit up: `mm`, `degC`, `N*m`, `mg/m**3`, `1/min`, `dB`; None where there is none of that name.

    Names are Pint's, in products and quotients with whole powers. A reading's unit (degC) stands alone: in a product
    write delta_degC. dB is a plain unit of its own, without relation to a bare number.
    """
    parts = _parts(name)
    if parts is None or name in REFUSED:
        return None
    if len(parts) == 1 and parts[0][1] == 1:
        found = _named(parts[0][0])
        return found and Unit(name, found.dimension, found.factor, found.offset, found.is_point)
    factor, dimension = Fraction(1), NO_DIMENSION
    for part, power in parts:
        found = _named(part) if part != "1" else Unit("1", NO_DIMENSION, Fraction(1))
        raised = raise_to(found.dimension, Fraction(power)) if found is not None and not found.is_point else None
        if found is None or raised is None or part in REFUSED:
            return None
        factor *= found.factor**power
        dimension = multiply(dimension, raised)
    return Unit(name, dimension, factor)


def unit_advice(name: str) -> str:
    """Say what to write in place of a name that is no unit."""
    if name in REFUSED:
        return REFUSED[name]
    parts = _parts(name)
    if parts is None:
        return "write a unit such as mm, N*m, m**2 or 1/min"
    for part, _ in parts:
        if part in REFUSED:
            return REFUSED[part]
        found = _named(part) if part != "1" else None
        if found is not None and found.is_point:
            return f"write delta_{part} in place of {part}"
        if found is None and part != "1":
            return _near_unit(part)
    return "write a unit such as mm, N*m, m**2 or 1/min"


def _near_unit(name: str) -> str:
    same = [known for known in COMMON if known.lower() == name.lower()] or near_names(name, COMMON)
    return "write " + " or ".join(same) if same else "write the unit as Pint spells it, such as mm, kN or degC"


def dimension_of_example(name: str) -> Dimension:
    """Return the dimension of a unit known to exist; KeyError where it does not, which is a fault in Seambook."""
    found = unit(name)
    if found is None:
        raise KeyError(name)
    return found.dimension


@lru_cache(maxsize=8192)
def convert(quantity: Quantity, to: str) -> float | None:
    """Return a quantity's number in another unit; None where a unit is unknown or they do not measure the same."""
    given, wanted = unit(quantity.unit or "1"), unit(to)
    if given is None or wanted is None:
        return None
    if (given.dimension, given.is_point) != (wanted.dimension, wanted.is_point):
        return None
    base = Fraction(quantity.number) * given.factor + given.offset
    return to_float((base - wanted.offset) / wanted.factor)


def offered_units(own: Unit) -> tuple[Unit, ...]:
    """Return the units a reader may switch to, metric and American, the author's own unit first."""
    row: tuple[str, ...] = next((row for row in _OFFERED if own.name in row), ())
    others = (unit(name) for name in row if name != own.name)
    return (own, *(found for found in others if found is not None))


def _parts(name: str) -> list[tuple[str, int]] | None:
    """Split `mg/m**3` into names with powers; None where the text has another form."""
    if not name or len(name) > MAX_UNIT_LENGTH:
        return None
    parts: list[tuple[str, int]] = []
    place = 0
    while place < len(name):
        found = _PART.match(name, place)
        if found is None or bool(found[1]) != bool(parts):
            return None
        power = int(found[3] or 1)
        parts.append((found[2], -power if found[1] == "/" else power))
        place = found.end()
    return parts


@lru_cache(maxsize=4096)
def _named(name: str) -> Unit | None:
    """Look up one name without powers, through Pint where it is none of every day."""
    if name == "1":
        return Unit(name, NO_DIMENSION, Fraction(1))
    if name == "dB":
        return Unit(name, LEVEL, Fraction(1))
    if name in EVERYDAY:
        dimension, factor, offset = EVERYDAY[name]
        return Unit(name, dimension, factor, offset, offset != 0)
    try:
        return ask_pint(name)
    except Exception:  # Pint raises errors of many kinds for a name it does not know; all mean the same here
        return None


def ask_pint(name: str) -> Unit | None:
    """Look up one name through Pint; its errors are of many kinds."""
    registry = _registry()
    zero = Fraction(registry.Quantity(Fraction(0), name).to_base_units().magnitude)
    one = Fraction(registry.Quantity(Fraction(1), name).to_base_units().magnitude)
    powers = dict(registry.Unit(name).dimensionality)
    if one == zero or not set(powers) <= set(BASES[:-1]):
        return None
    if name in ("decibel", "neper", "bel") or not _is_linear(registry, name, zero, one):
        return None
    a, b, c, d, e, f, g = (int(powers.get(base, 0)) for base in BASES[:-1])
    return Unit(name, (a, b, c, d, e, f, g, 0), one - zero, zero, zero != 0)


def _is_linear(registry: Any, name: str, zero: Fraction, one: Fraction) -> bool:
    """Logarithmic units have no factor."""
    two = Fraction(registry.Quantity(Fraction(2), name).to_base_units().magnitude)
    return two - one == one - zero


@lru_cache(maxsize=1)
def _registry() -> Any:
    """Load Pint's units once, with exact fractions; late, since it takes a third of a second."""
    import pint

    return pint.UnitRegistry(non_int_type=Fraction, cache_folder=None, on_redefinition="ignore")
