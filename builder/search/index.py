"""Pages' passages -> the search index as one script.

The script assigns `seambook.index`, an object of five texts, each a list parted by line feeds:

- `pages`: path, kind and title of a page, parted by tabs;
- `passages`: number of the page, anchor on it and heading, parted by tabs; the first passage of a page is its title;
- `words`: the words, sorted; see `words` for what a word is;
- `names`: for each thing with several names the words of each name; names parted by tabs, words by blanks;
- `postings`: for each word the passages it stands in, as gaps in base 36 parted by spaces, the first counted from 0;
  a `*` behind a gap says that the word stands in the title, an alias or the heading.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from functools import lru_cache
from typing import NamedTuple

from builder.model.views import Page
from builder.search.words import words

_DIGITS = "0123456789abcdefghijklmnopqrstuvwxyz"


class PageWords(NamedTuple):
    """What the index needs of one page, small enough to be handed between processes."""

    path: str
    kind: str
    title: str
    passages: tuple[tuple[str, str, str, str], ...]
    """Anchor, heading, the heading's words, the text's other words; words sorted and parted by blanks."""


def page_words(page: Page) -> PageWords:
    """Gather a page's words; aliases count as part of its title."""
    passages = []
    for at, passage in enumerate(page.passages):
        heading = " ".join((passage.heading, *page.aliases)) if at == 0 else passage.heading
        passages.append((passage.anchor, passage.heading, *_words_of(heading, passage.text)))
    return PageWords(page.path, page.kind, page.title, tuple(passages))


@lru_cache(maxsize=16384)
def _words_of(heading: str, text: str) -> tuple[str, str]:
    strong = frozenset(words(heading))
    return " ".join(sorted(strong)), " ".join(sorted(frozenset(words(text)) - strong))


class _Word:
    __slots__ = ("gaps", "last")

    def __init__(self) -> None:
        self.gaps: list[str] = []
        self.last = 0


class _Gaps(dict[int, str]):
    """From gaps how the index writes them, each made once."""

    def __init__(self, mark: str) -> None:
        super().__init__()
        self._mark = mark

    def __missing__(self, gap: int) -> str:
        made = self[gap] = _base36(gap) + self._mark
        return made


_STRONG, _WEAK = _Gaps("*"), _Gaps("")


class IndexWriter:
    """Takes pages one by one, in the order of their paths, and writes the index at the end."""

    def __init__(self) -> None:
        self._pages: list[str] = []
        self._passages: list[str] = []
        self._postings: dict[str, _Word] = {}

    def add(self, page: PageWords) -> None:
        """Take one page; the same book must give the same bytes, so the order is the caller's to keep."""
        for anchor, heading, strong, weak in page.passages:
            number = len(self._passages)
            self._passages.append(f"{len(self._pages)}\t{anchor}\t{_one_line(heading)}")
            self._post(strong.split(), number, _STRONG)
            self._post(weak.split(), number, _WEAK)
        if page.passages:
            self._pages.append(f"{page.path}\t{page.kind}\t{_one_line(page.title)}")

    def _post(self, found: list[str], number: int, gaps: _Gaps) -> None:
        """Say that these words stand in a passage: called for every word of every step, so it counts its calls."""
        postings = self._postings
        for word in found:
            known = postings.get(word)
            if known is None:
                known = postings[word] = _Word()
            known.gaps.append(gaps[number - known.last])
            known.last = number

    def script(self, names: Iterable[tuple[str, ...]] = ()) -> bytes:
        """Write the script; `names` holds, for each thing that has several, all its names."""
        every = sorted(self._postings)
        index = {
            "pages": "\n".join(self._pages), "passages": "\n".join(self._passages), "words": "\n".join(every),
            "names": "\n".join("\t".join(sorted({" ".join(words(name)) for name in one})) for one in sorted(names)),
            "postings": "\n".join(" ".join(self._postings[word].gaps) for word in every),
        }  # fmt: skip
        text = json.dumps(index, ensure_ascii=True, sort_keys=True, separators=(",", ":"))
        return f"window.seambook=window.seambook||{{}};window.seambook.index={text};\n".encode("ascii")


def index_script(pages: Iterable[PageWords]) -> bytes:
    """Write the index of pages in any order."""
    writer = IndexWriter()
    for page in sorted(pages):
        writer.add(page)
    return writer.script()


def _one_line(text: str) -> str:
    return " ".join(text.split())


def _base36(number: int) -> str:
    digits = ""
    while True:
        number, digit = divmod(number, 36)
        digits = _DIGITS[digit] + digits
        if not number:
            return digits
