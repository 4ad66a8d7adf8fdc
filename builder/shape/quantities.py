"""Marked quantities -> problems where a unit is unknown or of another dimension than the field takes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache

from builder.formula.kinds import describe, kind_of_unit
from builder.formula.units import unit, unit_advice
from builder.model.problem import Problem
from builder.model.quantity import split_quantity
from builder.model.records.fields import Measures
from builder.model.tree import span_of
from builder.shape import codes
from builder.shape.marks import Found, Mark


def quantity_problems(marks: Iterable[Found], file: str) -> Iterator[Problem]:
    """Check every quantity of a record."""
    for found in marks:
        if isinstance(found.mark, Measures):
            complaint = _complaint(found.scalar.text, found.mark.example)
            if complaint is not None:
                yield Problem(codes.WRONG_UNIT, span_of(found.scalar, file), *complaint)


def are_sound(marks: Mapping[tuple[str, str], Mark]) -> bool:
    """Whether `quantity_problems` has nothing to say of a record's marked texts."""
    measured = [(text, mark.example) for (text, _), mark in marks.items() if isinstance(mark, Measures)]
    return all(_complaint(text, example) is None for text, example in measured)


@lru_cache(maxsize=8192)
def _complaint(text: str, example: str) -> tuple[str, str] | None:
    """Return what is wrong with a quantity, and what to do."""
    quantity = split_quantity(text)
    if quantity is None or not quantity.unit:
        return None  # where a bare number is not admitted the type says so
    known = unit(quantity.unit)
    if known is None:
        return f'"{quantity.unit}" is no unit', unit_advice(quantity.unit)
    wanted = unit(example) if example else None
    kind, wanted_kind = kind_of_unit(known), kind_of_unit(wanted)
    if wanted is None or kind == wanted_kind:
        return None
    return f"{quantity} is {describe(kind)}, not {describe(wanted_kind)}", f"write it in a unit such as {example}"
