"""Long lists of links -> parts of a size that a phone opens at once, each on a page of its own."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from builder.model.views import Link

MOST_ON_ONE_PAGE = 400
"""Links: about 50 kB of a page."""


class Part(NamedTuple):
    """Some of the links of a list, in its order."""

    number: int
    links: tuple[Link, ...]
    span: str
    """Which of how many, such as `401 to 800 of 10000`."""

    def way(self, path: str) -> Link:
        """Return the link that leads to it, by its first and its last."""
        return Link(f"{self.links[0].text} to {self.links[-1].text}", path, self.span)


def parts(links: Sequence[Link]) -> Iterator[Part]:
    """Split a list."""
    for number, first in enumerate(range(0, len(links), MOST_ON_ONE_PAGE), 1):
        some = tuple(links[first:first + MOST_ON_ONE_PAGE])
        yield Part(number, some, f"{first + 1} to {first + len(some)} of {len(links)}")


def by_title(links: Sequence[Link]) -> list[Link]:
    """Sort links as people look for them."""
    return sorted(links, key=as_looked_for)


def as_looked_for(link: Link) -> tuple[str, str]:
    """Return what links are sorted by."""
    return link.text.casefold(), link.href
