"""Marked quantities -> problems where a unit is unknown or of another dimension than the field takes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from builder.formula.kinds import describe, kind_of_unit
from builder.formula.units import unit, unit_advice
from builder.model.problem import Problem
from builder.model.quantity import split_quantity
from builder.model.records.fields import Measures
from builder.model.tree import span_of
from builder.shape import codes
from builder.shape.marks import Found


def quantity_problems(marks: Iterable[Found], file: str) -> Iterator[Problem]:
    """Check every quantity of a record."""
    for found in marks:
        if isinstance(found.mark, Measures):
            problem = _problem(found, found.mark, file)
            if problem is not None:
                yield problem


def _problem(found: Found, mark: Measures, file: str) -> Problem | None:
    quantity = split_quantity(found.scalar.text)
    if quantity is None:
        return None
    known = unit(quantity.unit)
    span = span_of(found.scalar, file)
    if known is None:
        return Problem(codes.WRONG_UNIT, span, f'"{quantity.unit}" is no unit', unit_advice(quantity.unit))
    wanted = unit(mark.example) if mark.example else None
    kind, wanted_kind = kind_of_unit(known), kind_of_unit(wanted)
    if wanted is None or kind == wanted_kind:
        return None
    return Problem(
        codes.WRONG_UNIT, span, f"{quantity} is {describe(kind)}, not {describe(wanted_kind)}",
        f"write it in a unit such as {mark.example}",
    )  # fmt: skip
