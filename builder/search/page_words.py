"""A page view -> what the index needs of it: its head for the list of results, and for each word where it stands.

Made in the process that draws the page, and small enough to be handed between processes.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from hashlib import blake2b
from sys import intern
from typing import NamedTuple

from builder.model.views import Page, Passage
from builder.search.packing import base36, packed
from builder.search.parts import Part, parts_of
from builder.search.words import quantities, words

_LONGEST_HEADING = 80
BRIEF = 9
"""Up to how many different words a heading is a phrase; a longer one holds more of a question by chance."""
_FIRST = ".0"
_LONG = 32
"""Letters from which on it pays to write parts in a row as first and last."""


PRIORS = {"source": 40, "scale": 40, "page": 90, "state": 70, "figure": 70, "rule": 85,
          "table": 75, "shell": 50, "vehicle": 70, "lesson": 75, "skill": 40, "path": 60,
          "term": 90}
"""In percent, how much a page of a kind counts: who asks for a primer wants it sooner than a paper about it."""


FEW, MANY, SPREAD = 8, 10, 0.09
"""From how many parts on a page counts for less, how many more make it twice as many, and how much less it then is."""


class PageWords(NamedTuple):
    """What the index needs of one page."""

    path: str
    head: str
    """JSON: path, kind, title, then anchor and heading of each part."""
    entries: str
    """A line a word: the word, a blank, and where it stands, as `packing` writes it."""
    prior: int = 100
    """See `PRIORS`."""
    is_behind: bool = False
    """Whether it is not to be worked from: the search puts it behind all that is."""
    alone: tuple[PageWords, ...] = ()
    """Passages of the page that are found by themselves."""


class Numbered(NamedTuple):
    """A page of the index without its words."""

    path: str
    size: int
    """Of its head."""
    prior: int
    is_behind: bool
    mark: bytes
    """Of its head and its words."""


def numbered(page: PageWords) -> Numbered:
    """Return what the index needs of a page at every building, changed or not."""
    told = "\n".join([page.head, *sorted(page.entries.split("\n"))])  # words come in any order
    mark = blake2b(told.encode(), digest_size=8).digest()
    return Numbered(page.path, len(page.head), page.prior, page.is_behind, mark)


def searched(page: PageWords) -> tuple[PageWords, ...]:
    """Return what the search finds of a page: itself and passages that stand alone, each with a number of its own."""
    return tuple(one for one in (page, *page.alone) if one.head)


def page_words(page: Page) -> PageWords:
    """Gather a page's words; a page without passages has none and is not found."""
    alone = tuple(_alone(page, one) for one in page.passages if one.is_alone)
    parts = parts_of(replace(page, passages=tuple(one for one in page.passages if not one.is_alone)) if alone else page)
    if not parts:
        return PageWords(page.path, "", "")
    kind = f"{page.kind}, {page.standing}" if page.standing else page.kind
    found = _words(page.ref.kind, page.path, kind, page.title, page.aliases, parts)
    return found._replace(alone=alone, is_behind=bool(page.standing))


def _alone(page: Page, passage: Passage) -> PageWords:
    """Gather a passage that answers by itself; the list of results says below its heading whose it is."""
    part = Part("", passage.heading, (passage.text,), (), passage.name)
    return _words(page.ref.kind, f"{page.path}#{passage.anchor}", page.title, passage.heading, (), [part])


def _words(
    ref_kind: str, path: str, kind: str, title: str, aliases: tuple[str, ...], parts: Sequence[Part]
) -> PageWords:
    head = [path, kind, title, *(text for part in parts for text in (part.anchor, _short(part.heading)))]
    entries = _entries(parts)
    for word in {word for name in aliases for word in words(name)}:
        entries[word] = f"+{_shortest(entries.get(word, ''))}"
    in_title = set(words(title))
    for word in in_title:
        entries[word] = f"!{base36(len(in_title))}{_shortest(entries.get(word, ''))}"
    lines = [f"{word} {_shortest(entry)}" for word, entry in entries.items()]
    written = json.dumps(head, ensure_ascii=True, separators=(",", ":"))
    return PageWords(path, written, "\n".join(lines), _prior(ref_kind, len(parts)))


def _prior(kind: str, parts: int) -> int:
    """A page of many parts has more of them that hold some words of a question by chance, so it counts for less."""
    many = 1 + max(0, parts - FEW) / MANY
    return round(PRIORS.get(kind, 100) * float(many**-SPREAD))


def _entries(parts: Sequence[Part]) -> dict[str, str]:
    """For each word where it stands; made of every word of every page, so it does little for each."""
    entries: dict[str, str] = {}
    for at, part in enumerate(parts):
        number = base36(at)
        heading = f"{part.heading} {part.name}" if at else part.name
        strong, *rest = _words_of(heading, part.texts, part.facts)
        for mark, found in zip(":.," if len(strong) > BRIEF else "*.,", (strong, *rest), strict=True):
            place = mark + number
            for word in found:
                entries[word] = entries[word] + place if word in entries else place
    return entries


@lru_cache(maxsize=16384)
def _words_of(heading: str, texts: tuple[str, ...], facts: tuple[str, ...]) -> tuple[tuple[str, ...], ...]:
    """The words of a heading, those that the text has beside them, and those that the facts have beside both.

    Each once, in tuples: sets of them take many times the memory.
    """
    strong = set(_words_in(heading))
    own = {word for text in texts for word in _words_in(text)} - strong
    return tuple(strong), tuple(own), tuple({word for text in facts for word in _words_in(text)} - strong - own)


@lru_cache(maxsize=32768)
def _words_in(text: str) -> tuple[str, ...]:
    """The words of a text; the same word of two texts is one string, of which a big book would hold a million."""
    found = words(text)
    return tuple(map(intern, (*found, *quantities(found))))


def _shortest(entry: str) -> str:
    """Leave out the commonest place, the text of the first part alone, and write many places shorter."""
    if entry == _FIRST:
        return ""
    return entry if len(entry) < _LONG else packed(entry)


def _short(heading: str) -> str:
    """The first words of a heading: enough for a line of results."""
    line = " ".join(heading.split())
    if len(line) <= _LONGEST_HEADING:
        return line
    return line[:_LONGEST_HEADING].rpartition(" ")[0] + " …"
