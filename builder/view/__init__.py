"""Stage 7: a record and what was worked out for it -> its page view. `view` and the list pages are the entry points."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import NamedTuple

from builder.model.problem import Code
from builder.model.records import Record
from builder.model.records.body import Cavity, Opening, Panel, Seam
from builder.model.records.calculator import Calculator
from builder.model.records.decision import Decision
from builder.model.records.defect import Defect
from builder.model.records.figure import Figure
from builder.model.records.job import Job
from builder.model.records.law import Act, Method, Rule, State
from builder.model.records.lesson import Lesson
from builder.model.records.page import Page as PageRecord
from builder.model.records.path import LearningPath
from builder.model.records.procedure import Procedure
from builder.model.records.settings import BookSettings
from builder.model.records.shell import Shell
from builder.model.records.skill import Skill
from builder.model.records.supporting import Hazard, Scale, Source, Supply, Term, Tool
from builder.model.records.table import Table
from builder.model.records.vehicle import Vehicle
from builder.model.reference import Ref
from builder.model.views import Page
from builder.model.work import Worked
from builder.view.about import about_page
from builder.view.bay import bay_page, bay_procedure
from builder.view.body import cavity_page, opening_page, panel_page
from builder.view.calculator import calculator_page
from builder.view.changes import changes_pages
from builder.view.codes import codes_page
from builder.view.decision import decision_page
from builder.view.defect import defect_page
from builder.view.device import device_page
from builder.view.due import due_pages
from builder.view.figure import figure_page
from builder.view.here import Book, Here, base_of
from builder.view.home import home_page
from builder.view.job import job_page
from builder.view.job_book import JobShort, job_book, job_short
from builder.view.job_example import job_example
from builder.view.job_procedure import job_procedure
from builder.view.jobs import jobs_page
from builder.view.labels import DATA as LABELS_DATA
from builder.view.labels import labels_data, labels_page
from builder.view.law import act_page, method_page, rule_page, state_page
from builder.view.learnt_from import rests_of_lesson
from builder.view.lesson import lesson_page
from builder.view.letters import letter_pages
from builder.view.lists import foot, lists_pages, navigation, stub_page
from builder.view.path import path_page
from builder.view.procedure import procedure_page
from builder.view.prose import Prose
from builder.view.quantities import Units
from builder.view.resting import value_pages
from builder.view.seam import seam_page
from builder.view.set_aside import set_aside_pages
from builder.view.shell import shell_page
from builder.view.skill import skill_page
from builder.view.sources import sources_page
from builder.view.strip import strip_pages, strips_of
from builder.view.supporting import (
    hazard_page,
    scale_page,
    source_page,
    supply_page,
    table_page,
    term_page,
    tool_page,
)
from builder.view.text_page import text_page
from builder.view.training import DATA as TRAINING_DATA
from builder.view.training import FORM as TRAINING_FORM
from builder.view.training import breakdown_page, is_practised, lesson_path, training_page
from builder.view.training_data import lesson_data, needed, training_book, training_lasting
from builder.view.used import used_pages
from builder.view.vehicle import vehicle_page
from builder.view.whole import Document, documents, files_of, is_printed, list_of_documents, printed
from builder.view.writing import Example, Examples, writing_pages


def view(book: Book, ref: Ref, record: Record, worked: Worked) -> Page:
    """Make a record's page."""
    here = Here(book, book.links.path(ref))
    match record:
        case Procedure():
            return procedure_page(here, ref, record, worked.steps, worked.steps_decided)
        case Seam():
            return seam_page(here, ref, record, worked.seam, worked.decided)
        case Calculator():
            return calculator_page(here, ref, record, worked)
        case Panel():
            return panel_page(here, ref, record, worked.decided)
        case Cavity():
            return cavity_page(here, ref, record)
        case Opening():
            return opening_page(here, ref, record)
        case Method():
            return method_page(here, ref, record)
        case Act():
            return act_page(here, ref, record)
        case State():
            return state_page(here, ref, record)
        case Rule():
            return rule_page(here, ref, record)
    return _supporting(here, ref, record)


def _supporting(here: Here, ref: Ref, record: Record) -> Page:
    match record:
        case Decision():
            return decision_page(here, ref, record)
        case Defect():
            return defect_page(here, ref, record)
        case Table():
            return table_page(here, ref, record)
        case Supply():
            return supply_page(here, ref, record)
        case Tool():
            return tool_page(here, ref, record)
        case Hazard():
            return hazard_page(here, ref, record)
        case Term():
            return term_page(here, ref, record)
        case Source():
            return source_page(here, ref, record)
        case Scale():
            return scale_page(here, ref, record)
        case Job():
            return job_page(here, ref, record)
        case Vehicle():
            return vehicle_page(here, ref, record)
        case Lesson():
            return lesson_page(here, ref, record)
        case LearningPath():
            return path_page(here, ref, record)
        case Skill():
            return skill_page(here, ref, record)
        case Shell():
            return shell_page(here, ref, record)
        case Figure():
            return figure_page(here, ref, record)
        case PageRecord():
            return text_page(here, ref, record)
    raise TypeError(f"no page is made for a {ref.kind}")


def pages_beside(book: Book, ref: Ref, record: Record, worked: Worked) -> Iterator[Page]:
    """Make the pages that hold what would make a record's own page heavy."""
    if isinstance(record, Seam):
        yield from strip_pages(book, ref, record, worked.seam)
    yield from used_pages(book, ref)
    yield from value_pages(book, ref)


class Extra(NamedTuple):
    """What the book's own pages tell beside its records."""

    settings: BookSettings
    fingerprint: str
    codes: tuple[Code, ...]
    scales: Mapping[str, tuple[str, ...]]
    examples: Examples
    """A record of each kind, as its author wrote it."""


class Own(NamedTuple):
    """Pages of the book's own that are made together."""

    name: str
    pages: Callable[[], Iterable[Page]]
    said: object = None
    """What they tell that is asked of no record."""


def own_pages(book: Book, extra: Extra) -> Iterator[Own]:
    """Return how the pages of the book's own are made, and those that stand where renamed records were."""
    settings = extra.settings
    yield Own("home", lambda: (home_page(book, settings.lead or ""),))
    yield Own("jobs", lambda: (jobs_page(book),))
    yield Own("device", lambda: (device_page(book),))
    yield Own("bay", lambda: (bay_page(book),))
    yield Own("labels", lambda: (labels_page(book),))
    yield Own("training", lambda: (training_page(book), breakdown_page(book)))
    yield Own("lists", lambda: lists_pages(book))
    yield Own("letters", lambda: letter_pages(book))
    yield Own("about", lambda: (about_page(book, settings, extra.fingerprint),), extra.fingerprint)
    yield Own("sources", lambda: (sources_page(book),))
    yield Own("set aside", lambda: set_aside_pages(book))
    yield Own("changes", lambda: changes_pages(book))
    yield Own("due", lambda: due_pages(book))
    yield Own("codes", lambda: (codes_page(book, extra.codes),))
    yield Own("writing", lambda: writing_pages(book, extra.scales, extra.examples), extra.examples)
    yield Own("moved", lambda: (stub_page(book, old, new) for old, new in sorted(book.catalogue.moved.items())))


__all__ = [
    "LABELS_DATA", "TRAINING_DATA", "TRAINING_FORM", "Book", "Document", "Example", "Extra",
    "Here", "JobShort", "Prose", "Units", "base_of", "bay_procedure", "documents", "files_of", "foot",
    "is_practised", "is_printed", "job_book", "job_example", "job_procedure", "job_short", "labels_data",
    "lesson_data", "lesson_path", "list_of_documents", "navigation", "needed", "own_pages", "pages_beside", "printed",
    "rests_of_lesson", "strips_of", "training_book", "training_lasting", "view",
]  # fmt: skip
