"""The files of records in order -> what a procedure takes of them, as stretches; and these told by places in a list.

Search shards and lists come and go with every edit, and all places behind them move; among the files of records alone
hardly anything does. So a procedure's stretches are found once and then only told anew.
"""

from __future__ import annotations

from array import array
from bisect import bisect_left
from collections.abc import Iterable, Mapping, Sequence
from itertools import accumulate
from typing import Any

STRETCHES = "I"
"""How numbers of a stretch are kept: the first and the last, one behind the other."""


class Ranked:
    """The files of records, each known by how many lie before it."""

    def __init__(self, paths: Iterable[str]) -> None:
        self.paths = sorted(paths)
        self._rank = {path: rank for rank, path in enumerate(self.paths)}

    def ranks(self, paths: Iterable[str]) -> tuple[int, ...]:
        """Return how many lie before each of some of them."""
        return tuple([self._rank[path] for path in paths])

    def stretches(self, ranks: Iterable[Iterable[int]]) -> bytes:
        """Return where those of several records lie, those that follow each other as one."""
        found = array(STRETCHES)
        for rank in sorted(set().union(*ranks)):
            if found and found[-1] == rank - 1:
                found[-1] = rank
            else:
                found.extend((rank, rank))
        return found.tobytes()


class Telling:
    """Tells stretches by the places of their files in a list of more, with what the files hold."""

    def __init__(self, ranked: Ranked, named: Sequence[str], sizes: Mapping[str, int]) -> None:
        own = frozenset(ranked.paths)
        self._places = [place for place, path in enumerate(named) if path in own]
        self._ends = [rank for rank, (place, after) in enumerate(zip(self._places, self._places[1:], strict=False))
                      if after != place + 1]  # fmt: skip
        self._sums = [0, *accumulate(sizes[path] for path in ranked.paths)]
        self._gaps = [place - rank for rank, place in enumerate(self._places)]
        """How many files of no record lie before each."""
        self._written = [str(place) for place in self._places]

    def told(self, stretches: bytes) -> dict[str, Any]:
        """Return how many bytes they are, and where they lie: `0-4,9`; most are of one file."""
        numbers = array(STRETCHES, stretches)
        pairs = list(zip(numbers[::2], numbers[1::2], strict=True))
        sums, written = self._sums, self._written
        size = sum([sums[last + 1] - sums[first] for first, last in pairs])
        gaps = self._gaps
        ranges = [
            written[first] if first == last
            else f"{written[first]}-{written[last]}" if gaps[first] == gaps[last] else self._ranges(first, last)
            for first, last in pairs
        ]  # fmt: skip
        return {"bytes": size, "files": ",".join(ranges)}

    def _ranges(self, first: int, last: int) -> str:
        """Tell one stretch, with a gap wherever a file of no record lies between."""
        inside = self._ends[bisect_left(self._ends, first) : bisect_left(self._ends, last)]
        firsts, lasts = [first, *(end + 1 for end in inside)], [*inside, last]
        return ",".join([self._written[one] if one == other else f"{self._written[one]}-{self._written[other]}"
                         for one, other in zip(firsts, lasts, strict=True)])  # fmt: skip
