"""A defect -> its page: what is seen, what it comes of, what mends it; and which defects a step leads to."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from builder.model.records.defect import Cause, Defect
from builder.model.records.procedure import Step
from builder.model.reference import Ref
from builder.model.shelf import of_kind
from builder.model.views import Block, Grid, Html, Link, Links, Page, Passage, Prose
from builder.view.figure import pictures_block
from builder.view.here import Book, Here
from builder.view.page import page, passage

HEAD = ("It comes of", "Told by", "Do")


def defect_page(here: Here, ref: Ref, defect: Defect) -> Page:
    """Make the page."""
    main: tuple[Block, ...] = (
        Prose("How it is looked for", here.paragraphs(defect.look), "look"),
        Prose("If it is left", here.paragraphs(defect.harm), "harm"),
        Grid("What it comes of, the likeliest first", (*HEAD, "Source"),
             tuple(_row(here, cause) for cause in defect.causes), anchor="causes"),
        Prose("What becomes of the work", here.paragraphs(defect.mend), "mend"),
        *pictures_block(here, defect.figures),
        Links("Arises with", (*here.links("act", defect.arises.act), *here.links("method", defect.arises.method)),
              anchor="arises"),
        Links("Sources", here.links("source", defect.sources), "None.", "sources"),
    )  # fmt: skip
    return page(
        here, ref, defect.title, "Defect", here.paragraphs(defect.condition), main, aliases=defect.was,
        texts=tuple(_passages(defect)),
    )  # fmt: skip


def _row(here: Here, cause: Cause) -> tuple[Html, ...]:
    return (
        here.line(cause.cause), here.line(cause.tell), here.line(cause.do),
        here.anchor(here.link("source", cause.source)),
    )  # fmt: skip


def _passages(defect: Defect) -> Iterator[Passage]:
    yield passage("", defect.title, defect.condition, defect.look, defect.harm)
    causes = (text for one in defect.causes for text in (one.cause, one.tell, one.do))
    yield passage("causes", "What it comes of", *causes)
    yield passage("mend", "What becomes of the work", defect.mend)


def defects_of(here: Here, step: Step) -> tuple[Link, ...]:
    """Return links to the defects that show themselves with such a step."""
    key = (step.act, step.method or "")
    known = here.book.known_defects.get(key, lambda: tuple(_arising(here.book, *key)))
    return tuple([here.link_to(ref) for ref in known])


def _arising(book: Book, act: str, method: str) -> Iterator[Ref]:
    for ref, defect in of_kind(book.shelf, "defect", Defect):
        methods = _today(book, "method", defect.arises.method)
        is_joined_so = not methods or not method or _today(book, "method", (method,)) <= methods
        if is_joined_so and _today(book, "act", (act,)) <= _today(book, "act", defect.arises.act):
            yield ref


def _today(book: Book, kind: str, ids: Iterable[str]) -> frozenset[Ref]:
    """Records by their names of today."""
    return frozenset(book.catalogue.moved.get(Ref(kind, id_), Ref(kind, id_)) for id_ in ids)
