"""Hazard records -> safety messages, and the list gathered from a procedure's steps."""

from __future__ import annotations

from collections.abc import Iterable

from builder.model.records.procedure import Procedure
from builder.model.records.supporting import Hazard
from builder.model.reference import Ref
from builder.model.views import Warning
from builder.view.here import Here

SIGNAL = "signal"


def warning(here: Here, id_: str) -> Warning | None:
    """Return the safety message of a hazard; None where its record is broken."""
    key = (here.folder, id_)
    if key not in here.book.known_warnings:
        here.book.known_warnings[key] = _warning(here, id_)
    return here.book.known_warnings[key]


def _warning(here: Here, id_: str) -> Warning | None:
    record = here.book.shelf.get(Ref("hazard", id_))
    if not isinstance(record, Hazard):
        return None
    return Warning(
        signal=here.book.word(SIGNAL, record.signal),
        rank=here.book.rank(SIGNAL, record.signal),
        danger=here.line(record.danger),
        avoid=here.line(record.avoid),
        consequence=here.line(record.consequence),
        href=here.href(Ref("hazard", id_)),
        key=id_,
    )


def warnings(here: Here, ids: Iterable[str]) -> tuple[Warning, ...]:
    """Return the safety messages of several hazards, gravest first."""
    found = [message for id_ in dict.fromkeys(ids) if (message := warning(here, id_)) is not None]
    return tuple(sorted(found, key=lambda message: message.rank))


def gathered(here: Here, procedure: Procedure) -> tuple[Warning, ...]:
    """Return every danger of a procedure: its own and those of its steps, so that they cannot disagree."""
    steps = (step for phase in procedure.phases for step in phase.steps)
    return warnings(here, [*procedure.hazards, *(id_ for step in steps for id_ in step.hazards)])
