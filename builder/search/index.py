"""Pages' words -> the search index, as scripts that a page opened from a folder can load one by one.

- `dictionary.js` assigns `seambook.dictionary`, what every search needs: `words`, all words, front-coded; `shards`, of
  each shard of postings the number of its first word, as gaps; `texts`, of each shard of texts the number of its first
  page, as gaps; `pages`, how many there are; `common`, as gaps, words in more than half of the pages of a large book;
  `names`, for each thing with several names the words of each, names parted by tabs, words by blanks; `quiet`, words
  that ask for nothing by themselves; `priors`, how much pages count, in percent, each behind the distance of the first
  page from which on it holds; `behind`, as gaps, the pages that are not to be worked from.
- `words-N.js` gives `seambook.shards["words-N"]`, the postings of the words from its first on, a line each. A long
  posting fills shards of its own: consecutive shards with the same first word are to be joined by a blank.
- `texts-N.js` gives `seambook.shards["texts-N"]`, of each page from its first on the path, kind, title, and anchor and
  heading of its parts.

Numbers, words and postings are written as `packing` says. A search loads what its words and the results shown need,
however large the book.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator

from builder.search.packing import base36, front_coded, gaps
from builder.search.page_words import PageWords
from builder.search.words import words

FOLDER = "assets/search"
MOST_OF_POSTINGS = 12_000
"""Bytes of postings in a shard."""
ENOUGH_OF_TEXTS = 2_000
"""Bytes of texts after which a shard is full: a procedure has one of its own, small records share one."""
LARGE = 1_000
"""Pages from which on a word in more than half of them is called common."""
_SHARED = "(window.seambook=window.seambook||{})"


class _Word:
    __slots__ = ("entries", "last")

    def __init__(self) -> None:
        self.entries: list[str] = []
        self.last = 0


class IndexWriter:
    """Takes pages one by one, in the order the index numbers them, and writes the index at the end.

    The same book must give the same bytes, so the order is the caller's to keep.
    """

    def __init__(self) -> None:
        self._heads: list[str] = []
        self._postings: dict[str, _Word] = {}
        self._priors: list[tuple[int, int]] = []
        self._behind: list[int] = []
        self._same: dict[str, str] = {}
        self._titles: list[list[tuple[str, int]]] = []
        self._gaps = [base36(gap) for gap in range(1024)]

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
        if not self._priors or self._priors[-1][1] != page.prior:
            self._priors.append((number, page.prior))
        if page.is_behind:
            self._behind.append(number)
        postings, known_gaps, same = self._postings, self._gaps, self._same
        title: list[tuple[str, int]] = []
        self._titles.append(title)
        for line in page.entries.split("\n") if page.entries else ():
            word, _, entry = line.partition(" ")
            known = postings.get(word)
            if known is None:
                known = postings[word] = _Word()
            if entry.startswith("!"):
                title.append((word, len(known.entries)))
            gap = number - known.last
            said = (known_gaps[gap] if gap < 1024 else base36(gap)) + entry
            known.entries.append(same.setdefault(said, said))  # few differ, and each is held once
            known.last = number

    def files(self, names: Iterable[tuple[str, ...]] = (), quiet: Iterable[str] = ()) -> dict[str, bytes]:
        """Write all scripts by their paths.

        `names` holds, for each thing that has several, all its names; `quiet` words that ask for nothing.
        """
        every = sorted(self._postings)
        half = len(self._heads) / 2 if len(self._heads) > LARGE else len(self._heads)
        common = [at for at, word in enumerate(every) if len(self._postings[word].entries) > half]
        self._tell_common({every[at] for at in common})
        first_words, postings = _packed(" ".join(self._postings[word].entries) for word in every)
        first_pages, texts = _grouped(self._heads)
        dictionary = {
            "words": front_coded(every), "shards": gaps(first_words), "texts": gaps(first_pages),
            "pages": len(self._heads), "common": gaps(common),
            "names": "\n".join("\t".join(sorted({" ".join(words(name)) for name in one})) for one in sorted(names)),
            "quiet": " ".join(sorted({part for word in quiet for part in words(word)})),
            "priors": " ".join(
                f"{gap} {base36(prior)}"
                for gap, (_, prior) in zip(gaps(at for at, _ in self._priors).split(), self._priors, strict=True)
            ),
            "behind": gaps(self._behind),
        }  # fmt: skip
        said = json.dumps(dictionary, ensure_ascii=True, sort_keys=True, separators=(",", ":"))
        scripts = {"dictionary": f"{_SHARED}.dictionary={said};\n"}
        scripts |= {f"words-{at}": _shard(f"words-{at}", json.dumps(one)) for at, one in enumerate(postings)}
        scripts |= {f"texts-{at}": _shard(f"texts-{at}", one) for at, one in enumerate(texts)}
        return {f"{FOLDER}/{name}.js": script.encode("ascii") for name, script in scripts.items()}

    def _tell_common(self, common: set[str]) -> None:
        """Write beside a title's length how many of its words are common: those are not looked up when it is typed."""
        for title in self._titles if common else ():
            many = sum(word in common for word, _ in title)
            length = f"!{base36(len(title))}"
            for word, at in title if many else ():
                entries = self._postings[word].entries
                entries[at] = entries[at].replace(length, f"{length}~{base36(many)}")


def _shard(name: str, value: str) -> str:
    return f'({_SHARED}.shards=window.seambook.shards||{{}})["{name}"]={value};\n'


def _packed(postings: Iterable[str]) -> tuple[list[int], list[str]]:
    """Fill shards with postings in the order of their words; return the first word of each shard, and the shards."""
    firsts: list[int] = []
    shards: list[list[str]] = []
    room = 0
    for at, posting in enumerate(postings):
        pieces = list(_pieces(posting))
        for piece in pieces:
            if len(piece) >= room or len(pieces) > 1:
                firsts.append(at)
                shards.append([])
                room = MOST_OF_POSTINGS
            shards[-1].append(piece)
            room = room - len(piece) - 2 if len(pieces) == 1 else 0
    return firsts, ["\n".join(shard) for shard in shards]


def _pieces(posting: str) -> Iterator[str]:
    """Cut a posting that fills more than a shard between two entries."""
    while len(posting) >= MOST_OF_POSTINGS:
        cut = posting.rindex(" ", 0, MOST_OF_POSTINGS)
        yield posting[:cut]
        posting = posting[cut + 1 :]
    yield posting


def _grouped(heads: Iterable[str]) -> tuple[list[int], list[str]]:
    """Put heads together until a shard is full; return the first page of each shard, and the shards."""
    firsts: list[int] = []
    shards: list[list[str]] = []
    held = ENOUGH_OF_TEXTS
    for at, head in enumerate(heads):
        if held + len(head) > ENOUGH_OF_TEXTS:
            firsts.append(at)
            shards.append([])
            held = 0
        shards[-1].append(head)
        held += len(head)
    return firsts, [f"[{','.join(shard)}]" for shard in shards]
