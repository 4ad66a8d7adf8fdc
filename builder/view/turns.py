"""The order of marks as an answer says it -> the turn of each mark; turns.js has the twin."""

from __future__ import annotations

import re

_RUN = re.compile(r"[0-9]+(?:\s*[,;]\s*[0-9]+)+")
MOST = 1000


def turns_of(order: str) -> tuple[int, ...]:
    """Read `1, 12; 6; 3, 9` as marks in the order they are made; return the turn of each, 0 where none is told.

    Of several runs of numbers in a sentence the longest counts, and of those as long the first.
    """
    runs = [[int(number) for number in re.split(r"[^0-9]+", run)] for run in _RUN.findall(order)]
    marks = max(runs, key=len, default=[])
    if not marks or not 1 <= min(marks) <= max(marks) <= MOST:
        return ()
    turns = [0] * max(marks)
    for turn, mark in enumerate(marks, 1):
        turns[mark - 1] = turns[mark - 1] or turn
    return tuple(turns)
