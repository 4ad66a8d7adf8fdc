"""Where one word stands in the book -> its line of the index; shards.js reads it.

A line is what it names, a semicolon, and in which parts of pages it stands; without a semicolon it names nothing. Both
are entries parted by blanks, each behind its page's distance from the last.

- Of what it names an entry is `!n` where it is in the title, which has n different words, and `!n~c` where c of them
  are common ones; `+` where it is in another name of the thing.
- Of the others it is the parts, as `packing` writes them; none mean the text of the first. `=` and parts are those of
  the last entry that was written in full, and these beside or instead.
- `^n` says that the n pages from this one on are as the last entry that was written in full: `^` is one.

In place of parts `>p n` says that the word stands on p pages, and that its parts lie in n shards of their own.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from sys import intern

from builder.search.packing import base36, places, runs

_SHORT = 5
"""Letters up to which an entry is written in full: to compare it costs more than it could save."""
_DIGITS = "0123456789abcdefghijklmnopqrstuvwxyz"


class Posting:
    """Where a word stands, grown page by page."""

    __slots__ = ("base", "last", "named", "pages", "run", "tokens")

    def __init__(self) -> None:
        self.pages = 0
        self.named: list[tuple[int, bool]] = []
        """Pages it names, and whether by their title."""
        self.tokens: list[str] = []
        self.base: str | None = None
        """The entry that was written in full last."""
        self.last = 0
        """The last page of which parts are told."""
        self.run = 0
        """How many pages in a row, the last among them, are as the base says and not yet written."""

    def add(self, page: int, entry: str) -> None:
        """Note where it stands on a page."""
        self.pages += 1
        if entry[:1] in ("!", "+"):
            self.named.append((page, entry[0] == "!"))
            entry = parts_in(entry)
            if not entry:
                return
        self.stand(page, entry)

    def stand(self, page: int, entry: str) -> None:
        """Note in which parts of a page it stands."""
        gap = page - self.last
        if entry == self.base:
            if gap != 1 or not self.run:
                self.write_run()
                self.tokens.append(base36(gap))
            self.run += 1
        else:
            self.write_run()
            base = self.base if gap == 1 else None
            more = None if base is None or not len(entry) >= len(base) > _SHORT else beside(base, entry)
            if more is None:
                self.base = entry
            self.tokens.append(intern(base36(gap) + (entry if more is None else f"={more}")))
        self.last = page

    def parts(self) -> str:
        """Return in which parts of pages it stands."""
        self.write_run()
        return " ".join(self.tokens)

    def write_run(self) -> None:
        """Write how many pages in a row are as the base says."""
        if self.run:
            self.tokens[-1] = intern(f"{self.tokens[-1]}^{base36(self.run) if self.run > 1 else ''}")
            self.run = 0


def parts_in(entry: str) -> str:
    """Return of an entry that names the page what stands behind the name."""
    return entry[1:].lstrip(f"{_DIGITS}+")


@lru_cache(maxsize=32768)
def beside(base: str, entry: str) -> str | None:
    """Return what an entry has beside another or instead; None where it lacks a part or is as short by itself."""
    has, other = places(entry), places(base)
    if not other.keys() <= has.keys():
        return None
    more: dict[str, list[int]] = {}
    for part, mark in has.items():
        if other.get(part) != mark:
            more.setdefault(mark, []).append(part)
    said = "".join([f"{mark}{run}" for mark, parts in more.items() for run in runs(sorted(parts))])
    return said if said and len(said) + 1 < len(entry) else None


def titles(named: Sequence[tuple[int, str]]) -> str:
    """Write which pages a word names, and how."""
    tokens: list[str] = []
    last, base, run = 0, "", 0
    for page, entry in (*named, (-1, "")):
        if run and page == last + 1 and entry == base:
            run += 1
        else:
            if run > 1:
                tokens.append(f"1^{base36(run - 1) if run > 2 else ''}")
            if page >= 0:
                tokens.append(base36(page - last) + entry)
            base, run = entry, 1
        last = page
    return " ".join(tokens)


def head_of(count: int, common: int) -> str:
    """Write of a title how many different words it has, and how many of these are common."""
    return f"!{base36(count)}" + (f"~{base36(common)}" if common else "")
