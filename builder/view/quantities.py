"""Quantities -> what readers see of them, in the units a page shows first and in those of the other system."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from builder.formula import Pair
from builder.formula.numbers import exact, plain, to_float
from builder.formula.pairs import System, decimals
from builder.formula.step_units import FIGURES
from builder.model.quantity import Quantity, split_quantity
from builder.model.said import Said
from builder.model.signs import sign, with_sign

UNKNOWN = Said("unknown")


@dataclass(frozen=True, slots=True)
class Units:
    """Which unit stands for which, and which system a page shows first."""

    pairs: Mapping[str, Pair] = field(default_factory=dict)
    first: System = "metric"
    known: dict[tuple[str, str, float | None], Said] = field(default_factory=dict)
    """Said before, by text, unit and number: a book repeats its quantities."""

    def shown(self, quantity: Quantity | None) -> Said:
        """Say a quantity as its author wrote it and as it is in the other system: `0.8 mm` and `0.031 in`."""
        return UNKNOWN if quantity is None else self.answer(quantity.number, quantity.unit, None)

    def answer(self, text: str, unit: str, number: float | None) -> Said:
        """Say an answer that is shown as `text`; it is converted as it was before it was rounded."""
        key = (text, unit, number)
        found = self.known.get(key)
        if found is None:
            found = self.known[key] = self._answer(text, unit, number)
        return found

    def _answer(self, text: str, unit: str, number: float | None) -> Said:
        pair = self.pairs.get(unit)
        if pair is None:
            return Said(with_sign(text, unit))
        value = Fraction(text) if number is None else exact(number)
        return self._said(pair, with_sign(text, unit), with_sign(pair.text(value, decimals(text)), pair.other.name))

    def figured(self, number: float, unit: str) -> Said:
        """Say a number whose decimal places nobody chose."""
        pair = self.pairs.get(unit)
        own = with_sign(plain(number, FIGURES), unit)
        if pair is None:
            return Said(own)
        other = plain(to_float(pair.convert(exact(number))), FIGURES)
        return self._said(pair, own, with_sign(other, pair.other.name))

    def value(self, text: str, unit: str) -> Said:
        """Say a number with the unit it stands in; one that brings a unit of its own is said in that."""
        found = split_quantity(text)
        if found is None:
            return Said(with_sign(text, unit))
        return self.shown(found if found.unit else Quantity(found.number, unit))

    def name(self, unit: str) -> Said:
        """Say a unit alone."""
        pair = self.pairs.get(unit)
        return Said(sign(unit)) if pair is None else self._said(pair, sign(unit), sign(pair.other.name))

    def behind(self, unit: str) -> Said:
        """Say what stands behind a number, its blank included."""
        pair = self.pairs.get(unit)
        own = with_sign("", unit)
        return Said(own) if pair is None else self._said(pair, own, with_sign("", pair.other.name))

    def number(self, text: str, unit: str) -> Said:
        """Say a number alone, whose unit stands elsewhere."""
        pair = self._of_bare(text, unit)
        return Said(text) if pair is None else self._said(pair, text, pair.text(Fraction(text), decimals(text)))

    def limit(self, text: str, unit: str, is_lower: bool) -> Said:
        """Say a limit of what may be given, as a number alone."""
        pair = self._of_bare(text, unit)
        return Said(text) if pair is None else self._said(pair, text, pair.limit(text, is_lower))

    def entry(self, text: str, unit: str) -> Said:
        """Say a starting value as a number alone."""
        pair = self._of_bare(text, unit)
        return Said(text) if pair is None else self._said(pair, text, pair.entry(text))

    def _of_bare(self, text: str, unit: str) -> Pair | None:
        """The pair of a bare number's unit; one that brings a unit of its own stays as it is."""
        found = split_quantity(text)
        return None if found is None or found.unit else self.pairs.get(unit)

    def _said(self, pair: Pair, own: str, other: str) -> Said:
        if own == other:
            return Said(own)
        return Said(other, own) if pair.to == self.first else Said(own, other)
