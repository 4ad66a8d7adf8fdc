"""The sources of the book -> one page: by sort, the first to be trusted first, with how much rests on each."""

from __future__ import annotations

from builder.model.records.supporting import Scale, Source
from builder.model.reference import Ref
from builder.model.shelf import of_kind
from builder.model.standing import SORT
from builder.model.views import Block, Group, Groups, Html, Link, Page
from builder.view.here import Book, Here
from builder.view.lists import SOURCES, plain_page


def sources_page(book: Book) -> Page:
    """Make the page; the scale of sorts says the order and what each sort is worth."""
    here = Here(book, SOURCES)
    scale = book.shelf.get(Ref("scale", SORT))
    sorts = scale.words if isinstance(scale, Scale) else {}
    by_sort: dict[str, list[Link]] = {}
    for ref, record in of_kind(book.shelf, "source", Source):
        by_sort.setdefault(record.sort, []).append(_link(here, ref))
    blocks: tuple[Block, ...] = tuple(
        Groups(_title(word.say), (Group("", tuple(by_sort[sort]), lead=word.means or ""),), f"sort_{sort}")
        for sort, word in sorts.items() if sort in by_sort
    )  # fmt: skip
    return plain_page(here, Ref("page", "sources"), "Where the figures come from", Html(""), blocks)


def _link(here: Here, ref: Ref) -> Link:
    count = len(here.book.catalogue.uses.get(ref, ()))
    said = "1 record rests on it" if count == 1 else f"{count} records rest on it"
    return here.link_to(ref, said)


def _title(say: str) -> str:
    return say[:1].upper() + say[1:]
