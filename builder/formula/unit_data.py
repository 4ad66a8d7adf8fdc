"""A unit -> the data by which a page computes and shows with it."""

from __future__ import annotations

from typing import Any

from builder.formula.numbers import to_float
from builder.formula.units import Unit


def unit_data(unit: Unit) -> dict[str, Any]:
    """Return a unit as a page holds it: rounded, to compute with; and exact, to read and to show with."""
    factor, offset = unit.factor, unit.offset
    whole = (factor.numerator, factor.denominator, offset.numerator, offset.denominator)
    return {
        "name": unit.name,
        "factor": to_float(factor),
        "offset": to_float(offset),
        "exact": [str(number) for number in whole],
    }
