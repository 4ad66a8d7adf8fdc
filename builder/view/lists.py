"""The catalogue -> the pages that lead to all others: home, the list of everything, and stubs for old names."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.records import KINDS
from builder.model.records.calculator import Calculator
from builder.model.reference import Ref
from builder.model.views import Block, Group, Groups, Html, Items, Link, Links, Page
from builder.view.here import Book, Here
from builder.view.procedure import STATUS
from builder.view.prose import plain_text

HOME, LISTS, AZ = "index.html", "lists.html", "a-z.html"
ABOUT, CODES, SOURCES, WRITING = "about.html", "codes.html", "sources.html", "writing.html"
FRONT_KINDS = ("procedure", "calculator", "panel", "seam")
"""Kinds the home page lists in full; the rest are a word away."""


def navigation() -> tuple[tuple[str, str], ...]:
    """Return what every page's head leads to: label and path from the root."""
    return (("Procedures", f"{LISTS}#procedure"), ("Panels", f"{LISTS}#panel"), ("Work out", f"{LISTS}#calculator"),
            ("Everything", LISTS))  # fmt: skip


def foot() -> tuple[tuple[str, str], ...]:
    """Return what every page's foot leads to."""
    return (
        ("A to Z", AZ), ("About this book", ABOUT), ("Where figures come from", SOURCES),
        ("How to write records", WRITING), ("What a problem means", CODES),
    )  # fmt: skip


def home_page(book: Book, lead: str) -> Page:
    """Make the first page."""
    here = Here(book, HOME)
    groups = tuple(group for group in _groups(here) if group[0] in FRONT_KINDS)
    blocks: tuple[Block, ...] = (
        *(Groups(group.title, (Group("", group.links),), anchor=kind) for kind, group in groups),
        Items("Take care", here.lines(book.site.cautions), anchor="cautions"),
        Links("More", (Link("Everything in this book, by kind", LISTS), Link("Everything from A to Z", AZ))),
    )
    return plain_page(here, Ref("page", "home"), book.site.title, here.paragraphs(lead), blocks)


def lists_page(book: Book) -> Page:
    """Make the list of every record, by kind and title."""
    here = Here(book, LISTS)
    blocks: tuple[Block, ...] = tuple(
        Groups(group.title, (Group("", group.links),), anchor=kind) for kind, group in _groups(here)
    )
    return plain_page(here, Ref("page", "lists"), "Everything in this book", Html(""), blocks)


def _groups(here: Here) -> Iterator[tuple[str, Group]]:
    by_kind: dict[str, list[Ref]] = {}
    for ref in here.book.catalogue.summaries:
        by_kind.setdefault(ref.kind, []).append(ref)
    for kind in KINDS:
        links = [here.link_to(ref, _note(here, ref)) for ref in sorted(by_kind.get(kind.name, ()))]
        if links:
            links.sort(key=lambda link: (link.text.casefold(), link.href))
            yield kind.name, Group(kind.plural, tuple(links))


def _note(here: Here, ref: Ref) -> str:
    """What stands beside a link: the question a calculator answers, and whether a procedure may be worked from."""
    record = here.book.shelf.get(ref)
    if isinstance(record, Calculator):
        return plain_text(record.asks)
    status = here.book.catalogue.summaries[ref].status
    return STATUS[status].lower() if status else ""


def stub_page(book: Book, old: Ref, new: Ref) -> Page:
    """Make the page that stands where a renamed record was, and leads on."""
    here = Here(book, book.links.path(old))
    link = here.link_to(new)
    return plain_page(here, old, "Moved", Html(""), (Links(f"{old.id} is now called", (link,)),))


def plain_page(here: Here, ref: Ref, title: str, lead: Html, main: tuple[Block, ...]) -> Page:
    """Return a page of the book's own, which shows no record."""
    return Page(
        ref=ref, path=here.path, root=here.root, title=title, kind="", lead=lead, banner="", main=main, aside=(),
        scripts=(), aliases=(), passages=(),
    )  # fmt: skip
