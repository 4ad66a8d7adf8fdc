"""Hazard records -> safety messages, and the list gathered from a procedure's steps."""

from __future__ import annotations

from collections.abc import Iterable

from builder.model.records.procedure import Procedure
from builder.model.records.supporting import Hazard
from builder.model.reference import Ref
from builder.model.views import Warning
from builder.view.here import Here

SIGNAL = "signal"
GRAVEST = 1


def warning(here: Here, id_: str) -> Warning | None:
    """Return the safety message of a hazard; None where its record is broken."""
    return here.book.known_warnings.get((here.folder, id_), lambda: _warning(here, id_))


def _warning(here: Here, id_: str) -> Warning | None:
    named = Ref("hazard", id_)
    record = here.book.shelf.get(named)
    if not isinstance(record, Hazard):
        return None
    return Warning(
        signal=here.book.word(SIGNAL, record.signal),
        rank=here.book.rank(SIGNAL, record.signal),
        danger=here.line(record.danger),
        avoid=here.line(record.avoid),
        consequence=here.line(record.consequence),
        href=here.href(here.book.catalogue.moved.get(named, named)),
        key=id_,
        title=record.title,
    )


def warnings(here: Here, ids: Iterable[str]) -> tuple[Warning, ...]:
    """Return the safety messages of several hazards, gravest first."""
    found = [message for id_ in dict.fromkeys(ids) if (message := warning(here, id_)) is not None]
    return tuple(sorted(found, key=lambda message: message.rank))


def gathered(here: Here, procedure: Procedure) -> tuple[Warning, ...]:
    """Return every danger of a procedure: those of its steps, which say them in full, in brief, and the rest in full.

    Gathered from the steps, so that they cannot disagree.
    """
    of_steps = [id_ for phase in procedure.phases for step in phase.steps for id_ in step.hazards]
    found = warnings(here, [*procedure.hazards, *of_steps])
    return tuple([message._replace(is_brief=message.key in of_steps) for message in found])


def told_once(found: tuple[Warning, ...], told: set[str]) -> tuple[Warning, ...]:
    """Return the messages of a step, in brief where `told` holds them; those that kill are always said in full.

    A page that says all of a danger at each step is one whose dangers are scrolled past. `told` grows.
    """
    messages = [
        message._replace(is_brief=True) if message.key in told and message.rank > GRAVEST else message
        for message in found
    ]  # fmt: skip
    told.update(message.key for message in found)
    return tuple(messages)
