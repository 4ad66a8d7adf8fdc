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

import json
from collections.abc import Iterable, Iterator, Sequence

from builder.search.cuts import even_runs, sliced
from builder.search.packing import base36, front_coded, gaps
from builder.search.page_words import PageWords
from builder.search.postings import Posting, titles
from builder.search.words import words

FOLDER = "assets/search"
MOST_OF_POSTINGS = 12_000
"""Bytes of a shard of postings; half of it is enough to end one at the next word that may."""
LONGEST_BESIDE = 3_000
"""Bytes of a posting that lies beside others; what a longer one has beside titles is loaded where there is room."""
MOST_OF_WORDS = 5_000
"""Bytes of a shard of words."""
ENOUGH_OF_TEXTS = 3_000
"""Bytes of a shard of texts that several pages may share: a long procedure has one of its own."""
LARGE = 1_000
"""Pages from which on a word in more than half of them is called common."""
_SHARED = "(window.seambook=window.seambook||{})"


class IndexWriter:
    """Takes pages one by one, in the order the index numbers them, and writes the index at the end.

    The same book must give the same bytes, so the order is the caller's to keep.
    """

    def __init__(self) -> None:
        self._heads: list[str] = []
        self._folders: list[str] = []
        self._postings: dict[str, Posting] = {}
        self._priors: list[tuple[int, int]] = []
        self._behind: list[int] = []
        self._titles: list[tuple[int, list[str]]] = []
        """Of each page how many different words its title has, and which."""

    def add(self, page: PageWords) -> None:
        """Take one page; called for every page of the book, and for every word of each, so it counts its calls."""
        self._add(page)
        for one in page.alone:
            self._add(one)

    def _add(self, page: PageWords) -> None:
        if not page.head:
            return
        number = len(self._heads)
        self._heads.append(page.head)
        self._folders.append(page.path.rpartition("/")[0])
        if not self._priors or self._priors[-1][1] != page.prior:
            self._priors.append((number, page.prior))
        if page.is_behind:
            self._behind.append(number)
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
        half = len(self._heads) / 2 if len(self._heads) > LARGE else len(self._heads)
        common = [word for word in every if self._postings[word].pages > half]
        lines, rests = self._lines(every, frozenset(common))
        lists = sliced([(word, len(word)) for word in every], MOST_OF_WORDS, "a")
        shards = sliced([(word, len(lines[word]) + len(word) + 3) for word in every], MOST_OF_POSTINGS)
        runs = even_runs(self._folders, [*map(len, self._heads)], ENOUGH_OF_TEXTS)
        dictionary = {
            "lists": front_coded([one[0] for one in lists]), "shards": front_coded([one[0] for one in shards]),
            "texts": _paired(runs), "pages": len(self._heads), "common": " ".join(common),
            "names": "\n".join("\t".join(sorted({" ".join(words(name)) for name in one})) for one in sorted(names)),
            "quiet": " ".join(sorted({part for word in quiet for part in words(word)})),
            "priors": _paired(self._priors), "behind": gaps(self._behind),
        }  # fmt: skip
        said = json.dumps(dictionary, ensure_ascii=True, sort_keys=True, separators=(",", ":"))
        scripts = {f"{FOLDER}/dictionary.js": f"{_SHARED}.dictionary={said};\n".encode("ascii")}
        for name, value in (
            *((f"list-{one[0]}", json.dumps(front_coded(one))) for one in lists),
            *((f"words-{one[0]}", json.dumps(front_coded(one, [lines[word] for word in one]))) for one in shards),
            *((name, json.dumps(rest)) for name, rest in rests), *self._texts(runs),
        ):  # fmt: skip
            scripts[f"{FOLDER}/{name}.js"] = _shard(name, value).encode("ascii")
        return scripts

    def _lines(self, every: Sequence[str], common: frozenset[str]) -> tuple[dict[str, str], list[tuple[str, str]]]:
        """Return each word's line, and by their names the shards of what is too long for one."""
        heads = [
            f"!{base36(count)}" + (f"~{base36(many)}" if (many := sum(word in common for word in title)) else "")
            for count, title in self._titles
        ]
        lines: dict[str, str] = {}
        rests: list[tuple[str, str]] = []
        for word in every:
            posting = self._postings[word]
            named, parts = titles(posting.named, heads), posting.parts()
            if len(named) + len(parts) > LONGEST_BESIDE:
                is_alone = len(named) > LONGEST_BESIDE
                pieces = [*_pieces(f"{named};{parts}" if is_alone else parts)]
                rests += [(f"rest-{word}-{at}", piece) for at, piece in enumerate(pieces)]
                named = "" if is_alone else named
                parts = f">{base36(posting.pages)} {base36(len(pieces))}"
            lines[word] = f"{named};{parts}" if named else parts
        return lines, rests

    def _texts(self, runs: Sequence[tuple[int, int]]) -> Iterator[tuple[str, str]]:
        """Return the shards of texts by their names."""
        ends = [first for first, _ in runs[1:]] + [len(self._heads)]
        for (first, count), end in zip(runs, ends, strict=bool(runs)):
            for at in range(first, end, count):
                yield f"texts-{at}", f"[{','.join(self._heads[at : min(at + count, end)])}]"


def _shard(name: str, value: str) -> str:
    return f'({_SHARED}.shards=window.seambook.shards||{{}})["{name}"]={value};\n'


def _paired(pairs: Sequence[tuple[int, int]]) -> str:
    """Write pairs of a number that rises and another."""
    steps = gaps(first for first, _ in pairs).split()
    return " ".join(f"{gap} {base36(other)}" for gap, (_, other) in zip(steps, pairs, strict=True))


def _pieces(posting: str) -> Iterator[str]:
    """Cut a posting that fills more than a shard between two entries."""
    while len(posting) >= MOST_OF_POSTINGS:
        cut = posting.rindex(" ", 0, MOST_OF_POSTINGS)
        yield posting[:cut]
        posting = posting[cut + 1 :]
    yield posting
