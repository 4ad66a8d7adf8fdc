"""A source -> which values, limits and rules rest on it: the first few on its page, all of them on pages beside it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from builder.model.reference import Ref
from builder.model.rests import Rest
from builder.model.said import Said
from builder.model.views import Block, Grid, Html, Link, Links, Page
from builder.view import parts
from builder.view.here import Book, Here
from builder.view.lists import plain_page
from builder.view.used import MOST, page_beside

HEAD = ("What", "Value", "Where")
TITLE, ANCHOR = "Values, limits and rules", "values"


class _Found(NamedTuple):
    where: Ref
    rest: Rest


def values_block(here: Here, ref: Ref) -> tuple[Block, ...]:
    """Say what rests on a source, to a bound; nothing where only whole records do."""
    found = _found(here.book, ref)
    if not found:
        return ()
    every = f"All {len(found)} values, limits and rules"
    note = here.anchor(Link(every, f"{here.root}{page_beside(ref, _part(1))}")) if len(found) > MOST else Html("")
    return (_grid(here, TITLE, found[:MOST], note),)


def value_pages(book: Book, ref: Ref) -> Iterator[Page]:
    """Make the pages that say all that rests on a source, where its own page does not."""
    found = _found(book, ref) if ref.kind == "source" else []
    if len(found) <= MOST:
        return
    title = f"What rests on {book.catalogue.title(ref)}"
    size = parts.MOST_ON_ONE_PAGE
    paths = [page_beside(ref, _part(number)) for number in range(1, -(-len(found) // size) + 1)]
    for at, path in enumerate(paths):
        here = Here(book, path)
        first, last = at * size + 1, min((at + 1) * size, len(found))
        ways = [here.link_to(ref)]
        if len(paths) > 1:
            ways += [Link(f"Part {number}", f"{here.root}{way}") for number, way in enumerate(paths, 1) if way != path]
        grid = _grid(here, TITLE, found[first - 1:last], Html(""))
        blocks = (Links("The source", tuple(ways), anchor="record"), grid)
        name = Ref("page", path.removesuffix(".html").replace("/", "-"))
        yield plain_page(here, name, f"{title}: {first} to {last} of {len(found)}", Html(""), blocks)


def _grid(here: Here, title: str, found: Sequence[_Found], note: Html) -> Grid:
    return Grid(title, HEAD, tuple(_row(here, one) for one in found), note, ANCHOR)


def _row(here: Here, one: _Found) -> tuple[Html, ...]:
    rest = one.rest
    if rest.quantities:
        value = here.both(_said(rest.said, [here.shown(quantity) for quantity in rest.quantities]))
    else:
        value = here.line(rest.said)
    where = here.link_to(one.where)
    way = where._replace(href=here.href(one.where._replace(anchor=rest.anchor))) if rest.anchor else where
    return here.text(rest.name), value, here.anchor(way)


def _found(book: Book, ref: Ref) -> list[_Found]:
    """In the order of the records; a record that names the source by an old name counts too."""
    catalogue = book.catalogue
    names = {ref.id, *(old.id for old, new in catalogue.moved.items() if new == ref)}
    return [
        _Found(user, rest) for user in catalogue.uses.get(ref, ()) for rest in catalogue.summaries[user].rests
        if rest.source in names
    ]  # fmt: skip


def _part(number: int) -> str:
    return f"_values-{number}"


def _said(pattern: str, quantities: Sequence[Said]) -> Said:
    """Fill quantities in, in both systems of units."""
    text = pattern.format(*(one.text for one in quantities))
    other = pattern.format(*(one.other or one.text for one in quantities))
    return Said(text, other if other != text else "")
