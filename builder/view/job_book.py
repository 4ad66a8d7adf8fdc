"""The book -> what the page of a job needs before any procedure is chosen: vehicles, panels, procedures, and names.

`job_book` is the entry point. What a procedure's steps need is in a file of its own, loaded once it is chosen.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from builder.model.job_law import AnyonesRule
from builder.model.records.body import Panel
from builder.model.records.law import Rule
from builder.model.records.procedure import Procedure
from builder.model.records.supporting import Hazard, Supply, Tool
from builder.model.records.vehicle import Vehicle
from builder.model.reference import Ref
from builder.view.here import Book
from builder.view.job_procedure import Data, fingerprint_of, stage_at
from builder.view.prose import plain_text

NAMED = ("seam", "panel", "cavity", "opening")
"""Kinds whose states and readings a job speaks of."""


class JobShort(NamedTuple):
    """A procedure in short, as the list to choose from shows it."""

    ref: Ref
    data: Data


def job_short(book: Book, ref: Ref, procedure: Procedure, handed: bool) -> JobShort:
    """Return a procedure in short."""
    steps = [step for phase in procedure.phases for step in phase.steps]
    return JobShort(ref, {
        "id": ref.id, "title": procedure.title, "path": book.links.path(ref),
        "stage": book.word("stage", procedure.stage or ""), "stage_at": stage_at(book, procedure.stage),
        "status": procedure.status, "revision": procedure.revision.number, "handed": handed,
        "panels": list(procedure.panels), "relies_on": list(procedure.relies_on), "followers": followers(book, ref),
        "was": list(procedure.was), "steps": len(steps), "minutes": sum(step.minutes or 0 for step in steps),
        "fingerprint": fingerprint_of(procedure),
    })  # fmt: skip


def followers(book: Book, ref: Ref) -> list[str]:
    """Return the procedures that begin where this one ends, because it leaves something open for them."""
    summaries = book.catalogue.summaries
    if not summaries[ref].passes_on:
        return []
    return [
        other.id for other in book.catalogue.uses.get(ref, ())
        if other.kind == "procedure" and ref in summaries[other].relations.get("relies_on", ())
    ]  # fmt: skip


def job_book(
    book: Book, vehicles: Mapping[str, Vehicle], panels: Mapping[str, Panel], procedures: list[JobShort],
    rules: Mapping[str, AnyonesRule],
) -> Data:  # fmt: skip
    """Return what a job's page needs of the whole book."""
    catalogue, links = book.catalogue, book.links
    return {
        "book": {"id": book.site.book_id, "title": book.site.title, "fingerprint": book.fingerprint},
        "vehicles": [
            {"id": id_, "title": one.title, "panels": list(one.panels), "procedures": list(one.procedures)}
            for id_, one in vehicles.items()
        ],
        "panels": {
            id_: {"title": one.title, "handed": one.handed, "neighbours": list(one.neighbours),
                  "path": links.path(Ref("panel", id_))}
            for id_, one in panels.items()
        },
        "procedures": [one.data for one in sorted(procedures)],
        "rules": {ref.id: {"title": one.title, "because": plain_text(one.because), "path": links.path(ref)}
                  for ref, one in _of(book, Rule)},
        "states": {ref.id: catalogue.title(ref) for ref in _refs(book, "state")},
        "acts": {ref.id: catalogue.title(ref) for ref in _refs(book, "act")},
        "subjects": {str(ref): catalogue.title(ref) for kind in NAMED for ref in _refs(book, kind)},
        "wide": {id_: {"state": one.state, "other_side": one.is_other_side, "owners": one.owners}
                 for id_, one in rules.items()},
        "hazards": {ref.id: {"title": one.title, "signal": one.signal, "say": book.word("signal", one.signal),
                             "danger": plain_text(one.danger), "avoid": plain_text(one.avoid), "path": links.path(ref)}
                    for ref, one in _of(book, Hazard)},
        "tools": {ref.id: {"title": one.title, "path": links.path(ref), "checks": list(map(plain_text, one.checks))}
                  for ref, one in _of(book, Tool)},
        "supplies": {ref.id: {"title": one.title, "path": links.path(ref)} for ref, one in _of(book, Supply)},
    }  # fmt: skip


def _refs(book: Book, kind: str) -> list[Ref]:
    return sorted(ref for ref in book.catalogue.summaries if ref.kind == kind)


def _of(book: Book, type_: type[Any]) -> Iterator[tuple[Ref, Any]]:
    return ((ref, book.shelf[ref]) for ref in sorted(book.shelf) if isinstance(book.shelf[ref], type_))
