"""A lesson or a skill -> the records it rests on, what each is like now, and a mark that changes when one does."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import MISSING, fields, is_dataclass
from typing import Any

from builder.model.records import Record
from builder.model.records.calculator import Calculator
from builder.model.records.lesson import Lesson
from builder.model.records.skill import Skill
from builder.model.reference import Ref, parse_reference
from builder.view.here import Book

FINGERPRINT = 12
Records = Mapping[Ref, Record]


def procedures_of(book: Book, lesson: Lesson) -> dict[Ref, list[str]]:
    """Return the procedures its questions are drawn from, each with the steps whose phases are meant, or none."""
    found: dict[Ref, list[str]] = {}
    for text in lesson.questions.procedures if lesson.questions is not None else ():
        if ref := parse_reference(text, "procedure"):
            found.setdefault(living(book, ref), []).append(ref.anchor)
    return {ref: [] if "" in steps else steps for ref, steps in found.items()}


def calculators_of(book: Book, lesson: Lesson) -> list[Ref]:
    """Return the calculators its questions are drawn from."""
    named = lesson.questions.calculators if lesson.questions is not None else ()
    return list(dict.fromkeys(living(book, ref) for text in named if (ref := parse_reference(text, "calculator"))))


def rests_of_lesson(book: Book, lesson: Lesson) -> tuple[Ref, ...]:
    """Return what its questions and tests come from, and what catches the mistakes that it tells."""
    judging = (living(book, Ref("calculator", one.calculator)) for one in lesson.practical)
    catching = (living(book, ref) for one in lesson.catches if (ref := parse_reference(one.by)))
    named = (*procedures_of(book, lesson), *calculators_of(book, lesson), *judging, *catching)
    return tuple(dict.fromkeys(_with_tables(book, named)))


def rests_of_skill(book: Book, skill: Skill) -> tuple[Ref, ...]:
    """Return what a skill stands on."""
    named = (living(book, ref) for text in skill.stands_on if (ref := parse_reference(text)))
    return tuple(dict.fromkeys(_with_tables(book, named)))


def living(book: Book, ref: Ref) -> Ref:
    """Return the record's name of today."""
    return book.catalogue.moved.get(ref.record, ref.record)


def _with_tables(book: Book, refs: Iterable[Ref]) -> Iterator[Ref]:
    """A calculator answers otherwise when a table that it reads does."""
    for ref in refs:
        yield ref
        record = book.shelf.get(ref)
        if isinstance(record, Calculator):
            yield from (living(book, Ref("table", id_)) for id_ in record.tables.values())


def rested_on(book: Book, ref: Ref, records: Records) -> dict[str, Any]:
    """Return what a page keeps of a record to notice that it was changed."""
    found = book.catalogue.find(ref)
    issue = found.issues[0] if found is not None and found.issues else None
    return {
        "ref": str(ref), "title": book.catalogue.title(ref), "path": book.links.path(ref),
        "fingerprint": fingerprint(records[ref]),
        "revision": issue.number if issue else None, "date": issue.date if issue else None,
    }  # fmt: skip


def fingerprint(record: Record) -> str:
    """Return what changes whenever anything is said otherwise in the record, and with no later edition of its type."""
    return hashlib.sha256(repr(_said(record)).encode()).hexdigest()[:FINGERPRINT]


def _said(value: Any) -> Any:
    """Leave out what nobody wrote: a key that a later edition adds changes no record that does without it."""
    if is_dataclass(value):
        held = ((one, getattr(value, one.name)) for one in fields(value))
        return [(one.name, _said(held_)) for one, held_ in held if held_ != _unwritten(one)]
    if isinstance(value, dict):
        return [(key, _said(one)) for key, one in value.items()]
    return [_said(one) for one in value] if isinstance(value, tuple) and not hasattr(value, "_fields") else value


def _unwritten(field: Any) -> Any:
    return field.default_factory() if field.default_factory is not MISSING else field.default
