"""The book -> the page that shows one step at a time, and a procedure's page -> what that page needs of its steps."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from builder.model.bay_procedure import BayProcedure, BayStep
from builder.model.bay_views import Bay
from builder.model.records.law import Method
from builder.model.records.procedure import Procedure
from builder.model.records.procedure import Step as StepRecord
from builder.model.reference import Ref
from builder.model.views import Html, Link, Page, Steps
from builder.view.bay_way import TITLE
from builder.view.here import Book, Here
from builder.view.jobs import PLANNER, curing_calculators
from builder.view.lists import BAY, JOBS, LISTS, plain_page
from builder.view.shared import shared
from builder.view.warnings import warnings

LEAD = "One step at a time, large enough for a gloved thumb, for one procedure or a whole job."
DRAWING = shared("numbers", "drawn", "layout")
SCRIPTS = ("assets/job/book.js", "assets/job/form.js", *shared("job", "bay"))
"""What the first step is shown and kept with, before what plans is there; the last one starts the page."""


def bay_page(book: Book) -> Page:
    """Make the page."""
    here = Here(book, BAY)
    ways = (Link("Procedures", f"{LISTS}#procedure", "with all their steps"), Link("Jobs", JOBS))
    bay = Bay(TITLE, (*curing_calculators(book), *PLANNER), DRAWING, ways)
    page = plain_page(here, Ref("page", "bay"), TITLE, Html(f"<p>{here.text(LEAD)}</p>"), (bay,))
    return replace(page, scripts=SCRIPTS, is_bare=True)


def bay_procedure(book: Book, procedure: Procedure, page: Page) -> BayProcedure:
    """Return what the bay needs of a procedure, from the page that was made of it."""
    records = {step.key: step for phase in procedure.phases for step in phase.steps}
    found = tuple(_steps(book, records, page))
    told = [id_ for step in records.values() for id_ in step.hazards]
    return BayProcedure(page.path, page.banner, found, warnings(Here(book, BAY), told))


def _steps(book: Book, records: dict[str, StepRecord], page: Page) -> Iterator[BayStep]:
    blocks = [block for block in page.main if isinstance(block, Steps)]
    for step in (step for block in blocks for phase in block.phases for step in phase.steps):
        record = records[step.key]
        method = book.shelf.get(Ref("method", record.method)) if record.method else None
        yield BayStep(step, method.draws if isinstance(method, Method) else "")
