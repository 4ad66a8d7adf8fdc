"""A name, an outline and what lies upon it -> the place where the name has room, or none."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from operator import itemgetter
from typing import NamedTuple

from builder.render.drawings.text import width_of

Point = tuple[float, float]
Span = tuple[float, float]
_ROWS = 24
"""Heights at which room is looked for."""
_CUTS = 5
"""Lines through a name's box on which it must have room."""
_MARGIN = 0.35
"""Kept free on each side of a name, in sizes."""
_TALL = 1.15
"""From the foot of a letter's tail to its head and a little more, in sizes."""
_MOST_LINES = 3


class _Edge(NamedTuple):
    """A side of an outline: the heights it spans, and where it is at the first, and how it leans."""

    low: float
    high: float
    x: float
    lean: float


@dataclass(frozen=True)
class Polygon:
    """A closed outline."""

    points: tuple[Point, ...]

    def across(self, y: float, upright: bool) -> list[Span]:
        """Return the spans that a level line at `y` has inside; `upright` takes the sheet on its side."""
        edges = self._on_its_side if upright else self._level
        crossings = sorted([x + lean * (y - low) for low, high, x, lean in edges if low <= y < high])
        return list(zip(crossings[::2], crossings[1::2], strict=True))

    @cached_property
    def _level(self) -> tuple[_Edge, ...]:
        return _edges(self.points)

    @cached_property
    def _on_its_side(self) -> tuple[_Edge, ...]:
        return _edges([(y, x) for x, y in self.points])

    def extent(self, upright: bool) -> Span:
        """Return the first and the last height at which there is anything of it."""
        heights = [point[0 if upright else 1] for point in self.points]
        return min(heights), max(heights)


def _edges(points: Sequence[Point]) -> tuple[_Edge, ...]:
    """The sides of a closed outline; a level one bounds nothing that a level line could cross."""
    found = []
    for one, other in zip(points, (*points[1:], *points[:1]), strict=True):
        (x1, y1), (x2, y2) = sorted((one, other), key=itemgetter(1))
        if y1 < y2:
            found.append(_Edge(y1, y2, x1, (x2 - x1) / (y2 - y1)))
    return tuple(found)


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a name stands."""

    lines: tuple[str, ...]
    middle: Point
    upright: bool


def find_room(name: str, area: Polygon, above: Sequence[Polygon], size: float, lead: float) -> Spot | None:
    """Find the roomiest place of a name, else of what stands before its comma; None where it has none."""
    ways = dict.fromkeys((name, name.partition(",")[0]))
    return next((spot for way in ways if (spot := _find(way.split(), area, above, size, lead)) is not None), None)


def _find(words: Sequence[str], area: Polygon, above: Sequence[Polygon], size: float, lead: float) -> Spot | None:
    """In few lines before many, and level before upright."""
    for upright in (False, True):
        for count in range(1, min(len(words), _MOST_LINES) + 1):
            lines = _broken(words, count, size)
            box = (max(width_of(line, size) for line in lines) + 2 * _MARGIN * size, lead * (count - 1) + _TALL * size)
            middle = _middle(area, above, box, upright)
            if middle is not None:
                return Spot(lines, middle[::-1] if upright else middle, upright)
    return None


def _broken(words: Sequence[str], count: int, size: float) -> tuple[str, ...]:
    """Break words into so many lines, the widest as narrow as can be."""
    if count == 1:
        return (" ".join(words),)
    ways = [
        (" ".join(words[:first]), *_broken(words[first:], count - 1, size))
        for first in range(1, len(words) - count + 2)
    ]
    return min(ways, key=lambda way: max(width_of(line, size) for line in way))


def _middle(area: Polygon, above: Sequence[Polygon], box: Span, upright: bool) -> Point | None:
    """The middle of the roomiest place for a box, near the middle of the outline where several are as roomy."""
    width, height = box
    low, high = area.extent(upright)
    best: tuple[float, Point] | None = None
    for row in range(_ROWS + 1):
        top = low + (high - low - height) * row / _ROWS
        if high - low < height:
            return None
        spans: list[Span] = [(float("-inf"), float("inf"))]
        for cut in range(_CUTS + 1):
            y = top + height * (cut + 0.01) / (_CUTS + 0.02)
            spans = _roomy(_both(spans, area.across(y, upright)), width)
            for other in above:
                if not spans:
                    break
                spans = _roomy(_without(spans, other.across(y, upright)), width)
        for left, right in spans:
            if right - left >= width:
                # Room to spare counts to a point, and then the middle of the outline.
                score = min(right - left, 2 * width) - 2 * abs(top + height / 2 - (low + high) / 2)
                if best is None or score > best[0]:
                    best = (score, ((left + right) / 2, top + height / 2))
    return best[1] if best else None


def _roomy(spans: list[Span], width: float) -> list[Span]:
    return [span for span in spans if span[1] - span[0] >= width]


def _both(some: Sequence[Span], others: Sequence[Span]) -> list[Span]:
    found = [(max(a, c), min(b, d)) for a, b in some for c, d in others]
    return [span for span in found if span[0] < span[1]]


def _without(some: Sequence[Span], others: Sequence[Span]) -> list[Span]:
    left = list(some)
    for c, d in others:
        left = [part for a, b in left for part in ((a, min(b, c)), (max(a, d), b)) if part[0] < part[1]]
    return left
