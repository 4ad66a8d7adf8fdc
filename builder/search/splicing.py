"""A word's postings of before and what pages changed -> its postings of today, read no further than they may differ.

What stands in a posting hangs on the last entry that was written in full, on the last page and on whether a run is
open. Where these are as they were at an entry of before, but for how far pages moved, what follows is as it was, up to
the next page that changed.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import NamedTuple

from builder.search.postings import Posting

_TOKEN = re.compile(r"([0-9a-z]+)(?:\^([0-9a-z]*)|(.*))")


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
    run: int
    """How many pages in a row are as the last entry in full: none where this one tells its own."""
    entry: str

    @property
    def end(self) -> int:
        """The first page behind it."""
        return self.first + max(self.run, 1)


def read_tokens(parts: Sequence[str]) -> Iterator[Token]:
    """Read a posting's entries."""
    last = 0
    for text in parts:
        found = _TOKEN.fullmatch(text)
        assert found is not None, text
        gap, run, entry = found.groups()
        first = last + int(gap, 36)
        token = Token(text, first, 0 if run is None else int(run, 36) if run else 1, entry or "")
        yield token
        last = token.end - 1


def spliced(
    tokens: Sequence[str], stretches: Sequence[Stretch], own: Mapping[int, str], entry_of: Callable[[int], str]
) -> str:
    """Return what a posting says today.

    `own` holds what it says of each page that changed or is new, by today's number; `entry_of` what one of today's
    pages that did not change says in full.
    """
    return _Splicing(stretches, own, entry_of).spliced(tokens)


class _Splicing:
    def __init__(
        self, stretches: Sequence[Stretch], own: Mapping[int, str], entry_of: Callable[[int], str]
    ) -> None:
        self.posting = Posting()
        self.stretches, self.at = stretches, 0
        self.waiting = sorted(own.items(), reverse=True)
        self.entry_of = entry_of

    def spliced(self, tokens: Sequence[str]) -> str:
        base: str | None = None
        last, is_run = 0, False
        for at, token in enumerate(read_tokens(tokens)):
            stretch = self._stretch(token.first)
            if stretch is None or token.end > stretch.end or not self._is_as_before(last, base, is_run, token, stretch):
                for page in range(token.first, token.end):
                    self._stand(page, token, base)
            elif stretch is self.stretches[-1] and not self.waiting:
                self.posting.write_run()
                return " ".join([*self.posting.tokens, *tokens[at:]])
            else:
                self._copy(token, token.end - 1 + stretch.shift)
            base = base if token.run or token.entry[:1] == "=" else token.entry
            last, is_run = token.end - 1, bool(token.run)
        self._stand_own(None)
        return self.posting.parts()

    def _stretch(self, page: int) -> Stretch | None:
        """Return where a page of before lies; None where it changed or is gone. Pages are asked for in order."""
        while self.at < len(self.stretches) and self.stretches[self.at].end <= page:
            self.at += 1
        found = self.stretches[self.at] if self.at < len(self.stretches) else None
        return found if found is not None and found.first <= page else None

    def _is_as_before(self, last: int, base: str | None, is_run: bool, token: Token, stretch: Stretch) -> bool:
        """Whether an entry of before follows on what the entries before it did."""
        posting = self.posting
        if self.waiting and self.waiting[-1][0] < token.first + stretch.shift:
            return False
        return posting.last == last + stretch.shift and posting.base == base and bool(posting.run) == is_run

    def _copy(self, token: Token, last: int) -> None:
        posting = self.posting
        posting.write_run()
        if token.run:
            posting.tokens.append(token.text.partition("^")[0])
            posting.run = token.run
        else:
            posting.tokens.append(token.text)
            if token.entry[:1] != "=":
                posting.base = token.entry
        posting.last = last

    def _stand(self, page: int, token: Token, base: str | None) -> None:
        stretch = self._stretch(page)
        if stretch is None:
            return
        today = page + stretch.shift
        self._stand_own(today)
        if token.run:
            assert base is not None
            self.posting.stand(today, base)
        else:
            self.posting.stand(today, self.entry_of(today) if token.entry[:1] == "=" else token.entry)

    def _stand_own(self, before: int | None) -> None:
        while self.waiting and (before is None or self.waiting[-1][0] < before):
            self.posting.stand(*self.waiting.pop())
