"""Sorted words, and pages with their sizes -> where shards end, so that a small change moves few ends."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterable, Mapping, Sequence
from itertools import groupby
from typing import NamedTuple
from zlib import crc32

_MAY_END = 4
"""One word in so many may begin a shard, by its own letters."""
MOST_PAGES = 32
"""Pages in one shard of texts."""


class Cutter:
    """Goes along a sorted list of words with their sizes and says where shards begin."""

    __slots__ = ("_always", "_held", "_last", "_most")

    def __init__(self, most: int, always: str = "") -> None:
        self._most, self._always = most, always
        self._held, self._last = most + 1, ""

    def begins(self, word: str, size: int) -> bool:
        """Whether the next word begins a shard."""
        is_full = self._held + size > self._most
        is_end = self._held > self._most / 2 and crc32(word.encode()) % _MAY_END == 0
        return is_full or is_end or self._last < self._always <= word

    def take(self, word: str, size: int) -> bool:
        """Take the next word; say whether it begins a shard."""
        begins = self.begins(word, size)
        self._held, self._last = size if begins else self._held + size, word
        return begins


def sliced(sized: Iterable[tuple[str, int]], most: int, always: str = "") -> list[list[str]]:
    """Cut a list of words with their sizes into shards of at most `most`, or of one word.

    A shard that is half full ends before the next word that may begin one, so a word put in or taken out moves the ends
    of its neighbours alone. The first word from `always` on begins one in any case.
    """
    found: list[list[str]] = []
    cutter = Cutter(most, always)
    for word, size in sized:
        if cutter.take(word, size):
            found.append([])
        found[-1].append(word)
    return found


class Cut(NamedTuple):
    """Where shards begin, and of those that are not known to be as before the words."""

    firsts: list[str]
    anew: list[list[str]]


Sized = Callable[[str], Sequence[tuple[str, int]]]


def recut(
    firsts: Sequence[str], load: Sized, changed: Mapping[str, int | None], most: int, always: str = ""
) -> Cut:
    """Cut a list again as `sliced` would from nothing; some words came or have another size, others went (None).

    `load` gives the words of a shard of before with their sizes, by its first. What begins a shard hangs on the words
    since the last beginning alone: so a change is felt from the shard before it to the next beginning of before.
    """
    found = Cut([], [])
    words, at, done = sorted(changed), 0, 0
    while done < len(words):
        first = max(at, bisect_right(firsts, words[done]) - 2)
        found.firsts.extend(firsts[at:first])
        cutter, at = Cutter(most, always), first
        while True:
            end = bisect_left(words, firsts[at + 1]) if at + 1 < len(firsts) else len(words)
            held = dict(load(firsts[at])) if firsts else {}
            for word, size in _changed(held, {word: changed[word] for word in words[done:end]}):
                if cutter.take(word, size):
                    found.firsts.append(word)
                    found.anew.append([])
                found.anew[-1].append(word)
            at, done = at + 1, end
            if at >= len(firsts):
                break
            is_as_before = done == len(words) or (at + 1 < len(firsts) and words[done] >= firsts[at + 1])
            if is_as_before and cutter.begins(*load(firsts[at])[0]):
                break
    found.firsts.extend(firsts[at:])
    return found


def _changed(held: Mapping[str, int], changed: Mapping[str, int | None]) -> list[tuple[str, int]]:
    return sorted((word, size) for word, size in {**held, **changed}.items() if size is not None)


def even_runs(folders: Sequence[str], sizes: Sequence[int], most: int) -> list[tuple[int, int]]:
    """Return from which page on shards of texts hold how many pages each: in one folder as many each.

    As many as fill no shard to more than `most`; where pages are longer each has its own. So where a page's texts are
    can be reckoned, and need not be listed.
    """
    found: list[tuple[int, int]] = []
    first = 0
    for _, group in groupby(folders):
        end = first + sum(1 for _ in group)
        count = MOST_PAGES
        while count > 1 and max(sum(sizes[at : min(at + count, end)]) for at in range(first, end, count)) > most:
            count //= 2
        if not found or found[-1][1] != count or (first - found[-1][0]) % count:
            found.append((first, count))
        first = end
    return found
