"""Rules that steps set aside, with the reason -> a page of all of them, and a block on each such rule's own page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from builder.model.reference import Ref
from builder.model.views import Block, Grid, Html, Link, Links, Page
from builder.view import parts
from builder.view.here import Book, Here
from builder.view.lists import SET_ASIDE, plain_page
from builder.view.pieces import pieces
from builder.view.used import MOST

TITLE, ANCHOR = "Rules set aside", "set-aside"
HEAD = ("Rule", "Step", "Why it is right there")
NONE = "No step of this book sets a rule aside."
LEAD = ("A rule that does not fit a step is set aside there in writing. Read these from time to time: what is set "
        "aside often is a rule to be mended, or a habit to be looked at.")  # fmt: skip


class _Found(NamedTuple):
    rule: Ref
    step: Ref
    because: str


def set_aside_pages(book: Book) -> Iterator[Page]:
    """Make the list of every rule set aside, in parts where there are many."""
    for piece, some in pieces(SET_ASIDE, sorted(_found(book)), parts.MOST_ON_ONE_PAGE):
        here = Here(book, piece.path)
        block: Block = _grid(here, some) if some else Links(TITLE, (), NONE, ANCHOR)
        name = Ref("page", piece.path.removesuffix(".html"))
        yield plain_page(
            here, name, TITLE, here.paragraphs(LEAD), (block, *piece.ways), is_found=piece.number == 1
        )


def set_aside_block(here: Here, ref: Ref) -> tuple[Block, ...]:
    """Say where a rule is set aside, to a bound; nothing where it never is."""
    procedures = here.book.users(ref).get("procedure", ())
    found = [one for procedure in procedures for one in _of(here.book, procedure) if one.rule == ref]
    if not found:
        return ()
    note = here.anchor(Link("All rules set aside", f"{here.root}{SET_ASIDE}"))
    return (_grid(here, found[:MOST], note),)


def _grid(here: Here, found: Sequence[_Found], note: Html | None = None) -> Grid:
    rows = tuple((here.anchor(here.link_to(one.rule)), here.anchor(_step(here, one.step)), here.line(one.because))
                 for one in found)  # fmt: skip
    return Grid(TITLE, HEAD, rows, note or Html(""), ANCHOR)


def _step(here: Here, step: Ref) -> Link:
    title = f"{here.book.catalogue.title(step.record)}: {step.anchor.replace('-', ' ')}"
    return Link(title, here.href(step))


def _found(book: Book) -> Iterator[_Found]:
    for ref in sorted(book.catalogue.summaries):
        if ref.kind == "procedure":
            yield from _of(book, ref)


def _of(book: Book, ref: Ref) -> Iterator[_Found]:
    for step in book.catalogue.summaries[ref].steps:
        for rule, because in zip(step.exempt, step.reasons, strict=True):
            name = Ref("rule", rule)
            yield _Found(book.catalogue.moved.get(name, name), ref._replace(anchor=step.key), because)

