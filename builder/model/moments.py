"""Calculators -> groups by the moment of the job at which each is wanted, in the order of the scale of moments."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from builder.model.records import Record
from builder.model.records.calculator import Calculator
from builder.model.records.supporting import Scale
from builder.model.reference import Ref

MOMENT = "moment"
"""The scale of the moments of a job, in the order in which they come."""
AT_NONE = "At any moment"
"""Heads those that name none, where others do."""


class Moment(NamedTuple):
    """The calculators of one moment."""

    id: str
    """Empty for those that name none."""
    say: str
    """Empty where there is nothing to tell apart."""
    calculators: tuple[Ref, ...]


def by_moment(refs: Iterable[Ref], shelf: Mapping[Ref, Record]) -> list[Moment]:
    """Group calculators; moments that have none are left out, those that name none come last."""
    scale = shelf.get(Ref("scale", MOMENT))
    words = scale.words if isinstance(scale, Scale) else {}
    found: dict[str, list[Ref]] = {}
    for ref in refs:
        record = shelf.get(ref)
        moment = record.moment if isinstance(record, Calculator) else None
        found.setdefault(moment if moment in words else "", []).append(ref)
    moments = [Moment(id_, word.say, tuple(found[id_])) for id_, word in words.items() if id_ in found]
    if "" in found:
        moments.append(Moment("", AT_NONE if moments else "", tuple(found[""])))
    return moments
