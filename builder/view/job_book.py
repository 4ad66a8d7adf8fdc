"""The book -> what the page of a job needs before any procedure is chosen: vehicles, panels, procedures, and names.

`job_book` is the entry point. What a procedure's steps need is in a file of its own, loaded once it is chosen.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from builder.model.job_law import AnyonesRule, ProcedureLaw
from builder.model.records import KIND_OF_TYPE
from builder.model.records.body import Panel
from builder.model.records.law import Rule, State
from builder.model.records.planning import Curing, CustomerPage, Watching
from builder.model.records.procedure import Procedure
from builder.model.records.supporting import Hazard, Supply, Tool
from builder.model.records.vehicle import Vehicle
from builder.model.reference import Ref
from builder.model.shelf import of_kind
from builder.model.signs import sign, with_sign
from builder.view.here import Book
from builder.view.job_procedure import Data, stage_at
from builder.view.law import anyones_data
from builder.view.prose import plain_text
from builder.view.units import minutes

NAMED = ("seam", "panel", "cavity", "opening")
"""Kinds whose states and readings a job speaks of."""


class JobShort(NamedTuple):
    """A procedure in short, as the list to choose from shows it."""

    ref: Ref
    data: Data


def job_short(book: Book, ref: Ref, procedure: Procedure, law: ProcedureLaw, data: Data) -> JobShort:
    """Return a procedure in short; `data` is what a job needs of it whole."""
    steps = [step for phase in procedure.phases for step in phase.steps]
    return JobShort(ref, {
        "id": ref.id, "title": procedure.title, "path": book.links.path(ref),
        "stage": book.word("stage", procedure.stage or ""), "stage_at": stage_at(book, procedure.stage),
        "status": procedure.status, "revision": procedure.revision.number, "handed": data["handed"],
        "panels": list(procedure.panels), "relies_on": list(procedure.relies_on), "followers": followers(book, ref),
        "ends": ends_of(law),
        "was": list(procedure.was), "steps": len(steps), "minutes": sum(step.minutes or 0 for step in steps),
        "fingerprint": data["fingerprint"],
    })  # fmt: skip


def ends_of(law: ProcedureLaw) -> list[list[str]]:
    """Return the states, each with whose it is, that were left to the procedure and hold no longer when it is done."""
    holds = dict.fromkeys(law.brought, True)
    for step in law.steps:
        holds |= dict.fromkeys((one for one in step.spoils if one in holds), False)
        holds |= dict.fromkeys((one for one in step.makes if one in holds), True)
    ended = [law.states[at] for at, does_hold in holds.items() if not does_hold]
    return [[one.name, one.subject] for one in ended]


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
        "rules": {ref.id: {"title": one.title, "because": plain_text(one.because), "level": one.level,
                           "path": links.path(ref)}
                  for ref, one in _of(book, Rule)},
        "states": {ref.id: catalogue.title(ref) for ref in _refs(book, "state")},
        "daily": [ref.id for ref, one in _of(book, State) if one.lasts == "day"],
        "acts": {ref.id: catalogue.title(ref) for ref in _refs(book, "act")},
        "subjects": {str(ref): catalogue.title(ref) for kind in NAMED for ref in _refs(book, kind)},
        "wide": anyones_data(rules),
        "methods": {ref.id: catalogue.title(ref) for ref in _refs(book, "method")},
        "hazards": {ref.id: {"title": one.title, "signal": one.signal, "say": book.word("signal", one.signal),
                             "rank": book.rank("signal", one.signal),
                             "danger": plain_text(one.danger), "avoid": plain_text(one.avoid), "path": links.path(ref)}
                    for ref, one in _of(book, Hazard)},
        "tools": {ref.id: {"title": one.title, "path": links.path(ref), "checks": list(map(plain_text, one.checks)),
                           **_calibration(book, one)}
                  for ref, one in _of(book, Tool)},
        "supplies": {ref.id: {"title": one.title, "path": links.path(ref), **_bought(book, one)}
                     for ref, one in _of(book, Supply)},
        "planning": _planning(book) if book.planning is not None else None,
    }  # fmt: skip


def _bought(book: Book, supply: Supply) -> Data:
    """Return how a supply is ordered; of one that nobody says it of nothing."""
    pack, waste = supply.pack, supply.waste
    said: Data = {"pack": None, "waste": 0, "always_whole": supply.always_whole}
    if pack is not None:
        unit = sign(pack.size.unit) or pack.of or ""
        said["pack"] = {"size": pack.size.value, "unit": unit, "say": pack.say, "source": _source(book, pack.source)}
    if waste is not None:
        said |= {"waste": waste.part / 100, "waste_source": _source(book, waste.source)}
    return said


def _calibration(book: Book, tool: Tool) -> Data:
    known = tool.calibrated
    if known is None:
        return {}
    every = with_sign(known.every.number, known.every.unit)
    return {"calibration": {"every": every, "source": _source(book, known.source)}}


def _source(book: Book, id_: str) -> str:
    return book.catalogue.title(Ref("source", id_))


def _planning(book: Book) -> Data:
    """Return how this shop plans, as its layers say it; a job may differ in hours, hands, places and climate."""
    said = book.planning
    assert said is not None
    return {
        "places": {id_: {"say": one.say, "count": one.count, "means": one.means or ""}
                   for id_, one in said.places.items()},
        "traits": {id_: {"say": one.say, "through_wait": one.through_wait, "lingers": one.lingers}
                   for id_, one in said.traits.items()},
        "clashes": [{"between": list(one.between), "because": plain_text(one.because)} for one in said.clashes],
        "rust": {id_: {"say": one.say, "means": one.means or "", "low": one.low, "likely": one.likely, "high": one.high}
                 for id_, one in said.rust.items()},
        "lone_hand": {"factor": said.lone_hand.factor, "because": plain_text(said.lone_hand.because)},
        "curing": _curing(said.curing),
        "watching": None if said.watching is None else _watching(said.watching),
        "stages": {"first": list(said.stages.first), "last": list(said.stages.last)} if said.stages else None,
        "with_the_last": list(said.with_the_last.acts) if said.with_the_last else [],
        "hours": {"opens": said.hours.opens, "closes": said.hours.closes, "days": list(said.hours.days)},
        "hands": {"usual": said.hands.usual, "most": said.hands.most},
        "climate": {"temperature": said.climate.temperature.value, "humidity": said.climate.humidity.value},
        "customer": None if said.customer is None else _customer(said.customer),
    }  # fmt: skip


def _customer(said: CustomerPage) -> Data:
    return {
        "opening": plain_text(said.opening), "closing": plain_text(said.closing),
        "parts": [
            {"id": id_, "say": one.say, "means": plain_text(one.means), "of": one.of, "acts": list(one.acts),
             "nothing": plain_text(one.nothing or ""), "ask": one.ask or ""}
            for id_, one in said.parts.items()
        ],
        "looks": [{"after": one.after, "look": plain_text(one.look)} for one in said.looks],
    }  # fmt: skip


def _curing(said: Curing) -> Data:
    return {
        "cure": said.cure, "cure_answer": said.cure_answer, "window": said.window,
        "window_least": said.window_least, "window_most": said.window_most,
        "sheet_temperature": said.sheet_temperature.value, "least_temperature": said.least_temperature.value,
        "factor": said.factor, "because": plain_text(said.because),
        "cold": plain_text(said.cold),
    }  # fmt: skip


def _watching(said: Watching) -> Data:
    return {
        "every": minutes(said.every), "look": plain_text(said.look), "cold": said.cold, "warm": said.warm,
        "warm_do": plain_text(said.warm_do), "warn": minutes(said.warn), "late": plain_text(said.late),
    }


def _refs(book: Book, kind: str) -> list[Ref]:
    return sorted(ref for ref in book.catalogue.summaries if ref.kind == kind)


def _of(book: Book, type_: type[Any]) -> Iterator[tuple[Ref, Any]]:
    return of_kind(book.shelf, KIND_OF_TYPE[type_], type_)
