"""Pages with their words, kept or made -> the search index, made of the one that is published where few changed."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Iterable, Sequence
from functools import partial
from itertools import accumulate
from typing import NamedTuple

from builder import search
from builder.keeper import Keeper, Made
from builder.model.files import Piece, piece_of
from builder.putting import Putting

INDEX = "search index"
Words = tuple[search.PageWords, ...]


class Source(NamedTuple):
    """What was made as one, and the pages of the index that came of it."""

    unit: str
    pages: tuple[search.Numbered, ...]


def source_pages(pages: Iterable[search.PageWords]) -> tuple[tuple[search.Numbered, ...], Words]:
    """Return what the index needs of pages at every building, and what it needs of those that changed."""
    words = tuple(one for page in pages for one in search.searched(page))
    return tuple(map(search.numbered, words)), words


class Indexing:
    """Takes the pages of a book in order."""

    def __init__(self, putting: Putting) -> None:
        self.putting, self.keeper = putting, putting.keeper
        self._before = _before(self.keeper)
        self._writer = search.IndexWriter()
        self._sources: list[Source] = []
        self._loads: list[Callable[[], Words]] = []

    def add(self, unit: str, pages: tuple[search.Numbered, ...], load: Callable[[], Words]) -> None:
        """Take pages that were made as one."""
        self._sources.append(Source(unit, pages))
        if self._before is None:
            self._write(pages, load)
        else:
            self._loads.append(load)

    def put(self, names: Sequence[tuple[str, ...]], quiet: Sequence[str]) -> list[str]:
        """Put the index down; return its paths."""
        made = self._revised(names, quiet)
        if made is None:
            for source, load in zip(self._sources, self._loads, strict=False):
                self._write(source.pages, load)
            made = search.Revised(self._writer.files(names, quiet), frozenset())
        pieces = {path: piece for path in made.kept if (piece := self.keeper.lying(path)) is not None}
        self.putting.desk.keep(pieces)
        pieces |= {path: piece_of(data) for path, data in made.files.items()}
        paths = [*made.kept, *self.putting.put_always(made.files)]
        if self.keeper.is_on:
            self.keeper.keep_unit(INDEX, b"", Made(tuple(self._sources), pieces, b""))
        return paths

    def _write(self, pages: Sequence[search.Numbered], load: Callable[[], Words]) -> None:
        for own, words in zip(pages, load(), strict=True):
            self._writer.take(own, words)

    def _revised(self, names: Sequence[tuple[str, ...]], quiet: Sequence[str]) -> search.Revised | None:
        if self._before is None:
            return None
        index, sources = self._before
        before = _pages(sources, [partial(_words_before, self.keeper, one.unit) for one in sources])
        return search.revised(index, before, _pages(self._sources, self._loads), names, quiet)


def _before(keeper: Keeper) -> tuple[search.Published, Sequence[Source]] | None:
    """Return the index that is published and what it was made of, where all of it lies as it was left."""
    sources = keeper.result_before(INDEX)
    pieces = keeper.lying_of(INDEX)
    if sources is None or pieces is None:
        return None
    return search.Published(frozenset(pieces), partial(_read, keeper, pieces)), sources


def _read(keeper: Keeper, pieces: dict[str, Piece], path: str) -> bytes:
    data = keeper.published(path) if path in pieces else None
    if data is None or piece_of(data) != pieces[path]:
        raise search.NotAsLeftError(path)
    return data


def _words_before(keeper: Keeper, unit: str) -> Words:
    words: Words | None = keeper.apart_before(unit)
    if words is None:
        raise search.NotAsLeftError(unit)
    return words


def _pages(sources: Sequence[Source], loads: Sequence[Callable[[], Words]]) -> search.Pages:
    firsts = [0, *accumulate(len(one.pages) for one in sources)]

    def words(number: int) -> search.PageWords:
        at = bisect_right(firsts, number) - 1
        return loads[at]()[number - firsts[at]]

    return search.Pages([page for one in sources for page in one.pages], words)
