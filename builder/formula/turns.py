"""Turns: in which order marks along a line are taken, so that heat has time to go between neighbours.

The ends come first, then the middle of each stretch that is left, again and again; after so many halvings every other
mark of what is left, from one end to the other, and then those between. formula.js has the twin.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from builder.formula.meanings import floor
from builder.formula.no_answer import NOT_COUNTABLE, unanswered

MOST_MARKS = 400
MOST_READ = 1000
_RUN = re.compile(r"[0-9]+(?:\s*[,;]\s*[0-9]+)+")


def turns(count: float, halvings: float) -> str:
    """Return the marks by number in their order, rounds parted by semicolons: `1, 5; 3; 2, 4`."""
    return "; ".join(", ".join(map(str, marks)) for marks in rounds_of(count, halvings))


def rounds(count: float, halvings: float) -> float:
    """Return how many rounds there are."""
    return float(len(rounds_of(count, halvings)))


def rounds_of(count: float, halvings: float) -> list[list[int]]:
    """Return the marks of each round. No round holds two neighbours, and every mark comes once."""
    last = _whole(count)
    if last < 1 or last > MOST_MARKS:
        raise unanswered(NOT_COUNTABLE)
    made = [[1, last]] if last > 2 else [[mark] for mark in range(1, last + 1)]
    done = sorted({1, last})
    halved = 0
    while len(done) < last:
        found = list(_middles(done)) if halved < halvings else list(_every_other(done))
        made.append(_apart(found) if halved < halvings else found)
        done = sorted([*done, *found])
        halved += 1
    return made


def _whole(value: float) -> int:
    whole = floor(value)
    return int(whole) if math.isclose(whole, value, rel_tol=1e-9) else 0


def _middles(done: Sequence[int]) -> Iterator[int]:
    for left, right in pairwise(done):
        if right - left > 1:
            yield (left + right) // 2


def _every_other(done: Sequence[int]) -> Iterator[int]:
    for left, right in pairwise(done):
        yield from range(left + 1, right, 2)


def _apart(marks: list[int]) -> list[int]:
    """Take the two halves of a round by turns, so that one weld is followed by one far off."""
    half = (len(marks) + 1) // 2
    return [mark for pair in zip(marks[:half], [*marks[half:], 0], strict=False) for mark in pair if mark]


def turns_of(order: str) -> tuple[int, ...]:
    """Read `1, 12; 6; 3, 9` as marks in the order they are made; return the turn of each, 0 where none is told.

    Of several runs of numbers in a sentence the longest counts, and of those as long the first.
    """
    runs = [[int(number) for number in re.split(r"[^0-9]+", run)] for run in _RUN.findall(order)]
    marks = max(runs, key=len, default=[])
    if not marks or not 1 <= min(marks) <= max(marks) <= MOST_READ:
        return ()
    turns = [0] * max(marks)
    for turn, mark in enumerate(marks, 1):
        turns[mark - 1] = turns[mark - 1] or turn
    return tuple(turns)
