"""Pairs of units: from the record of units what stands for what, and how a number is said in the other system."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from math import ceil, floor
from typing import Literal, NamedTuple

from builder.formula.codes import UNIT_TWICE, UNKNOWN_UNIT, UNLIKE_UNITS
from builder.formula.fault import Fault
from builder.formula.kinds import describe, kind_of_unit
from builder.formula.numbers import SIGNIFICANT, exact, fixed, plain, to_float
from builder.formula.units import Unit, offered_units, unit, unit_advice
from builder.model.records.units import Counterpart, UnitSettings

System = Literal["metric", "us"]
ENTRY_FIGURES = 4
"""Significant figures at least of a limit or a starting value in the other unit."""


class Pair(NamedTuple):
    """A unit and what stands for it in the other system."""

    own: Unit
    other: Unit
    to: System
    """The system that shows the other one."""
    least: int | None = None
    """Decimal places shown at least."""

    @lru_cache(maxsize=1024)  # noqa: B019 - the pairs of a book live as long as it
    def places(self, shown: int) -> int:
        """Return with how many decimal places a number is said that has `shown` of them in its own unit.

        The last digit shown is worth the greatest power of ten that is no more than the last digit of the original:
        so the converted number is at least as fine as the original, never ten times finer, and is rounded by half of
        the original's last digit at most, for a limit too. `least` asks for more places. Below 0 tens are rounded to.
        """
        last = Fraction(10) ** -shown * self.own.factor / self.other.factor
        places = _power_below(last)
        return places if self.least is None else max(places, self.least)

    def text(self, number: Fraction, shown: int) -> str:
        """Say a number in the other unit; nothing at all stays `0`, since it has no last digit that could be lost."""
        if not number and not self.own.offset and not self.other.offset:
            return "0"
        return fixed(to_float(self.convert(number)), self.places(shown))

    def convert(self, number: Fraction) -> Fraction:
        """Return a number in the other unit, exactly."""
        return (number * self.own.factor + self.own.offset - self.other.offset) / self.other.factor

    # Limits and starting values are those of the calculators, and come back on the page of every seam.
    @lru_cache(maxsize=4096)  # noqa: B019 - the pairs of a book live as long as it
    def limit(self, text: str, is_lower: bool) -> str:
        """Say a limit of what may be given, rounded to its inside: what the page says is admitted is admitted."""
        value = self.convert(Fraction(text))
        # Of what is nearly nothing no more places are written than these: it is rounded where it is cut.
        places = min(_places_of_figures(value, _figures(text)), 2 * SIGNIFICANT - 1)
        scaled = value * Fraction(10) ** places
        whole = ceil(scaled) if is_lower else floor(scaled)
        return _trimmed(Fraction(whole) / Fraction(10) ** places)

    @lru_cache(maxsize=4096)  # noqa: B019 - the pairs of a book live as long as it
    def entry(self, text: str) -> str:
        """Say a starting value as a reader would type it."""
        value = self.convert(Fraction(text))
        return _trimmed(exact(float(f"{to_float(value):.{_figures(text)}g}")))


Pairs = Mapping[str, Pair]
"""By the name of the unit that records are written in."""


def decimals(text: str) -> int:
    """Return how many decimal places a written number shows: `1.20` two, `8` none, `2e3` minus three."""
    exponent = Decimal(text).as_tuple().exponent
    assert isinstance(exponent, int)
    return -exponent


def make_pairs(settings: UnitSettings) -> tuple[dict[str, Pair], tuple[Fault, ...]]:
    """Return the pairs that can be used, and the faults of the others."""
    pairs: dict[str, Pair] = {}
    faults: list[Fault] = []
    named: set[str] = set()
    for path, name, row, to in _rows(settings):
        if name in named:
            message = f'"{name}" has its place already'
            faults.append(Fault(UNIT_TWICE, message, "take one of the two out", path=path))
            continue
        named.add(name)
        made = _pair(name, row, to)
        if isinstance(made, Fault):
            faults.append(made.under(path[:2] if row is not None else path))
        elif made is not None:
            pairs[name] = made
    return pairs, tuple(faults)


def offered_with(own: Unit, pair: Pair | None) -> tuple[Unit, ...]:
    """Return the units a reader may choose: those offered for its own, and what pages show in the other system.

    Of two names for one unit (um, micrometer) the one that pages show stands.
    """
    offered = offered_units(own)
    if pair is None:
        return offered
    size = (pair.other.factor, pair.other.offset)
    found = tuple(pair.other if (one.factor, one.offset) == size else one for one in offered)
    return found if pair.other in found else (*found, pair.other)


def _rows(settings: UnitSettings) -> Iterator[tuple[tuple[str | int, ...], str, Counterpart | None, System]]:
    for at, row in enumerate(settings.to_us):
        yield ("to_us", at, "unit"), row.unit, row, "us"
    for at, row in enumerate(settings.to_metric):
        yield ("to_metric", at, "unit"), row.unit, row, "metric"
    for at, name in enumerate(settings.same):
        yield ("same", at), name, None, "metric"


def _pair(name: str, row: Counterpart | None, to: System) -> Pair | Fault | None:
    names = {"unit": name} if row is None else {"unit": name, "as": row.as_}
    for key, each in names.items():
        if unit(each) is None:
            path = (key,) if row is not None else ()
            return Fault(UNKNOWN_UNIT, f'there is no unit "{each}"', unit_advice(each), path=path)
    own, other = unit(name), unit(row.as_) if row is not None else None
    if row is None or own is None or other is None:
        return None
    if (own.dimension, own.is_point) != (other.dimension, other.is_point):
        message = f"{other.name} measures {describe(kind_of_unit(other))}, {name} {describe(kind_of_unit(own))}"
        return Fault(UNLIKE_UNITS, message, f"write a unit that measures what {name} does", path=("as",))
    return Pair(own, other, to, row.places)


def _power_below(step: Fraction) -> int:
    """Return the decimal places of the greatest power of ten that is no more than a step."""
    places = -(len(str(step.numerator)) - len(str(step.denominator)) + 1)
    while Fraction(10) ** -places > step:
        places += 1
    return places


def _figures(text: str) -> int:
    return min(SIGNIFICANT, max(ENTRY_FIGURES, len(Decimal(text).as_tuple().digits)))


def _places_of_figures(value: Fraction, figures: int) -> int:
    return _power_below(abs(value)) + figures - 1 if value else 0


def _trimmed(value: Fraction) -> str:
    return plain(to_float(value))
