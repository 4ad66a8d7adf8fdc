"""The catalogue and the pages of records -> the documents in which the whole book is printed.

One document holds a small book; a large one is split, so that a browser can lay each out and nothing is held in memory
but the document in hand.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import NamedTuple

from builder.model.calculation import Slip
from builder.model.links import Catalogue
from builder.model.plan_views import PlannedSegment
from builder.model.point_views import PointEntry
from builder.model.records import KINDS
from builder.model.reference import Ref
from builder.model.said import Said, said
from builder.model.signs import NO_BREAK
from builder.model.summary import Summary
from builder.model.training_views import TrainingDesk
from builder.model.views import Ask, Block, Form, Group, Groups, Html, Link, Links, Page, Worked
from builder.model.whole import Whole
from builder.view.here import Book, Here
from builder.view.lists import PRINT, note_of, plain_page
from builder.view.points import printed_points

MOST_STEPS = 750
"""Of one document. A step takes some 3.5 kB and most of a sheet: so 2.6 MB at most."""
IN_STEPS = {"seam": 16, "calculator": 5, "panel": 3, "method": 5}
"""As how many steps a record of a kind counts, by what it takes in print, others as one; a seam for each segment."""
MOST_DOCUMENTS = 8
"""A book of no more is printed always; of a larger one, printing doubles the work."""


class Document(NamedTuple):
    """Which records are printed in one file, in the order of the lists."""

    path: str
    refs: tuple[Ref, ...]


def documents(catalogue: Catalogue) -> tuple[Document, ...]:
    """Share the records out; a book that fits is one document."""
    shares: list[list[Ref]] = [[]]
    filled = 0
    for ref in _in_order(catalogue):
        size = _size(catalogue.summaries[ref])
        if shares[-1] and filled + size > MOST_STEPS:
            shares.append([])
            filled = 0
        shares[-1].append(ref)
        filled += size
    if len(shares) == 1:
        return (Document(PRINT, tuple(shares[0])),)
    return tuple(Document(f"print-{number}.html", tuple(refs)) for number, refs in enumerate(shares, 1))


def is_printed(catalogue: Catalogue, *, asked: bool) -> bool:
    """Whether these documents are made: for a book of few always, for a larger one when it is asked for."""
    return asked or sum(map(_size, catalogue.summaries.values())) <= MOST_DOCUMENTS * MOST_STEPS


def files_of(found: Iterable[Document]) -> dict[Ref, str]:
    """Return in which file each record is."""
    return {ref: document.path for document in found for ref in document.refs}


def printed(book: Book, document: Document, found: tuple[Document, ...], pages: Iterable[Page]) -> Whole:
    """Make one document; `pages` are those of its records, made with links inside the documents."""
    here = Here(book, document.path)
    others = Links("The other parts", tuple(_way(here, one) for one in found if one != document), anchor="parts")
    return Whole(
        document.path, _title(document, found), _contents(here, document), others,
        (_as_printed(here, page) for page in pages),
    )  # fmt: skip


def list_of_documents(book: Book, found: tuple[Document, ...]) -> Iterator[Page]:
    """Where the book needs several documents, make the page that leads to them."""
    if len(found) > 1:
        here = Here(book, PRINT)
        block = Links("Documents", tuple(_way(here, one) for one in found), anchor="documents")
        yield plain_page(here, Ref("page", "print"), "The whole book, to print", Html(""), (block,))


def _in_order(catalogue: Catalogue) -> Iterator[Ref]:
    by_kind: dict[str, list[Ref]] = {}
    for ref in catalogue.summaries:
        by_kind.setdefault(ref.kind, []).append(ref)
    for kind in KINDS:
        refs = by_kind.get(kind.name, [])
        yield from sorted(refs, key=lambda ref: (catalogue.summaries[ref].title.casefold(), ref.id))


def _size(summary: Summary) -> int:
    parts = len(summary.facts) if summary.ref.kind == "seam" else 1
    return len(summary.steps) + parts * IN_STEPS.get(summary.ref.kind, 1)


def _title(document: Document, found: tuple[Document, ...]) -> str:
    title = "The whole book, to print"
    return title if len(found) == 1 else f"{title}: part {found.index(document) + 1} of {len(found)}"


def _way(here: Here, document: Document) -> Link:
    first, last = (here.book.catalogue.title(ref) for ref in (document.refs[0], document.refs[-1]))
    return Link(f"{first} to {last}", document.path, f"{len(document.refs)} records")


def _contents(here: Here, document: Document) -> Groups:
    groups = []
    for kind in KINDS:
        links = tuple(here.link_to(ref, note_of(here, ref)) for ref in document.refs if ref.kind == kind.name)
        if links:
            groups.append(Group(kind.plural, links))
    return Groups("Contents", tuple(groups), "contents")


def _as_printed(here: Here, page: Page) -> Page:
    """A form cannot be filled in on paper: what it holds at first stands there with its answers, and needs no slip.

    Nor is there anybody to ask questions.
    """
    kept = (block for block in page.main if not isinstance(block, Slip | TrainingDesk))
    return replace(page, main=tuple(_paper(here, block) for block in kept))


def _paper(here: Here, block: Block) -> Block:
    if isinstance(block, PointEntry):
        return printed_points(here, block)
    if isinstance(block, PlannedSegment):
        return _planned(block)
    return _worked(here, block) if isinstance(block, Form) else block


def _planned(block: PlannedSegment) -> Block:
    """On paper no other length is asked for, and what only another one would bring up is left out."""
    methods = tuple(
        method._replace(limits=tuple(limit for limit in method.limits if not limit.is_waiting))
        for method in block.methods
    )
    return replace(block, ask=None, methods=methods)


def _worked(here: Here, form: Form) -> Block:
    given = tuple(here.row(ask.label, _start(ask)) for ask in form.asks)
    return Worked("Worked out for the values it begins with", "", given, form.answers, form.cautions, anchor="worked")


def _start(ask: Ask) -> str | Said:
    chosen = next((option.label for option in ask.options if option.chosen), None)
    if chosen is not None or not ask.start.text:
        return chosen or "left empty"
    return said(ask.start, NO_BREAK, ask.unit) if ask.unit.text else ask.start
