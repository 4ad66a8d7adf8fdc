"""A length in mm -> what readers see of it in both systems of units; lengths.js says it by the data given here."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from builder.formula.numbers import exact, fixed
from builder.formula.pairs import Pair
from builder.formula.unit_data import unit_data
from builder.formula.units import unit
from builder.model.said import Said
from builder.model.signs import sign, with_sign
from builder.view.quantities import Units

_UNIT = "mm"
_DIGITS = 1
"""Decimal places of a place along a seam: a rule has no finer ones."""


def said_length(units: Units, millimetres: float, *, is_bare: bool = False) -> Said:
    """Say a length to a tenth of a millimetre, without a last zero; `is_bare` leaves the unit out."""
    own = _trimmed(fixed(millimetres, _DIGITS))
    pair = units.pairs.get(_UNIT)
    if pair is None:
        return Said(own if is_bare else with_sign(own, _UNIT))
    other = _in_other(pair, millimetres)
    first, second = (own, other) if is_bare else (with_sign(own, _UNIT), with_sign(other, pair.other.name))
    return Said(second, first) if pair.to == units.first else Said(first, second)


@lru_cache(maxsize=16384)
def _in_other(pair: Pair, millimetres: float) -> str:
    # The same places come back on the plan, the drawing and the strip, and on many seams.
    return pair.text(exact(millimetres), _DIGITS)


def length_data(units: Units) -> dict[str, Any]:
    """Return how a script says a length; `other` is missing where both systems show millimetres."""
    own, pair = unit(_UNIT), units.pairs.get(_UNIT)
    assert own is not None
    data: dict[str, Any] = {"unit": unit_data(own), "sign": sign(_UNIT), "digits": _DIGITS}
    if pair is not None:
        data["other"] = {
            "unit": unit_data(pair.other), "sign": sign(pair.other.name), "digits": pair.places(_DIGITS),
            "isFirst": pair.to == units.first,
        }  # fmt: skip
    return data


def _trimmed(text: str) -> str:
    return text.removesuffix("." + "0" * _DIGITS)
