"""Sorted words, and pages with their sizes -> where shards end, so that a small change moves few ends."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from zlib import crc32

_MAY_END = 4
"""One word in so many may begin a shard, by its own letters."""
MOST_PAGES = 32
"""Pages in one shard of texts."""


def sliced(sized: Sequence[tuple[str, int]], most: int, always: str = "") -> list[list[str]]:
    """Cut a list of words with their sizes into shards of at most `most`, or of one word.

    A shard that is half full ends before the next word that may begin one, so a word put in or taken out moves the ends
    of its neighbours alone. The first word from `always` on begins one in any case.
    """
    found: list[list[str]] = []
    held, last = most + 1, ""
    for word, size in sized:
        is_full = held + size > most
        is_end = held > most / 2 and crc32(word.encode()) % _MAY_END == 0
        if is_full or is_end or last < always <= word:
            found.append([])
            held = 0
        found[-1].append(word)
        held += size
        last = word
    return found


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
