"""Turns of welds in, the places of their numbers out: the first made first, as far as they have room."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from builder.render.drawings.text import width_of

SIZE = 12.0
LEVEL = 15.0
"""Height of one line of numbers."""
_LEVELS = 3


class Number(NamedTuple):
    """The number of a weld, and on which line above it it stands."""

    turn: int
    row: int
    x: float
    at: int
    """Which weld of its segment, from the front."""
    level: int = 0


@lru_cache(maxsize=4096)
def number_room(turn: int) -> float:
    """Room a number takes on its line."""
    return width_of(str(turn), SIZE) + 4


def placed(asked: Sequence[Sequence[Number]], rows: int) -> list[Number]:
    """Give each number of every segment a line where it meets no other.

    Of a segment none stands after the first that has room on no line, so that those seen are the first of the order.
    """
    lines: list[list[list[Number]]] = [[[] for _ in range(_LEVELS)] for _ in range(rows)]
    found: list[tuple[int, Number]] = []
    ranked = [(number.turn, at, number) for at, numbers in enumerate(asked) for number in numbers]
    wanted = [_lines_needed(numbers) for numbers in asked]
    is_full = [False] * len(asked)
    for _, at, number in sorted(ranked, key=lambda one: (one[0], one[1])):
        own = number.at % wanted[at]
        levels = (own, *(other for other in range(_LEVELS) if other != own))
        clear = (level for level in levels if all(_are_clear(number, one) for one in lines[number.row][level]))
        level = None if is_full[at] else next(clear, None)
        if level is None:
            is_full[at] = True
        else:
            lines[number.row][level].append(number)
            found.append((at, number._replace(level=level)))
    return [number for _, number in sorted(found, key=lambda one: (one[0], one[1].at))]


def _lines_needed(numbers: Sequence[Number]) -> int:
    """One line where neighbours have room on it, else two."""
    room = number_room(max((number.turn for number in numbers), default=1))
    pairs = itertools.pairwise(numbers)
    return 1 if all(other.row != one.row or other.x - one.x >= room for one, other in pairs) else 2


def _are_clear(one: Number, other: Number) -> bool:
    return abs(one.x - other.x) >= (number_room(one.turn) + number_room(other.turn)) / 2
