"""The index of before, as it is published, and the pages of today -> the index of today, as it would be from nothing.

Read are the shards of words that changed alone; where pages came or went, all of them, since every distance over such
a page is another. Where the words that are common change, all titles may say something else: then it is made anew.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence, Set
from functools import lru_cache
from typing import NamedTuple

from builder.search.cuts import Cut, recut
from builder.search.index import LARGE, MOST_OF_WORDS, bounds_of, half_of, runs_of, texts_shard
from builder.search.packing import unfronted
from builder.search.page_words import Numbered, PageWords
from builder.search.postings import head_of, parts_in, titles
from builder.search.scripts import (
    DICTIONARY,
    MOST_OF_POSTINGS,
    Line,
    Shards,
    dictionary,
    line_of,
    list_shard,
    path_of,
    read_lines,
    size_of,
    value_in,
    words_shard,
)  # fmt: skip
from builder.search.splicing import Parts, Stretch, spliced

_RUN = re.compile(r"\^([0-9a-z]+)")
_TITLE = re.compile(r"([0-9a-z]+)([!+][^ ^]*)?(?:\^([0-9a-z]*))?")


class NotAsLeftError(Exception):
    """What is needed of the index or of the pages of before is not there as it was left."""


class Pages(NamedTuple):
    """The pages of one edition of the book in order."""

    numbered: Sequence[Numbered]
    words: Callable[[int], PageWords]
    """What a page says, by its number; may raise NotAsLeftError of one of before."""


class Published(NamedTuple):
    """An index that is published."""

    paths: frozenset[str]
    read: Callable[[str], bytes]
    """Returns the script at a path; raises NotAsLeftError."""


class Revised(NamedTuple):
    """An index: what is new or may have changed, and the paths of all else."""

    files: dict[str, bytes]
    kept: frozenset[str]


def revised(
    index: Published, before: Pages, today: Pages, names: Iterable[tuple[str, ...]], quiet: Iterable[str]
) -> Revised | None:
    """Return the index of today; None where it has to be made anew."""
    stretches = _stretches(before.numbered, today.numbered)
    if stretches is None or (len(before.numbered) > LARGE) != (len(today.numbered) > LARGE):
        return None
    try:
        return _Revising(index, before, today, stretches).revised(names, quiet)
    except NotAsLeftError:
        return None


def _stretches(before: Sequence[Numbered], today: Sequence[Numbered]) -> list[Stretch] | None:
    """Return where pages are as they were; None where they are in another order or nothing is to be told apart."""
    at = {page.path: number for number, page in enumerate(before)}
    if len(at) < len(before) or len({page.path for page in today}) < len(today):
        return None
    found: list[Stretch] = []
    last = -1
    for number, page in enumerate(today):
        old = at.get(page.path)
        if old is None:
            continue
        if old <= last:
            return None
        last = old
        if before[old] != page:
            continue
        if found and found[-1].end == old and found[-1].shift == number - old:
            found[-1] = found[-1]._replace(end=old + 1)
        else:
            found.append(Stretch(old, old + 1, number - old))
    if not found or found[-1].end < len(before):  # an empty one, so that no entry of a page behind it is taken
        found.append(Stretch(len(before), len(before), len(today) - len(before)))
    return found


class _OnPage(NamedTuple):
    """What a page says of a word."""

    named: str
    """As `postings` writes it; nothing where the word does not name the page."""
    parts: str
    is_part: bool


class _Revising:
    def __init__(self, index: Published, before: Pages, today: Pages, stretches: Sequence[Stretch]) -> None:
        self.index, self.before, self.today, self.stretches = index, before, today, stretches
        said = value_in(index.read(DICTIONARY))
        self.common = frozenset(said["common"].split())
        self.lists, self.shards = list(unfronted(said["lists"])), list(unfronted(said["shards"]))
        self.gone = self._changed(before, [(one.first, one.end) for one in stretches])
        self.new = self._changed(today, [(one.first + one.shift, one.end + one.shift) for one in stretches])
        self.lines = lru_cache(maxsize=None)(self._lines_of)
        self.entries_of = lru_cache(maxsize=None)(lambda number: _on_page(today.words(number), self.common))
        self.firsts = [one.first for one in stretches]
        # Of another number of pages another half makes a word common.
        self.is_moved = len(before.numbered) != len(today.numbered) or any(one.shift for one in stretches)

    def _changed(self, pages: Pages, same: Sequence[tuple[int, int]]) -> dict[int, dict[str, _OnPage]]:
        """Return of each page that is in no stretch what it says of each word."""
        ends = [0, *(end for _, end in same)]
        firsts = [*(first for first, _ in same), len(pages.numbered)]
        numbers = (at for end, first in zip(ends, firsts, strict=True) for at in range(end, first))
        return {number: _on_page(pages.words(number), self.common) for number in numbers}

    def revised(self, names: Iterable[tuple[str, ...]], quiet: Iterable[str]) -> Revised | None:
        """Return the index of today; None where other words are common."""
        today = self.today.numbered
        lines: dict[str, Line | None] = {}
        pieces: dict[str, int] = {}
        for word in self._words():
            line, pieces[word] = self._line(word)
            if line is None:
                return None
            lines[word] = line if line.text else None
        files = {path: data for word, line in lines.items() if line for path, data in line.scripts(word)}
        stale = {path_of(f"rest-{word}-{at}") for word, count in pieces.items() for at in range(count)}
        lists, shards = self._cut(lines)
        files |= {path_of(f"list-{one[0]}"): list_shard(one) for one in lists.anew}
        files |= {path_of(f"words-{one[0]}"): words_shard(one, [self._text(word, lines) for word in one])
                  for one in shards.anew}  # fmt: skip
        runs = runs_of(today)
        files |= self._texts(runs)
        files[DICTIONARY] = dictionary(
            Shards(lists.firsts, shards.firsts, runs), today, sorted(self.common), names, quiet
        )
        there = {path_of(f"list-{first}") for first in lists.firsts}
        there |= {path_of(f"words-{first}") for first in shards.firsts}
        there |= {path_of(f"texts-{first}") for first, _ in bounds_of(runs, len(today))}
        there |= {path for path in self.index.paths if path.startswith(path_of("rest-")[:-3])} - stale
        kept = frozenset(there - files.keys())
        return Revised(files, kept) if kept <= self.index.paths else None

    def _words(self) -> Sequence[str]:
        """Return the words whose lines may be other ones."""
        if self.is_moved:
            every = {word for first in self.shards for word in self.lines(first)}
            return sorted(every.union(*self.new.values()))
        found: set[str] = set()
        for number in self.gone.keys() | self.new.keys():
            old, new = self.gone.get(number, {}), self.new.get(number, {})
            found |= {word for word in old.keys() | new.keys() if old.get(word) != new.get(word)}
        return sorted(found)

    def _lines_of(self, first: str) -> dict[str, str]:
        return read_lines(value_in(self.index.read(path_of(f"words-{first}"))))

    def _shard_of(self, word: str) -> str | None:
        at = bisect_right(self.shards, word) - 1
        return self.shards[at] if at >= 0 else None

    def _line_before(self, word: str) -> _Known:
        first = self._shard_of(word)
        line = self.lines(first).get(word) if first is not None else None
        return _known(line, lambda at: str(value_in(self.index.read(path_of(f"rest-{word}-{at}")))))

    def _line(self, word: str) -> tuple[Line | None, int]:
        """Return a word's line, and how many pieces it had beside; no line where common words are others."""
        known = self._line_before(word)
        own = {number: page[word] for number, page in self.new.items() if word in page}
        named = self._named(known.named, own)
        parts = {number: one.parts for number, one in own.items() if one.is_part}
        text = spliced(Parts(known.parts), self.stretches, parts, lambda number: self.entries_of(number)[word].parts)
        if not text and not named:
            return Line("") if word not in self.common else None, known.pieces
        pages = _pages(text, named)
        is_common = pages > half_of(len(self.today.numbered))
        return line_of(titles(named), text, pages) if is_common == (word in self.common) else None, known.pieces

    def _named(self, text: str, own: Mapping[int, _OnPage]) -> list[tuple[int, str]]:
        """Return the pages that a word names today."""
        found = [(number, one.named) for number, one in own.items() if one.named]
        for number, entry in _read_titles(text):
            at = bisect_right(self.firsts, number) - 1
            if at >= 0 and number < self.stretches[at].end:
                found.append((number + self.stretches[at].shift, entry))
        return sorted(found)

    def _cut(self, lines: Mapping[str, Line | None]) -> tuple[Cut, Cut]:
        """Cut the shards of words and of postings again."""
        def sized(first: str) -> list[tuple[str, int]]:
            return [(word, size_of(word, line)) for word, line in self.lines(first).items()]

        sizes = {word: size_of(word, line.text) if line else None for word, line in lines.items()}
        shards = recut(self.shards, sized, sizes, MOST_OF_POSTINGS)
        known = {word for word in lines if self._is_known(word)}
        came = {word: len(word) if line else None for word, line in lines.items() if (word in known) != bool(line)}
        return recut(self.lists, self._list_of, came, MOST_OF_WORDS, "a"), shards

    def _is_known(self, word: str) -> bool:
        first = self._shard_of(word)
        return first is not None and word in self.lines(first)

    def _list_of(self, first: str) -> list[tuple[str, int]]:
        words = unfronted(value_in(self.index.read(path_of(f"list-{first}"))))
        return [(word, len(word)) for word in words]

    def _text(self, word: str, lines: Mapping[str, Line | None]) -> str:
        line = lines.get(word)
        return line.text if line else self.lines(str(self._shard_of(word)))[word]

    def _texts(self, runs: Sequence[tuple[int, int]]) -> Iterator[tuple[str, bytes]]:
        """Yield the shards of texts that hold other pages than before, or say something else of one."""
        before, today = self.before.numbered, self.today.numbered
        ends = dict(bounds_of(runs_of(before), len(before)))
        for first, end in bounds_of(runs, len(today)):
            if ends.get(first) != end or before[first:end] != today[first:end]:
                yield path_of(f"texts-{first}"), texts_shard(first, [self._head(at) for at in range(first, end)])

    def _head(self, number: int) -> str:
        return self.today.words(number).head


class _Known(NamedTuple):
    """A word's line of before."""

    named: str = ""
    parts: str = ""
    pieces: int = 0


def _known(line: str | None, piece: Callable[[int], str]) -> _Known:
    if line is None:
        return _Known()
    named, mark, parts = line.rpartition(";")
    if not parts.startswith(">"):
        return _Known(named, parts)
    count = int(parts.split(" ")[1], 36)
    whole = " ".join([piece(at) for at in range(count)])
    if not mark:
        named, _, whole = whole.rpartition(";")
    return _Known(named, whole, count)


def _read_titles(text: str) -> Iterator[tuple[int, str]]:
    """Read which pages a word names, and how, as `titles` wrote it."""
    page, entry = 0, ""
    for gap, own, run in _TITLE.findall(text):
        entry = own or entry
        for _ in range(int(run or "1", 36)):
            page += int(gap, 36)
            yield page, entry


def _on_page(page: PageWords, common: Set[str]) -> dict[str, _OnPage]:
    """Return what a page says of each word."""
    entries = [(word, entry) for word, _, entry in (line.partition(" ") for line in page.entries.splitlines())]
    title = [word for word, entry in entries if entry[:1] == "!"]
    head = head_of(len(title), sum(word in common for word in title))
    found: dict[str, _OnPage] = {}
    for word, entry in entries:
        if entry[:1] in ("!", "+"):
            parts = parts_in(entry)
            found[word] = _OnPage(head if entry[0] == "!" else "+", parts, bool(parts))
        else:
            found[word] = _OnPage("", entry, is_part=True)
    return found


def _pages(parts: str, named: Sequence[tuple[int, str]]) -> int:
    """Return on how many pages a word stands."""
    many = parts.count(" ") + 1 if parts else 0
    many += sum([int(run, 36) - 1 for run in _RUN.findall(parts)])
    if not named:
        return many
    standing = Parts(parts).pages()
    return many + sum(page not in standing for page, _ in named)
