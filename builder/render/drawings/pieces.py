"""The welds of a seam in, the pieces of paper that together are its strip out: cut where no weld is; pieces.js agrees.

All in millimetres from the seam's front end.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from builder.model.laid import LaidSegment

LONGEST = 244.0
"""Of the seam on one piece."""
_SHIFT = 40
"""How far a cut is moved at most to be clear of welds and borders, in whole mm."""
_CLEAR = 6.0
_HAIR = 1e-6


class Cross(NamedTuple):
    """One weld on the strip."""

    segment: int
    number: int
    """From the segment's front end, counted from 1."""
    place: float


class Border(NamedTuple):
    """Where a segment begins."""

    segment: int
    place: float


class Piece(NamedTuple):
    """A stretch of the seam on one piece of paper."""

    number: int
    start: float
    end: float
    is_last: bool
    crosses: tuple[Cross, ...]
    factory: tuple[float, ...]
    borders: tuple[Border, ...]


def pieces(segments: Sequence[LaidSegment]) -> list[Piece]:
    """Cut the strip of a seam into pieces that fit a sheet."""
    crosses, factory, borders, total = _gather(segments)
    kept = [cross.place for cross in crosses] + [border.place for border in borders]
    found: list[Piece] = []
    start = 0.0
    while not found or start < total - _HAIR:
        end = _cut(start, total, kept)
        is_last = end >= total - _HAIR
        found.append(Piece(
            len(found) + 1, start, end, is_last,
            tuple(one for one in crosses if _is_on(one.place, start, end, is_last)),
            tuple(place for place in factory if _is_on(place, start, end, is_last)),
            tuple(one for one in borders if _is_on(one.place, start, end, is_last=False)),
        ))  # fmt: skip
        start = end
    return found


def _gather(segments: Sequence[LaidSegment]) -> tuple[list[Cross], list[float], list[Border], float]:
    crosses: list[Cross] = []
    factory: list[float] = []
    borders: list[Border] = []
    start = 0.0
    for at, segment in enumerate(segments):
        borders.append(Border(at, start))
        crosses += [Cross(at, number, start + place) for number, place in enumerate(segment.weld_places, 1)]
        factory += [start + place for place in segment.factory_places]
        start += segment.length
    return crosses, factory, borders, start


def _cut(start: float, total: float, kept: Sequence[float]) -> float:
    """So that the pieces are about as long as one another, moved a little to where nothing is near."""
    if total - start <= LONGEST + _HAIR:
        return total
    count = math.ceil((total - start) / LONGEST - _HAIR)
    middle = start + (total - start) / count
    near = [place for place in kept if abs(place - middle) < _SHIFT + _CLEAR]
    # First where no piece more is needed for it, then anywhere.
    for least in (total - (count - 1) * LONGEST, start):
        for step in range(2 * _SHIFT + 1):
            end = middle + (step + 1) // 2 * (1 if step % 2 else -1)
            if least <= end <= start + LONGEST and all(abs(place - end) >= _CLEAR for place in near):
                return end
    return middle


def _is_on(place: float, start: float, end: float, is_last: bool) -> bool:
    return start - _HAIR <= place and (is_last or place < end - _HAIR)
