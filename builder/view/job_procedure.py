"""A procedure -> what the page of a job needs of it: its steps with their times, and what the law says to them.

`job_procedure` is the entry point; job_book.js and merge.js read what it gives. Lengths of time are minutes.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from typing import Any

from builder.model.job_law import Asked, ProcedureLaw, StepLaw, Whose
from builder.model.jobs import Taken
from builder.model.quantity import Quantity
from builder.model.records.procedure import Measure, Procedure, Step
from builder.model.reference import LONE_SUBJECTS, Ref, parse_reference
from builder.model.signs import sign
from builder.view.here import Book
from builder.view.job_step import planned
from builder.view.procedure import COMES_FROM
from builder.view.prose import plain_text
from builder.view.status import BANNER
from builder.view.units import minutes

Data = dict[str, Any]
SIDES = {None: 0, "this": 1, "other": 2}
FINGERPRINT = 12
KEPT = ("minutes", "low", "high")


def job_procedure(
    book: Book, ref: Ref, procedure: Procedure, law: ProcedureLaw, takes: Iterable[Taken] = ()
) -> Data:
    """Return all that a job needs of one procedure."""
    steps = [(at, step) for at, phase in enumerate(procedure.phases) for step in phase.steps]
    rules: dict[str, int] = {}
    said = [_law(one, rules) for one in law.steps]
    return {
        "id": ref.id, "title": procedure.title, "path": book.links.path(ref), "status": procedure.status,
        "stage_id": procedure.stage or "", "stage": book.word("stage", procedure.stage or ""),
        "stage_at": stage_at(book, procedure.stage),
        "handed": book.catalogue.is_handed(book.catalogue.summaries[ref]),
        "panels": list(procedure.panels), "relies_on": list(procedure.relies_on),
        "passes_on": [one.rule for one in procedure.passes_on],
        "revision": {
            "number": procedure.revision.number, "date": procedure.revision.date,
            "author": procedure.revision.author, "approver": procedure.revision.approver,
            "reason": procedure.revision.reason,
            "changed": [[issue.number, {key: plain_text(what) for key, what in issue.steps}]
                        for issue in book.catalogue.summaries[ref].issues if issue.steps],
        },
        "banner": BANNER.get(procedure.status, ""),
        "fingerprint": fingerprint_of(procedure),
        "people": [{"who": one.who, "count": one.count} for one in procedure.needs.people],
        "parts": [_filled({"name": one.name, "comes_from": COMES_FROM[one.comes_from], "only": one.only or "",
                            "note": plain_text(one.note or "")})
                  for one in procedure.needs.parts],
        "tools": list(procedure.needs.tools), "supplies": list(procedure.needs.supplies),
        "hazards": list(procedure.hazards), "takes": [_taken(one) for one in takes],
        "phases": [phase.title for phase in procedure.phases],
        "states": [_whose(one) for one in law.states], "acts": [_whose(one) for one in law.acts],
        "brought": list(law.brought), "rules": list(rules),
        "steps": [_step(book, number, at, step, said[number - 1]) for number, (at, step) in enumerate(steps, 1)],
    }  # fmt: skip


def _taken(taken: Taken) -> Data:
    """Return a row of what is ordered; of one without an amount only why."""
    row = {"supply": taken.supply, "step": taken.step, "unit": sign(taken.unit), "how": taken.how}
    amount = {} if taken.amount is None else {"amount": taken.amount}
    once = {"once": taken.once, "sided": taken.sided} if taken.once else {}
    only = {"only": taken.only} if taken.only else {}
    return {**row, **amount, **once, **only}


def fingerprint_of(procedure: Procedure) -> str:
    """Return what changes whenever anything of the record does."""
    return hashlib.sha256(repr(procedure).encode()).hexdigest()[:FINGERPRINT]


def stage_at(book: Book, stage: str | None) -> int:
    """Return the place of a stage among all, counted from 1; a procedure that names none stands in the middle."""
    return book.rank("stage", stage) if stage else 0


def _step(book: Book, number: int, phase: int, step: Step, law: Data) -> Data:
    return _filled({
        "key": step.key, "number": number, "phase": phase, "act": step.act, "do": plain_text(step.do),
        "on": [_title(book, text) for text in step.on],
        "minutes": step.minutes or 0, "hands": step.hands, "shared": step.shared, "split": step.split,
        **planned(book, step),
        "wait": None if step.wait is None else _filled({
            "least": _whole(step.wait.least), "most": None if step.wait.most is None else _whole(step.wait.most),
            "for": step.wait.for_, "attended": step.wait.attended,
            "at": None if step.wait.at is None else step.wait.at.value,
        }),
        "measures": [_measure(book, one) for one in step.measure],
        "hold": None if step.point is None else {
            "sort": step.point.sort, "releases": step.point.releases, "proof": plain_text(step.point.proof),
        },
        "photo": plain_text(step.photo or ""), "expect": plain_text(step.expect or ""),
        "key_point": plain_text(step.key_point or ""),
        "hazards": list(step.hazards), "supplies": list(step.supplies), "tools": list(step.tools),
        "method": step.method or "", "seams": _seams(step) if step.method else [],
        "law": law,
    })  # fmt: skip


def _seams(step: Step) -> list[str]:
    """Return the seams that a step joins: each has a marking strip for every method that makes single welds."""
    refs = [parse_reference(text) for text in step.on]
    return [ref.id for ref in refs if ref is not None and ref.kind == "seam"]


def _title(book: Book, text: str) -> str:
    ref = parse_reference(text)
    if ref is None or ref.kind in LONE_SUBJECTS:
        return text
    return book.catalogue.title(ref) + (", other side" if ref.side == "other" else "")


def _measure(book: Book, measure: Measure) -> Data:
    said = book.units.name(measure.unit).text
    return _filled({
        "name": measure.name, "unit": measure.unit, "say": said if said != measure.unit else "",
        "low": _number(measure.low), "high": _number(measure.high),
        "source": book.catalogue.title(Ref("source", measure.source)),
    })  # fmt: skip


def _number(quantity: Quantity | None) -> float | None:
    return None if quantity is None else quantity.value


def _whole(quantity: Quantity) -> int:
    return round(minutes(quantity))


def _law(law: StepLaw, rules: dict[str, int]) -> Data:
    """Return what the law says to a step; rules by their place in a table that grows as they come."""

    def place(rule: str) -> int:
        return rules.setdefault(rule, len(rules))

    def asked(found: Iterable[Asked]) -> list[list[Any]]:
        return [[place(one.rule), one.state, *one.excuse] for one in found]

    return _filled({
        "acts": list(law.acts), "needs": asked(law.needs), "bans": asked(law.bans), "owes": asked(law.owes),
        "orders": [[place(one.rule), list(one.acts), *one.excuse] for one in law.orders],
        "anywhere": [[place(one.rule), one.subject, SIDES[one.side], *one.excuse] for one in law.anywhere],
        "spoils": list(law.spoils), "wipes": list(law.wipes), "makes": list(law.makes),
    })  # fmt: skip


def _whose(one: Whose) -> list[Any]:
    return [one.name, one.subject, SIDES[one.side]]


def _filled(data: Mapping[str, Any]) -> Data:
    """Leave out what says nothing: a book has thousands of steps."""
    return {key: value for key, value in data.items() if value not in ("", None, False, []) or key in KEPT}
