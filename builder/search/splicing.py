"""A word's postings of before and what pages changed -> its postings of today, read no further than they may differ.

What stands in a posting hangs on the last entry that was written in full, on the last page and on whether a run is
open. Where these are as they were at an entry of before, but for how far pages moved, what follows is as it was, up to
the next page that changed.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Callable, Mapping, Sequence
from typing import NamedTuple

from builder.search.postings import Posting

_HEAD = re.compile(r"([0-9a-z]+)(\^[0-9a-z]*)?[^ ]*")
_FULL = re.compile(r"[0-9a-z]+([^0-9a-z^=].*)?")
"""An entry that is written in full; nothing behind the distance is one, too."""
DIGITS = 36


class Stretch(NamedTuple):
    """Pages that follow each other before and today, and say today what they said."""

    first: int
    end: int
    """Numbers of before."""
    shift: int
    """By how much higher they are numbered today."""


class Token(NamedTuple):
    """An entry of a posting."""

    text: str
    first: int
    """The page."""
    end: int
    """The first page behind it."""
    is_run: bool
    """Whether its pages are as the last entry in full; else it is of one page and tells its own."""
    entry: str


class Parts:
    """A posting's entries, of which only those that are asked for are read whole: a book's index has millions."""

    def __init__(self, text: str) -> None:
        self.tokens = text.split(" ") if text else []
        self.ends: list[int] = []
        """By entry the first page behind it; rising."""
        last = 0
        for gap, run in _HEAD.findall(text):
            last += int(gap, DIGITS) + (int(run[1:], DIGITS) - 1 if len(run) > 1 else 0)
            self.ends.append(last + 1)

    def at(self, place: int) -> Token:
        """Return one entry whole."""
        text, end = self.tokens[place], self.ends[place]
        gap, mark, _ = text.partition("^")
        first = (self.ends[place - 1] - 1 if place else 0) + int(_gap_of(gap), DIGITS)
        return Token(text, first, end, bool(mark), "" if mark else text[len(_gap_of(text)):])

    def pages(self) -> set[int]:
        """Return all pages that they are of."""
        found = {end - 1 for end in self.ends}
        for place, text in enumerate(self.tokens):
            if "^" in text:
                found.update(range(self.at(place).first, self.ends[place]))
        return found

    def base_in(self, first: int, end: int) -> str | None:
        """Return the last entry written in full among some; None where there is none."""
        for place in range(end - 1, first - 1, -1):
            found = _FULL.fullmatch(self.tokens[place])
            if found is not None:
                return found[1] or ""
        return None


def _gap_of(text: str) -> str:
    found = _HEAD.match(text)
    assert found is not None, text
    return str(found[1])


def spliced(
    parts: Parts, stretches: Sequence[Stretch], own: Mapping[int, str], entry_of: Callable[[int], str]
) -> str:
    """Return what a posting says today.

    `own` holds what it says of each page that changed or is new, by today's number; `entry_of` what one of today's
    pages that did not change says in full.
    """
    return _Splicing(parts, stretches, own, entry_of).spliced()


class _Splicing:
    def __init__(
        self, parts: Parts, stretches: Sequence[Stretch], own: Mapping[int, str], entry_of: Callable[[int], str]
    ) -> None:
        self.posting = Posting()
        self.parts = parts
        self.stretches, self.at = stretches, 0
        self.waiting = sorted(own.items(), reverse=True)
        self.entry_of = entry_of

    def spliced(self) -> str:
        parts = self.parts
        base: str | None = None
        last, is_run, at = 0, False, 0
        while at < len(parts.tokens):
            token = parts.at(at)
            stretch = self._stretch(token.first)
            if stretch is None or not self._is_as_before(last, base, is_run, stretch):
                behind = at
            elif stretch is self.stretches[-1] and not self.waiting and token.end <= stretch.end:
                self.posting.write_run()
                return " ".join([*self.posting.tokens, *parts.tokens[at:]])
            else:
                behind = bisect_right(parts.ends, self._limit(stretch), at)
            if behind > at:
                self._copy(at, behind, stretch.shift if stretch is not None else 0)
            else:
                for page in range(token.first, token.end):
                    self._stand(page, token, base)
                behind = at + 1
            found = parts.base_in(at, behind)
            base = found if found is not None else base
            last, is_run, at = parts.ends[behind - 1] - 1, "^" in parts.tokens[behind - 1], behind
        self._stand_own(None)
        return self.posting.parts()

    def _stretch(self, page: int) -> Stretch | None:
        """Return where a page of before lies; None where it changed or is gone. Pages are asked for in order."""
        while self.at < len(self.stretches) and self.stretches[self.at].end <= page:
            self.at += 1
        found = self.stretches[self.at] if self.at < len(self.stretches) else None
        return found if found is not None and found.first <= page else None

    def _is_as_before(self, last: int, base: str | None, is_run: bool, stretch: Stretch) -> bool:
        """Whether an entry of before follows on what the entries before it did."""
        posting = self.posting
        return posting.last == last + stretch.shift and posting.base == base and bool(posting.run) == is_run

    def _limit(self, stretch: Stretch) -> int:
        """Return the page of before up to which entries of a stretch are as they were."""
        return min(stretch.end, self.waiting[-1][0] - stretch.shift) if self.waiting else stretch.end

    def _copy(self, at: int, behind: int, shift: int) -> None:
        """Take entries as they stand; a run at their end may go on."""
        posting, parts = self.posting, self.parts
        posting.write_run()
        posting.tokens += parts.tokens[at:behind]
        gap, mark, run = posting.tokens[-1].partition("^")
        if mark:
            posting.tokens[-1] = gap
            posting.run = int(run, DIGITS) if run else 1
        base = parts.base_in(at, behind)
        posting.base = base if base is not None else posting.base
        posting.last = parts.ends[behind - 1] - 1 + shift

    def _stand(self, page: int, token: Token, base: str | None) -> None:
        stretch = self._stretch(page)
        if stretch is None:
            return
        today = page + stretch.shift
        self._stand_own(today)
        if token.is_run:
            assert base is not None
            self.posting.stand(today, base)
        else:
            self.posting.stand(today, self.entry_of(today) if token.entry[:1] == "=" else token.entry)

    def _stand_own(self, before: int | None) -> None:
        while self.waiting and (before is None or self.waiting[-1][0] < before):
            self.posting.stand(*self.waiting.pop())
