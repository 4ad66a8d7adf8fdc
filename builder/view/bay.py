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
from builder.view.jobs import CONTROL, PLANNER, curing_calculators
from builder.view.lists import BAY, JOBS, LISTS, plain_page
from builder.view.warnings import warnings

LEAD = "One step at a time, large enough for a gloved thumb, for one procedure or a whole job."
FIRST = ("check", "file", "left", "store", "photo", "library", "bar", "join", "meet", "keep", "rows", "parts",
         "entries", "photos", "ticks", "step_card")  # fmt: skip
"""What the first step cannot be shown or kept without."""
TIMERS = ("clock", "timer_words", "wall", "alarm", "awake", "timer_view", "timers", "timer_set")
"""What times waits and watches: there before the page starts."""
OWN = ("plan", "stand", "names", "dialog", "keypad", "release", "measures", "photo", "drawing", "step", "ways",
       "person", "end", "open", "frame", "turn", "desk", *TIMERS,
       "page")  # fmt: skip
DRAWING = ("numbers", "strokes", "lengths", "weld_places", "order_numbers", "measures_below", "layout")
BOUND = "assets/js/bay.js"
BOUND_OF = (
    "assets/js/as_built.js", "assets/js/job_words.js", "assets/js/job_kept.js",
    *(f"assets/js/{name}.js" for name in CONTROL), *(f"assets/js/job_{name}.js" for name in FIRST),
    *(f"assets/js/bay_{name}.js" for name in OWN),
)  # fmt: skip
"""Put together to one script, which a phone has sooner than forty. The last one starts the page."""
SCRIPTS = ("assets/job/book.js", "assets/job/form.js", BOUND)


def bay_page(book: Book) -> Page:
    """Make the page."""
    here = Here(book, BAY)
    ways = (Link("Procedures", f"{LISTS}#procedure", "with all their steps"), Link("Jobs", JOBS))
    planner = (*curing_calculators(book), *(f"assets/js/{name}.js" for name in PLANNER))
    later = tuple(path for path in planner if path not in BOUND_OF)
    bay = Bay(TITLE, later, tuple(f"assets/js/{name}.js" for name in DRAWING), ways)
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
