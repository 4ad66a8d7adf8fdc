"""The catalogue -> the pages that lead to all others: the list of everything, and stubs for old names."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.records import KINDS, Kind
from builder.model.records.calculator import Calculator
from builder.model.reference import Ref
from builder.model.views import Block, Group, Groups, Html, Link, Links, Page, Passage
from builder.view import parts, stages
from builder.view.here import Book, Here
from builder.view.moments import CALCULATOR, anchor_of, asked, groups_of, links_by_moment

HOME, LISTS, AZ = "index.html", "lists.html", "a-z.html"
ABOUT, CODES, SOURCES, WRITING = "about.html", "codes.html", "sources.html", "writing.html"
CHANGES, DUE = "changes.html", "due.html"
SET_ASIDE, JOBS, BAY, DEVICE = "set-aside.html", "jobs.html", "bay.html", "device.html"
LABELS = "labels.html"
TRAINING, BREAKDOWN = "training.html", "breakdown.html"
PRINT = "print.html"


def navigation() -> tuple[tuple[str, str], ...]:
    """Return what every page's head leads to: label and path from the root."""
    return (("Procedures", f"{LISTS}#procedure"), ("Panels", f"{LISTS}#panel"), ("Work out", f"{LISTS}#calculator"),
            ("Jobs", JOBS), ("Everything", LISTS))  # fmt: skip


def foot(*, whole: bool = False) -> tuple[tuple[str, str], ...]:
    """Return what every page's foot leads to; to the whole book only where it is made to print."""
    return (
        ("A to Z", AZ), ("Training", TRAINING), ("Labels, to print", LABELS), ("About this book", ABOUT),
        ("Where figures come from", SOURCES), ("Rules set aside", SET_ASIDE), ("What changed", CHANGES),
        ("Due for review", DUE), ("How to write records", WRITING), ("What a problem means", CODES),
        ("On this device", DEVICE),
        *((("The whole book, to print", PRINT),) if whole else ()),
    )  # fmt: skip


def lists_pages(book: Book) -> Iterator[Page]:
    """Make the list of every record, by kind and title; a kind of many records has pages of its own."""
    here = Here(book, LISTS)
    blocks: list[Block] = []
    for kind, links in _links(here):
        if kind.name == CALCULATOR:
            block, pages = _calculators(here, kind, [ref for ref in book.catalogue.summaries if ref.kind == kind.name])
            blocks.append(block)
            yield from pages
            continue
        if kind.name == stages.PROCEDURE and len(links) <= parts.MOST_ON_ONE_PAGE:
            refs = [ref for ref in book.catalogue.summaries if ref.kind == kind.name]
            groups = stages.groups_of(here, [(ref, here.link_to(ref, note_of(here, ref))) for ref in refs])
            blocks.append(Groups(kind.plural, groups, anchor=kind.name))
            continue
        if len(links) <= parts.MOST_ON_ONE_PAGE:
            blocks.append(Groups(kind.plural, (Group("", tuple(links)),), anchor=kind.name))
            continue
        found = [(part, f"lists-{kind.folder}-{part.number}.html") for part in parts.parts(links)]
        blocks.append(Links(kind.plural, tuple(part.way(path) for part, path in found), anchor=kind.name))
        for part, path in found:
            yield _part_page(book, path, kind, part)
    yield plain_page(here, Ref("page", "lists"), "Everything in this book", Html(""), tuple(blocks))


def _part_page(book: Book, path: str, kind: Kind, part: parts.Part, head: str = "") -> Page:
    ref = Ref("page", path.removesuffix(".html"))
    title = ", ".join(filter(None, (kind.plural, head, part.span)))
    ways = Links("All lists", (Link("Everything in this book", f"{LISTS}#{kind.name}"),), anchor="lists")
    block = Groups(kind.plural, (Group(head, part.links),), anchor=kind.name)
    return plain_page(Here(book, path), ref, title, Html(""), (block, ways))


def _calculators(here: Here, kind: Kind, refs: list[Ref]) -> tuple[Groups, list[Page]]:
    """List calculators by the moment of the job; of too many each moment's parts, on pages of their own."""
    if len(refs) <= parts.MOST_ON_ONE_PAGE:
        return Groups(kind.plural, groups_of(here, refs, LISTS), anchor=kind.name), []
    groups: list[Group] = []
    pages: list[Page] = []
    for moment, links in links_by_moment(here, refs):
        ways = []
        for part in parts.parts(links):
            path = f"lists-{kind.folder}-{len(pages) + 1}.html"
            ways.append(part.way(path))
            pages.append(_part_page(here.book, path, kind, part, moment.say))
        groups.append(Group(moment.say, tuple(ways), anchor=anchor_of(moment)))
    return Groups(kind.plural, tuple(groups), anchor=kind.name), pages


def _links(here: Here) -> Iterator[tuple[Kind, list[Link]]]:
    by_kind: dict[str, list[Ref]] = {}
    for ref in here.book.catalogue.summaries:
        by_kind.setdefault(ref.kind, []).append(ref)
    for kind in KINDS:
        links = [here.link_to(ref, note_of(here, ref)) for ref in sorted(by_kind.get(kind.name, ()))]
        if links:
            yield kind, parts.by_title(links)


def note_of(here: Here, ref: Ref) -> str:
    """Say what stands beside a link: the question a calculator answers."""
    record = here.book.shelf.get(ref)
    return asked(record) if isinstance(record, Calculator) else ""


def stub_page(book: Book, old: Ref, new: Ref) -> Page:
    """Make the page that stands where a renamed record was, and leads on."""
    here = Here(book, book.links.path(old))
    link = here.link_to(new)
    return plain_page(here, old, "Moved", Html(""), (Links(f"{old.id} is now called", (link,)),))


def plain_page(
    here: Here, ref: Ref, title: str, lead: Html, main: tuple[Block, ...], *, is_found: bool = False
) -> Page:
    """Return a page of the book's own, which shows no record; the search finds it if it says more than where to go."""
    return Page(
        ref=ref, path=here.path, root=here.root, title=title, kind="", lead=lead, banner="", main=main, aside=(),
        scripts=(), aliases=(), passages=(Passage("", title, ""),) if is_found else (),
    )  # fmt: skip
