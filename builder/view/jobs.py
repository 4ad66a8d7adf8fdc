"""The book's shells and example jobs -> the page where jobs are made, and a way to it from the first page."""

from __future__ import annotations

from dataclasses import replace

from builder.model.job_views import JobDesk
from builder.model.records.job import Job
from builder.model.records.shell import Shell
from builder.model.reference import Ref
from builder.model.shelf import of_kind
from builder.model.views import Block, Html, Link, Links, Page
from builder.view.here import Book, Here
from builder.view.lists import JOBS, plain_page
from builder.view.shared import shared
from builder.view.shell import unfold

TITLE = "One car, one plan"
DESK = "job_desk"
"""Where the script shows all procedures in words, which says what the drawing shows."""
LEAD = """\
Put several procedures together to one job: one order of work for the whole car, how long it takes, what to order, and
the sheets that are worked from."""
PLANNER = shared("numbers", "working", "planner")
SCRIPTS = (
    "assets/job/book.js", "assets/job/form.js", *shared("job"), *PLANNER, *shared("qr", "drawn", "strip", "jobs"),
)  # fmt: skip
"""The last one starts the page: what shows a job in another way is loaded before it."""


def jobs_page(book: Book) -> Page:
    """Make the page."""
    here = Here(book, JOBS)
    shells = [one for _, one in of_kind(book.shelf, "shell", Shell)]
    bodies = tuple(
        replace(unfold(here, shell, shell.title, f"job_body-{at}"), words=DESK) for at, shell in enumerate(shells, 1)
    )
    desk = JobDesk(TITLE, bodies, examples(here))
    page = plain_page(here, Ref("page", "jobs"), "Jobs", Html(f"<p>{here.text(LEAD)}</p>"), (desk,), is_found=True)
    return replace(page, scripts=(*curing_calculators(book), *SCRIPTS))


def curing_calculators(book: Book) -> tuple[str, ...]:
    """Return the calculators by which waits are worked out at the shop's temperature."""
    if book.planning is None:
        return ()
    curing = book.planning.curing
    return tuple(dict.fromkeys(f"assets/calc/{id_}.js" for id_ in (curing.cure, curing.window)))


def examples(here: Here) -> tuple[Link, ...]:
    """Return the jobs that come with the book."""
    jobs = of_kind(here.book.shelf, "job", Job)
    return tuple(here.link_to(ref, one.car or "") for ref, one in jobs)


def way_to_jobs(here: Here) -> Block:
    """Return what the first page says of jobs."""
    ways = (Link("Jobs", f"{here.root}{JOBS}", "Plan a whole car: make a job or open one"), *examples(here))
    return Links(TITLE, ways, anchor="job")
