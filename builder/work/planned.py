"""A procedure's steps -> where each is done, by its own word or by `planning.yaml`; and places that nobody has."""

from __future__ import annotations

from collections.abc import Iterator

from builder.formula import Fault
from builder.model.near import listed, offer
from builder.model.records.planning import Planning
from builder.model.records.procedure import Procedure, Step
from builder.work import codes


def place_faults(record: Procedure, planning: Planning | None) -> Iterator[Fault]:
    """Yield a fault for each step at a place that the file does not name; without a file nothing is known of places."""
    if planning is None:
        return
    for phase_at, phase in enumerate(record.phases):
        for at, step in enumerate(phase.steps):
            if step.needs_place is not None and not _named(step.needs_place, planning):
                says = [place.say for place in planning.places.values()]
                do = offer(step.needs_place, [*says, *planning.places], f"name one of: {listed(says)}")
                message = f'planning.yaml has no place "{step.needs_place}"'
                path = ("phases", phase_at, "steps", at, "needs_place")
                yield Fault(codes.UNKNOWN_PLACE, message, do, path=path)


def place_of(step: Step, planning: Planning) -> str:
    """Return the id of the place a step holds: its own word first, then that of what it uses, then its act's."""
    if step.needs_place is not None:
        return _named(step.needs_place, planning)
    by_tool = (planning.place_of_tool[tool] for tool in step.tools if tool in planning.place_of_tool)
    return next(by_tool, planning.place_of.get(step.act, ""))


def _named(name: str, planning: Planning) -> str:
    said = name.casefold()
    return next((id_ for id_, place in planning.places.items() if said in (id_, place.say.casefold())), "")
