"""A seam -> its plan: each segment's facts, and what every allowed method comes to on it."""

from __future__ import annotations

from collections.abc import Iterator

from builder.formula.numbers import fixed, plain
from builder.formula.units import unit
from builder.model.records.body import Seam
from builder.model.summary import Facts
from builder.model.work import SeamPlan, SegmentPlan, Value
from builder.work.lengths import asked_length
from builder.work.methods import plan_method, sound_methods
from builder.work.workings import Shop

SHOWN = (("layers", "Sheets", ""), ("governing", "Governing sheet", "mm"), ("total", "Whole stack", "mm"),
         ("ratio", "Thickest to thinnest", ""))  # fmt: skip
"""Facts a reader wants to see: name, label, unit."""


def plan_seam(seam: Seam, facts: tuple[Facts, ...], around: Facts, shop: Shop) -> SeamPlan:
    """Work a seam out; `around` is what other records say of its surroundings.

    A method whose record is broken is passed over: that was told elsewhere.
    """
    segments: list[SegmentPlan] = []
    sound = tuple(sound_methods(seam.methods, shop))
    for at, (segment, own) in enumerate(zip(seam.segments, facts, strict=True), 1):
        name, known = segment.called(at, len(seam.segments)), {**own, **around}
        methods = tuple(plan_method(id_, record, known, name, shop) for id_, record in sound)
        asked = asked_length(segment.length, [record for _, record in sound], shop)
        segments.append(SegmentPlan(name, tuple(_facts_shown(known)), methods, known, asked))
    return tuple(segments)


def _facts_shown(facts: Facts) -> Iterator[Value]:
    for name, label, unit_name in SHOWN:
        value = facts.get(name)
        known = unit(unit_name) if unit_name else None
        if not isinstance(value, float):
            yield Value(label, "", unit_name, why="a sheet's thickness is unknown")
        else:
            number = known.from_base(value) if known is not None else value
            yield Value(label, fixed(number, 2) if name == "ratio" else plain(number), unit_name)
