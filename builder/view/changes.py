"""The catalogue -> every revision of every procedure, newest first: what changed in it, why, and by whom."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import NamedTuple

from builder.model.reference import Ref
from builder.model.summary import Issue
from builder.model.views import Block, Card, Cards, Html, Link, Links, Page, Row
from builder.view.here import Book, Here
from builder.view.lists import CHANGES, DUE, plain_page
from builder.view.pieces import Piece, pieces
from builder.view.revised import by, steps

TITLE = "What changed"
LEAD = """\
Every revision of every procedure, newest first, with the reason for it and the steps that are done in another way
since. A device that has followed a procedure marks those steps until they were seen."""
NONE = "This book has no procedures."
MOST_ON_ONE_PAGE = 100
"""Revisions: about 60 kB of a page."""


class _Change(NamedTuple):
    title: str
    ref: Ref
    issue: Issue


def changes_pages(book: Book) -> Iterator[Page]:
    """Make the list, in parts where there are many."""
    for piece, some in pieces(CHANGES, _newest_first(book), MOST_ON_ONE_PAGE):
        yield _page(book, piece, some)


def _page(book: Book, piece: Piece, some: Sequence[_Change]) -> Page:
    here = Here(book, piece.path)
    days = (Cards(day, tuple(_card(here, one) for one in changes), f"changes_{day}")
            for day, changes in groupby(some, key=lambda one: one.issue.date))  # fmt: skip
    blocks: tuple[Block, ...] = tuple(days) or (Links(TITLE, (), NONE, "changes"),)
    more = Links("More", (Link("Due for review", DUE),), anchor="more")
    name = Ref("page", piece.path.removesuffix(".html"))
    return plain_page(
        here, name, TITLE, here.paragraphs(LEAD), (*blocks, *piece.ways, more), is_found=piece.number == 1
    )


def _card(here: Here, one: _Change) -> Card:
    link = here.link_to(one.ref)
    numbers = {step.key: at for at, step in enumerate(here.book.catalogue.summaries[one.ref].steps, 1)}
    changed = steps(here, one.issue.number, one.issue.steps, numbers, link.href)
    mark = f' <span class="note">{here.text(link.note)}</span>' if link.note else ""
    rows = (
        Row("Why", here.line(one.issue.reason)),
        *((Row("Changed", changed),) if changed else ()),
        here.row("By", by(one.issue.author, one.issue.approver)),
    )
    return Card(Html(f"{here.anchor(link)}, revision {one.issue.number}{mark}"), rows)


def _newest_first(book: Book) -> list[_Change]:
    found = (
        _Change(summary.title, ref, issue)
        for ref, summary in sorted(book.catalogue.summaries.items()) for issue in summary.issues
    )  # fmt: skip
    by_title = sorted(found, key=lambda one: (one.title.casefold(), one.ref, -one.issue.number))
    return sorted(by_title, key=lambda one: one.issue.date, reverse=True)
