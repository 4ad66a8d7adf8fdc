"""The catalogue -> who uses a record: the first few on the record's own page, all of them on pages beside it.

What everything stands on, such as a tool or a source, is used by every procedure of a book; its own page stays light.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.model.records import KIND
from builder.model.reference import Ref
from builder.model.views import Block, Group, Groups, Html, Link, Links, Page
from builder.view import parts
from builder.view.here import Book, Here
from builder.view.lists import plain_page

MOST = 24
"""Records of a kind that a page names; the rest are a link away."""
FOLDER = "used"


def used_by(here: Here, ref: Ref, title: str = "Used by", anchor: str = "used-by") -> Groups:
    """List the records that refer to this one, by kind, each list to a bound."""
    found = here.book.users(ref)
    return Groups(title, tuple(Group(KIND[kind].plural, users(here, ref, kind)) for kind in found), anchor)


def users(here: Here, ref: Ref, kind: str) -> tuple[Link, ...]:
    """Return links to the records of one kind that refer to a record; of many the first, and the way to all."""
    return some_users(here, ref, kind, here.book.users(ref).get(kind, ()))


def some_users(here: Here, ref: Ref, kind: str, chosen: Sequence[Ref]) -> tuple[Link, ...]:
    """Return links to some of the records that refer to a record; of many the first, and the way to all users."""
    links = tuple([here.link_to(other) for other in chosen[:MOST]])
    return links if len(chosen) <= MOST else (*links, _all(here, ref, kind, len(here.book.users(ref)[kind])))


def _all(here: Here, ref: Ref, kind: str, count: int) -> Link:
    return Link(f"All {count} {KIND[kind].plural.lower()}", f"{here.root}{page_beside(ref)}#{kind}")


def used_pages(book: Book, ref: Ref) -> Iterator[Page]:
    """Make the pages that list all users of a record, where it has more than its own page names."""
    found = book.users(ref)
    if all(len(others) <= MOST for others in found.values()):
        return
    here = Here(book, page_beside(ref))
    title = f"What uses {book.catalogue.title(ref)}"
    blocks: list[Block] = [Links("The record", (here.link_to(ref),), anchor="record")]
    for kind, others in found.items():
        links = parts.by_title([here.link_to(other) for other in others])
        plural = KIND[kind].plural
        if len(links) <= parts.MOST_ON_ONE_PAGE:
            blocks.append(Groups(plural, (Group("", tuple(links)),), kind))
            continue
        ways: list[Link] = []
        for part in parts.parts(links):
            path = page_beside(ref, f"_{KIND[kind].folder}-{part.number}")
            ways.append(part.way(f"{here.root}{path}"))
            block = Groups(plural, (Group("", part.links),), kind)
            yield _page(book, path, f"{title}: {plural.lower()} {part.span}", (*blocks[:1], block))
        blocks.append(Links(plural, tuple(ways), anchor=kind))
    yield _page(book, here.path, title, tuple(blocks))


def _page(book: Book, path: str, title: str, blocks: tuple[Block, ...]) -> Page:
    name = path.removesuffix(".html").replace("/", "-")
    return plain_page(Here(book, path), Ref("page", name), title, Html(""), blocks)


def page_beside(ref: Ref, part: str = "") -> str:
    """Return the path of a page beside a record's own.

    Kinds hold no hyphen and ids no underscore, so no two pages get one name.
    """
    return f"{FOLDER}/{ref.kind}-{ref.id}{part}.html"
