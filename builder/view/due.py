"""The catalogue -> the procedures by the day on which they are to be looked at again, soonest first.

The page says the days. Which of them have passed is told by the device that shows it (review.js).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from builder.model.reference import Ref
from builder.model.views import Block, Grid, Html, Link, Links, Page
from builder.view import parts
from builder.view.here import Book, Here
from builder.view.lists import ABOUT, DUE, plain_page
from builder.view.pieces import Piece, pieces
from builder.view.review import SCRIPT, due_on
from builder.view.status import STATUS

TITLE, ANCHOR = "Due for review", "due"
HEAD = ("Due", "Procedure", "Status", "Revision")
LEAD = "A procedure is looked at again before its day, whether anything changed or not: beside the work it tells of."
NONE = "No day is set: review in shop.yaml or book.yaml says after how many months a procedure is looked at again."


class _Due(NamedTuple):
    day: str
    title: str
    ref: Ref


def due_pages(book: Book) -> Iterator[Page]:
    """Make the list, in parts where there are many; withdrawn procedures are not looked at again."""
    found = sorted(_found(book))
    for piece, some in pieces(DUE, found, parts.MOST_ON_ONE_PAGE):
        yield _page(book, piece, some)


def _page(book: Book, piece: Piece, some: Sequence[_Due]) -> Page:
    here = Here(book, piece.path)
    rows = tuple(_row(here, one) for one in some)
    none = Links("Nothing is due", (), NONE, ANCHOR)
    table: Block = Grid("Soonest first", HEAD, rows, anchor=ANCHOR) if rows else none
    more = Links("More", (Link("After how many months, by status", f"{ABOUT}#reviews"),), anchor="more")
    name = Ref("page", piece.path.removesuffix(".html"))
    made = plain_page(
        here, name, TITLE, here.paragraphs(LEAD), (table, *piece.ways, *((more,) if book.review else ())),
        is_found=piece.number == 1,
    )  # fmt: skip
    return replace(made, scripts=(SCRIPT,)) if rows else made


def _row(here: Here, one: _Due) -> tuple[Html, ...]:
    summary = here.book.catalogue.summaries[one.ref]
    issue = summary.issues[0]
    return (
        Html(f'<time datetime="{one.day}" data-due="{one.day}">{one.day}</time>'), here.anchor(here.link_to(one.ref)),
        here.text(STATUS[summary.status]), here.text(f"{issue.number} · {issue.date} · {issue.author}"),
    )  # fmt: skip


def _found(book: Book) -> Iterator[_Due]:
    for ref, summary in book.catalogue.summaries.items():
        day = due_on(book, summary.status, summary.issues[0].date) if summary.issues else ""
        if day:
            yield _Due(day, summary.title, ref)
