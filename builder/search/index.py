"""Pages' words -> the search index, as scripts that a page opened from a folder can load one by one.

- `dictionary.js` assigns `seambook.dictionary`, what every search needs: `lists` and `shards`, of each shard of words
  and of postings its first word, front-coded; `texts`, as gaps, from which page on shards of texts hold how many pages
  each; `pages`, how many there are; `common`, words in more than half of the pages of a large book; `names`, for each
  thing with several names the words of each, names parted by tabs, words by blanks; `quiet`, words that ask for nothing
  by themselves; `priors`, how much pages count, in percent, each behind the distance of the first page from which on
  it holds; `behind`, as gaps, the pages that are not to be worked from.
- `list-W.js` gives `seambook.shards["list-W"]`, all words from W on, front-coded.
- `words-W.js` gives the postings of the words from W on, each behind its word, front-coded, and a blank.
- `rest-W-N.js` gives, of a posting too long to lie beside others, what stands behind its titles, in pieces that are to
  be joined by blanks.
- `texts-N.js` gives, of each page from N on, the path, kind, title, and anchor and heading of its parts.

Numbers, words and postings are written as `packing` and `postings` say. A search loads what its words and the results
shown need, however large the book. Shards are named by what they begin with and end where their words say so (`cuts`),
not where they are full, so a change of one page leaves most of them as they were.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from builder.search.cuts import even_runs, sliced
from builder.search.page_words import Numbered, PageWords, numbered, searched
from builder.search.postings import Posting, head_of, titles
from builder.search.scripts import (
    DICTIONARY,
    MOST_OF_POSTINGS,
    Line,
    Shards,
    dictionary,
    line_of,
    list_shard,
    path_of,
    shard,
    size_of,
    words_shard,
)  # fmt: skip

MOST_OF_WORDS = 5_000
"""Bytes of a shard of words."""
ENOUGH_OF_TEXTS = 3_000
"""Bytes of a shard of texts that several pages may share: a long procedure has one of its own."""
LARGE = 1_000
"""Pages from which on a word in more than half of them is called common."""


class IndexWriter:
    """Takes pages one by one, in the order the index numbers them, and writes the index at the end.

    The same book must give the same bytes, so the order is the caller's to keep.
    """

    def __init__(self) -> None:
        self._heads: list[str] = []
        self._pages: list[Numbered] = []
        self._postings: dict[str, Posting] = {}
        self._titles: list[tuple[int, list[str]]] = []
        """Of each page how many different words its title has, and which."""

    def add(self, page: PageWords) -> None:
        """Take one page; called for every page of the book, and for every word of each, so it counts its calls."""
        for one in searched(page):
            self.take(numbered(one), one)

    def take(self, own: Numbered, page: PageWords) -> None:
        """Take one of what a page is searched by."""
        number = len(self._heads)
        self._heads.append(page.head)
        self._pages.append(own)
        postings = self._postings
        title: list[str] = []
        for line in page.entries.split("\n") if page.entries else ():
            word, _, entry = line.partition(" ")
            known = postings.get(word)
            if known is None:
                known = postings[word] = Posting()
            if entry == known.base and known.run and number - known.last == 1:  # as of the page before: most are
                known.run += 1
                known.pages += 1
                known.last = number
                continue
            if entry[:1] == "!":
                title.append(word)
            known.add(number, entry)
        self._titles.append((len(title), title))

    def pages_with(self, word: str) -> int:
        """Return on how many pages a word stands."""
        known = self._postings.get(word)
        return known.pages if known is not None else 0

    def files(self, names: Iterable[tuple[str, ...]] = (), quiet: Iterable[str] = ()) -> dict[str, bytes]:
        """Write all scripts by their paths.

        `names` holds, for each thing that has several, all its names; `quiet` words that ask for nothing.
        """
        every = sorted(self._postings)
        most = half_of(len(self._heads))
        common = [word for word in every if self._postings[word].pages > most]
        lines = self._lines(every, frozenset(common))
        lists = sliced([(word, len(word)) for word in every], MOST_OF_WORDS, "a")
        shards = sliced([(word, size_of(word, lines[word].text)) for word in every], MOST_OF_POSTINGS)
        runs = runs_of(self._pages)
        firsts = Shards([one[0] for one in lists], [one[0] for one in shards], runs)
        scripts = {DICTIONARY: dictionary(firsts, self._pages, common, names, quiet)}
        scripts |= {path_of(f"list-{one[0]}"): list_shard(one) for one in lists}
        scripts |= {path_of(f"words-{one[0]}"): words_shard(one, [lines[word].text for word in one]) for one in shards}
        for word in every:
            scripts.update(lines[word].scripts(word))
        for first, end in bounds_of(runs, len(self._heads)):
            scripts[path_of(f"texts-{first}")] = texts_shard(first, self._heads[first:end])
        return scripts

    def _lines(self, every: Sequence[str], common: frozenset[str]) -> dict[str, Line]:
        heads = [head_of(count, sum(word in common for word in title)) for count, title in self._titles]
        lines: dict[str, Line] = {}
        for word in every:
            posting = self._postings[word]
            named = titles([(page, heads[page] if is_title else "+") for page, is_title in posting.named])
            lines[word] = line_of(named, posting.parts(), posting.pages)
        return lines


def half_of(pages: int) -> float:
    """Return on more than how many pages of a book a word is called common; of a small book no word is."""
    return pages / 2 if pages > LARGE else pages


def runs_of(pages: Sequence[Numbered]) -> list[tuple[int, int]]:
    """Return from which page on shards of texts hold how many pages each."""
    folders = [page.path.rpartition("/")[0] for page in pages]
    return even_runs(folders, [page.size for page in pages], ENOUGH_OF_TEXTS)


def bounds_of(runs: Sequence[tuple[int, int]], pages: int) -> Iterator[tuple[int, int]]:
    """Yield of each shard of texts its first page and the first behind it."""
    ends = [first for first, _ in runs[1:]] + [pages]
    for (first, count), end in zip(runs, ends, strict=bool(runs)):
        for at in range(first, end, count):
            yield at, min(at + count, end)


def texts_shard(first: int, heads: Sequence[str]) -> bytes:
    """Return the script of a shard of texts."""
    return shard(f"texts-{first}", f"[{','.join(heads)}]")
