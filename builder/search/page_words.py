"""A page view -> what the index needs of it: its head for the list of results, and for each word where it stands.

Made in the process that draws the page, and small enough to be handed between processes.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from builder.model.views import Page
from builder.search.packing import base36, runs
from builder.search.parts import Part, parts_of
from builder.search.words import quantities, words

_LONGEST_HEADING = 80


PRIORS = {"source": 40, "scale": 40, "page": 30, "state": 70, "figure": 70, "rule": 85, "table": 75, "shell": 50}
"""In percent, how much a page of a kind counts: who asks for a primer wants it sooner than a paper about it."""


class PageWords(NamedTuple):
    """What the index needs of one page."""

    path: str
    head: str
    """JSON: path, kind, title, then anchor and heading of each part."""
    entries: str
    """A line a word: the word, a blank, and where it stands, as `packing` writes it."""
    prior: int = 100
    """See `PRIORS`."""


def page_words(page: Page) -> PageWords:
    """Gather a page's words; a page without passages has none and is not found."""
    parts = parts_of(page)
    head = [page.path, page.kind, page.title, *(text for part in parts for text in (part.anchor, _short(part.heading)))]
    entries = {word: _entry(stands) for word, stands in _places(parts).items()}
    for word in {word for name in page.aliases for word in words(name)}:
        entries[word] = f"+{entries.get(word, '')}"
    title = set(words(page.title))
    for word in title:
        entries[word] = f"!{base36(len(title))}{entries.get(word, '')}"
    lines = [f"{word} {entry}" for word, entry in entries.items()]
    written = json.dumps(head, ensure_ascii=True, separators=(",", ":"))
    if not parts:
        return PageWords(page.path, "", "")
    return PageWords(page.path, written, "\n".join(lines), PRIORS.get(page.ref.kind, 100))


def _places(parts: Sequence[Part]) -> dict[str, list[int]]:
    """For each word the parts it stands in: thrice the part's number, and one more in its text, two in its facts."""
    places: dict[str, list[int]] = {}
    for at, part in enumerate(parts):
        heading = f"{part.heading} {part.name}" if at else part.name
        for place, found in enumerate(_words_of(heading, part.texts, part.facts), 3 * at):
            for word in found:
                known = places.get(word)
                if known is None:
                    places[word] = [place]
                else:
                    known.append(place)
    return places


@lru_cache(maxsize=16384)
def _words_of(heading: str, texts: tuple[str, ...], facts: tuple[str, ...]) -> tuple[frozenset[str], ...]:
    """The words of a heading, those that the text has beside them, and those that the facts have beside both."""
    strong = frozenset(_words_in(heading))
    own = frozenset(word for text in texts for word in _words_in(text)) - strong
    return strong, own, frozenset(word for text in facts for word in _words_in(text)) - strong - own


@lru_cache(maxsize=32768)
def _words_in(text: str) -> tuple[str, ...]:
    found = words(text)
    return (*found, *quantities(found))


class _Alone(dict[int, str]):
    """How the index writes that a word stands in one place."""

    def __missing__(self, place: int) -> str:
        # Nothing at all is the commonest case: the text of the first part.
        made = self[place] = f"{'*.,'[place % 3]}{base36(place // 3)}" if place != 1 else ""
        return made


_ALONE = _Alone()


def _entry(stands: Sequence[int]) -> str:
    """Write where a word stands on one page: called for every word of every page."""
    if len(stands) == 1:
        return _ALONE[stands[0]]
    sorts: tuple[list[int], ...] = ([], [], [])
    for place in stands:
        sorts[place % 3].append(place // 3)
    return "".join([
        f"{mark}{run}" for mark, found in zip("*.,", sorts, strict=True)
        for run in (runs(found) if len(found) > 2 else map(base36, found))
    ])  # fmt: skip


def _short(heading: str) -> str:
    """The first words of a heading: enough for a line of results."""
    line = " ".join(heading.split())
    if len(line) <= _LONGEST_HEADING:
        return line
    return line[:_LONGEST_HEADING].rpartition(" ")[0] + " …"
