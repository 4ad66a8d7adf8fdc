"""The book -> what the pages of training load: lessons, skills, paths, levels, and what each lesson is drawn from."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from builder.formula.inputs import asked_unit, read_quantity
from builder.formula.numbers import to_float
from builder.model.job_law import AnyonesRule
from builder.model.records import KIND_OF_TYPE
from builder.model.records.calculator import Calculator
from builder.model.records.law import Rule
from builder.model.records.lesson import Lesson
from builder.model.records.path import LearningPath
from builder.model.records.skill import Skill
from builder.model.records.supporting import Hazard, Supply, Term, Tool
from builder.model.records.training import Training
from builder.model.reference import Ref
from builder.model.shelf import of_kind
from builder.model.signs import SIGNS
from builder.view.here import Book, Here
from builder.view.law import anyones_data
from builder.view.learnt_from import (
    Records,
    calculators_of,
    fingerprint,
    living,
    procedures_of,
    rested_on,
    rests_of_lesson,
    rests_of_skill,
)
from builder.view.lists import TRAINING
from builder.view.practical import practical_data
from builder.view.prose import plain_text
from builder.view.status import WITHDRAWN

Data = dict[str, Any]
BETWEEN = " to "
"""Parts the least from the greatest number that is drawn for an input."""


def needed(book: Book) -> frozenset[Ref]:
    """Return the records that skills stand on: a page notices when one of them changes."""
    skills = (one for _, one in held(book, Skill))
    return frozenset(ref for one in skills for ref in rests_of_skill(book, one) if ref in book.catalogue.summaries)


def training_book(book: Book, lasting: Data, wide: Mapping[str, AnyonesRule]) -> Data:
    """Return what every page of training needs; `wide` is as in jobs."""
    there = {"id": book.site.book_id, "title": book.site.title, "fingerprint": book.fingerprint}
    return {"book": there, **lasting, "wide": anyones_data(wide), "signs": SIGNS}


def training_lasting(book: Book, records: Records) -> Data:
    """Return what of it stays as long as nothing that it tells of changes; `records` holds what skills stand on."""
    links = book.links
    return {
        **_settings(book.training),
        "skills": [
            {"id": ref.id, "title": one.title, "path": links.path(ref), "summary": plain_text(one.summary),
             "stands_on": [rested_on(book, other, records) for other in rests_of_skill(book, one) if other in records]}
            for ref, one in held(book, Skill)
        ],
        "lessons": [
            {"id": ref.id, "title": one.title, "path": links.path(ref), "minutes": one.minutes,
             "teaches": _ids(book, "skill", one.teaches), "after": _ids(book, "lesson", one.after),
             "fingerprint": fingerprint(one)}
            for ref, one in held(book, Lesson)
        ],
        "paths": [
            {"id": ref.id, "title": one.title, "path": links.path(ref), "for": plain_text(one.for_),
             "lessons": _ids(book, "lesson", one.lessons), "then": _ids(book, "path", one.then)}
            for ref, one in in_turn(book)
        ],
        "rules": {
            ref.id: {"title": one.title, "because": plain_text(one.because), "path": links.path(ref)}
            for ref, one in _of(book, Rule)
        },
        "words": {links.path(ref): one.title for kind in (Term, Tool, Supply) for ref, one in _of(book, kind)
                  if _is_plain(ref, one.title)},
        "hazards": {ref.id: _hazard(book, ref, one) for ref, one in _of(book, Hazard)},
        "procedures": [
            {"id": ref.id, "title": one.title, "path": links.path(ref), "status": one.status}
            for ref, one in sorted(book.catalogue.summaries.items())
            if ref.kind == "procedure" and one.status != WITHDRAWN
        ],
    }  # fmt: skip


def _is_plain(ref: Ref, title: str) -> bool:
    """Whether a name means this wherever it is read: a part's hand goes by a longer id, for people have hands, too."""
    return " " in title or title.lower() == ref.id


def _settings(said: Training | None) -> Data:
    """Return what `training.yaml` says; without one nothing is asked and no level can be given."""
    if said is None:
        return {"levels": [], "asks": dict.fromkeys(("order", "broken", "work", "hazard"), 0), "pass": 100,
                "breakdown": None, "trainer": None}  # fmt: skip
    asks, sheet = said.questions, said.breakdown
    return {
        "levels": [{"id": id_, "say": one.say, "means": plain_text(one.means)} for id_, one in said.levels.items()],
        "asks": {"order": asks.order, "broken": asks.broken, "work": asks.work, "hazard": asks.hazard},
        "pass": said.pass_,
        "breakdown": {"step": sheet.step, "key_point": sheet.key_point, "reason": sheet.reason,
                      "about": plain_text(sheet.about)},
        "trainer": {"before": list(map(plain_text, said.trainer.before)),
                    "give": list(map(plain_text, said.trainer.give))},
    }  # fmt: skip


def _hazard(book: Book, ref: Ref, hazard: Hazard) -> Data:
    return {
        "title": hazard.title, "path": book.links.path(ref), "signal": hazard.signal,
        "say": book.word("signal", hazard.signal), "danger": plain_text(hazard.danger),
        "avoid": plain_text(hazard.avoid), "consequence": plain_text(hazard.consequence),
        "protect": list(map(plain_text, hazard.protect)), "signs": list(map(plain_text, hazard.signs)),
    }  # fmt: skip


def lesson_data(book: Book, ref: Ref, lesson: Lesson, records: Records) -> Data:
    """Return what the page of a lesson asks and judges by; `records` holds what it rests on."""
    here, at_root = Here(book, book.links.path(ref)), Here(book, TRAINING)  # what scripts show, they show anywhere
    there = book.catalogue.summaries  # a copy of a part of the book may hold a lesson without all that it asks
    procedures = {one: steps for one, steps in procedures_of(book, lesson).items() if one in there}
    calculators = [one for one in calculators_of(book, lesson) if one in there]
    tests = [one for one in lesson.practical if living(book, Ref("calculator", one.calculator)) in there]
    judging = [living(book, Ref("calculator", one.calculator)) for one in tests]
    drawn = [f"assets/{part}/{one.id}.js" for one in procedures for part in ("job/procedure", "bay")]
    worked = [f"assets/calc/{one.id}.js" for one in dict.fromkeys((*calculators, *judging))]
    return {
        "id": ref.id, "title": lesson.title, "path": here.path, "teaches": _ids(book, "skill", lesson.teaches),
        "fingerprint": fingerprint(lesson),
        "questions": {
            "procedures": [{"id": one.id, "phases": _phases(book, one, steps)} for one, steps in procedures.items()],
            "calculators": [{"id": one.id, "from": dict(_drawn_from(book, lesson, one))} for one in calculators],
        },
        "practical": [practical_data(at_root, one) for one in tests],
        "stands_on": [rested_on(book, one, records) for one in rests_of_lesson(book, lesson) if one in records],
        "scripts": [*drawn, *worked],
    }  # fmt: skip


def _phases(book: Book, procedure: Ref, steps: Iterable[str]) -> list[int] | None:
    """Return the phases that these steps stand in, counted from 0; None where the whole procedure is meant."""
    found = book.catalogue.summaries[procedure]
    at = {step.key: int(step.path[1]) for step in found.steps}
    return sorted({at[key] for key in steps}) or None


def _drawn_from(book: Book, lesson: Lesson, calculator: Ref) -> Iterator[tuple[str, list[float]]]:
    """Return between which numbers, in the input's own unit, each input is drawn."""
    record = book.shelf[calculator]
    assert isinstance(record, Calculator)
    said = lesson.questions.from_ if lesson.questions is not None else {}
    for id_, ranges in said.items():
        if living(book, Ref("calculator", id_)) == calculator:
            for name, text in ranges.items():
                unit = asked_unit(record.inputs[name].unit)
                ends = [read_quantity(end, unit) for end in text.split(BETWEEN, 1)]
                yield name, [to_float(end.own) for end in ends if not isinstance(end, str)]


def _ids(book: Book, kind: str, ids: Iterable[str]) -> list[str]:
    return [living(book, Ref(kind, id_)).id for id_ in ids]


def _of(book: Book, type_: type[Any]) -> list[tuple[Ref, Any]]:
    return [*of_kind(book.shelf, KIND_OF_TYPE[type_], type_)]


def held(book: Book, type_: type[Any]) -> list[tuple[Ref, Any]]:
    """Return those that have a page; a copy of a part of the book knows more records than it holds."""
    return [(ref, one) for ref, one in _of(book, type_) if ref in book.catalogue.summaries]


def in_turn(book: Book) -> list[tuple[Ref, LearningPath]]:
    """Paths in the order in which they are taken: each before those that may come after it."""
    paths = dict(held(book, LearningPath))
    later = {Ref("path", id_) for one in paths.values() for id_ in _ids(book, "path", one.then)}
    waiting = [ref for ref in paths if ref not in later] or list(paths)
    found: dict[Ref, LearningPath] = {}
    while waiting:
        ref = waiting.pop(0)
        if ref in paths and ref not in found:
            found[ref] = paths[ref]
            waiting += [Ref("path", id_) for id_ in _ids(book, "path", paths[ref].then)]
    return [*found.items(), *((ref, one) for ref, one in paths.items() if ref not in found)]
