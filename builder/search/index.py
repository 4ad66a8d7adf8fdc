"""Pages' passages -> the search index as one script.

The script assigns `seambook.index`, an object of four texts, each a list parted by line feeds:

- `pages`: path, kind and title of a page, parted by tabs;
- `passages`: number of the page, anchor on it and heading, parted by tabs; the first passage of a page is its title;
- `words`: the words, sorted; see `words` for what a word is;
- `postings`: for each word the passages it stands in, as gaps in base 36 parted by spaces, the first counted from 0;
  a `*` behind a gap says that the word stands in the title, an alias or the heading.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from functools import lru_cache
from typing import NamedTuple

from builder.model.views import Page
from builder.search.words import word_set

_DIGITS = "0123456789abcdefghijklmnopqrstuvwxyz"


class PageWords(NamedTuple):
    """What the index needs of one page, small enough to be handed between processes."""

    path: str
    kind: str
    title: str
    passages: tuple[tuple[str, str, frozenset[str], frozenset[str]], ...]
    """Anchor, heading, the heading's words, the text's other words."""


def page_words(page: Page) -> PageWords:
    """Gather a page's words; aliases count as part of its title."""
    passages = []
    for at, passage in enumerate(page.passages):
        heading = word_set(" ".join((passage.heading, *page.aliases)) if at == 0 else passage.heading)
        passages.append((passage.anchor, passage.heading, heading, word_set(passage.text) - heading))
    return PageWords(page.path, page.kind, page.title, tuple(passages))


def index_script(pages: Iterable[PageWords]) -> bytes:
    """Write the index; the pages' order is theirs by path, so that the same book gives the same bytes."""
    page_lines: list[str] = []
    passage_lines: list[str] = []
    postings: dict[str, list[str]] = {}
    last: dict[str, int] = {}
    for page in sorted(pages):
        if not page.passages:
            continue
        for anchor, heading, strong, weak in page.passages:
            number = len(passage_lines)
            passage_lines.append(f"{len(page_lines)}\t{anchor}\t{_one_line(heading)}")
            for found, mark in ((strong, "*"), (weak, "")):
                for word in found:
                    gap = _base36(number - last.get(word, 0)) + mark
                    last[word] = number
                    postings.setdefault(word, []).append(gap)
        page_lines.append(f"{page.path}\t{page.kind}\t{_one_line(page.title)}")
    every = sorted(postings)
    index = {
        "pages": "\n".join(page_lines), "passages": "\n".join(passage_lines), "words": "\n".join(every),
        "postings": "\n".join(" ".join(postings[word]) for word in every),
    }  # fmt: skip
    text = json.dumps(index, ensure_ascii=True, sort_keys=True, separators=(",", ":"))
    return f"window.seambook=window.seambook||{{}};window.seambook.index={text};\n".encode("ascii")


def _one_line(text: str) -> str:
    return " ".join(text.split())


@lru_cache(maxsize=4096)
def _base36(number: int) -> str:
    digits = ""
    while True:
        number, digit = divmod(number, 36)
        digits = _DIGITS[digit] + digits
        if not number:
            return digits
