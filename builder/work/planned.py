"""A procedure's steps -> those that are to be done at a place which `planning.yaml` does not have."""

from __future__ import annotations

from collections.abc import Iterator

from builder.formula import Fault
from builder.model.near import listed, offer
from builder.model.records.planning import Planning
from builder.model.records.procedure import Procedure
from builder.work import codes


def place_faults(record: Procedure, planning: Planning | None) -> Iterator[Fault]:
    """Yield a fault for each step at a place that the file does not name; without a file nothing is known of places."""
    if planning is None:
        return
    for phase_at, phase in enumerate(record.phases):
        for at, step in enumerate(phase.steps):
            if step.needs_place is not None and not _is_named(step.needs_place, planning):
                says = [place.say for place in planning.places.values()]
                do = offer(step.needs_place, [*says, *planning.places], f"name one of: {listed(says)}")
                message = f'planning.yaml has no place "{step.needs_place}"'
                path = ("phases", phase_at, "steps", at, "needs_place")
                yield Fault(codes.UNKNOWN_PLACE, message, do, path=path)


def _is_named(name: str, planning: Planning) -> bool:
    return any(name in (id_, place.say) for id_, place in planning.places.items())
