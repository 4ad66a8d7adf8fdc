"""A line as a record writes it, `0 0; 100 0; 120 0 120 40` -> its corners and curves, turned, measured, made of points.

Each part between semicolons leads on from the one before. Two numbers are a straight to x and y; four are a curve to
the last two that bends towards the first two; six are a curve with a handle at each end. x runs to the right and y
down, in the units of the drawing.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from itertools import pairwise

Point = tuple[float, float]
Move = tuple[float, ...]
"""Two, four or six numbers; the last two are where it arrives."""
Line = tuple[Move, ...]

_NUMBER = r"-?[0-9]{1,5}(?:\.[0-9]{1,2})?"
_POINT = rf"{_NUMBER} {_NUMBER}"
LINE_PATTERN = rf"^{_POINT}(?:; {_POINT}(?: {_POINT}){{0,2}})*$"
"""Numbers and nothing else: what stands in a record can never be more than a line."""
_PARTS_OF_A_CURVE = 8


def read_line(text: str) -> Line:
    """Read a line that has the form of `LINE_PATTERN`."""
    return tuple(tuple(float(number) for number in part.split()) for part in text.split(";"))


def mirrored(line: Line, *, width: float | None = None, height: float | None = None) -> Line:
    """Return the line in mirror image about the middle of a sheet that is `width` wide or `height` high."""

    def turned(at: int, value: float) -> float:
        size = height if at % 2 else width
        return value if size is None else size - value

    return tuple(tuple(turned(at, value) for at, value in enumerate(move)) for move in line)


@lru_cache(maxsize=1024)
def points_of(line: Line) -> tuple[Point, ...]:
    """Return points along a line: its corners, and enough of each curve to tell where it runs."""
    found: list[Point] = []
    for move in line:
        end = (move[-2], move[-1])
        if len(move) > 2 and found:
            found += _curve(found[-1], move)
        else:
            found.append(end)
    return tuple(found)


def _curve(start: Point, move: Move) -> Iterable[Point]:
    handles = [(move[at], move[at + 1]) for at in range(0, len(move), 2)]
    for step in range(1, _PARTS_OF_A_CURVE + 1):
        share = step / _PARTS_OF_A_CURVE
        places = [start, *handles]
        while len(places) > 1:  # de Casteljau: halve the handles' distances until one point is left
            places = [
                (x1 + (x2 - x1) * share, y1 + (y2 - y1) * share)
                for (x1, y1), (x2, y2) in pairwise(places)
            ]
        yield places[0]


def area_of(points: tuple[Point, ...]) -> float:
    """Return the area a closed line encloses, in square units."""
    pairs = zip(points, (*points[1:], *points[:1]), strict=True)
    return abs(sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in pairs)) / 2


def first_outside(line: Line, width: float, height: float) -> Point | None:
    """Return the first point of a line that is off a sheet of this size."""
    outside = (point for point in points_of(line) if not (0 <= point[0] <= width and 0 <= point[1] <= height))
    return next(outside, None)
