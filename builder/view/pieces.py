"""A list of many things -> its pages: the first under the list's own path, and on each the way to the others."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple, TypeVar

from builder.model.views import Link, Links

T = TypeVar("T")


class Piece(NamedTuple):
    """One page of a list."""

    path: str
    number: int
    ways: tuple[Links, ...]
    """To the others, where there are any."""


def pieces(path: str, found: Sequence[T], size: int) -> Iterator[tuple[Piece, Sequence[T]]]:
    """Part a list; an empty one has a page too, which says so."""
    paths = [_path(path, number) for number in range(1, max(1, -(-len(found) // size)) + 1)]
    for at, own in enumerate(paths):
        others = tuple(Link(f"Part {number}", way) for number, way in enumerate(paths, 1) if way != own)
        ways = (Links("The other parts", others, anchor="parts"),) if others else ()
        yield Piece(own, at + 1, ways), found[at * size:(at + 1) * size]


def _path(path: str, number: int) -> str:
    return path if number == 1 else path.replace(".html", f"-{number}.html")
