"""Lines of Markdown -> its sections, each with the anchor that its heading's words make.

A heading is `# so` or a line underlined with `===` or `---`, as Markdown has it; one that is set in, in a list or a
quotation, begins no section.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from typing import NamedTuple

_HASHED = re.compile(r"(#{1,6})\s*(.*?)\s*#*\s*$")
_UNDERLINE = re.compile(r"[=-]+ *$")
_LINK = re.compile(r"\[([^\]]*)\]\([^)]*\)")
_TAKEN = ("top", "used-by")
"""Anchors that every page has."""
LONGEST = 60


class Section(NamedTuple):
    """A heading and what stands below it; the first section of a page may have none."""

    heading: str
    """Markdown."""
    depth: int
    """1 for a heading that is below no other; 0 where there is none."""
    anchor: str
    lines: tuple[str, ...]


def sections_of(lines: Sequence[str]) -> tuple[Section, ...]:
    """Split a page at its headings; what stands before the first comes first, with no anchor."""
    found: list[Section] = []
    above: list[int] = []  # levels of the headings that are open, so that depths leave out none
    anchors = dict.fromkeys(_TAKEN, 1)
    heading, depth, anchor, own = "", 0, "", list[str]()
    at = 0
    while at < len(lines):
        level, text, length = _heading(lines, at, fresh=not own or not own[-1].strip())
        if not level:
            own.append(lines[at])
            at += 1
            continue
        found.append(Section(heading, depth, anchor, tuple(own)))
        above = [*(other for other in above if other < level), level]
        heading, depth, anchor, own = text, len(above), _anchor(text, anchors), []
        at += length
    return (*found, Section(heading, depth, anchor, tuple(own)))


def plain_heading(text: str) -> str:
    """Return a heading's words without mark-up."""
    return re.sub(r"[*`\\]+", "", _LINK.sub(r"\1", text))


def _heading(lines: Sequence[str], at: int, *, fresh: bool) -> tuple[int, str, int]:
    """Return level, text and number of lines of the heading that begins here; level 0 where none does.

    Only where a paragraph would begin, which is what `fresh` says, is a line with a line under it a heading.
    """
    hashed = _HASHED.match(lines[at])
    if hashed and hashed[2]:
        return len(hashed[1]), hashed[2], 1
    begins = fresh and lines[at].strip() and lines[at][0] not in " \t#"
    if begins and at + 1 < len(lines) and _UNDERLINE.match(lines[at + 1]):
        return 1 if lines[at + 1][0] == "=" else 2, lines[at].strip(), 2
    return 0, "", 0


def _anchor(heading: str, taken: dict[str, int]) -> str:
    plain = unicodedata.normalize("NFKD", plain_heading(heading)).encode("ascii", "ignore").decode().lower()
    made = "-".join(re.findall(r"[a-z0-9]+", plain))[:LONGEST].strip("-") or "part"
    # Each says how far its numbers have been given away, so that a thousand equal headings are not a million questions.
    anchor, number = made, taken.get(made, 1)
    while anchor in taken:
        number += 1
        anchor = f"{made}-{number}"
    taken[made] = number
    taken.setdefault(anchor, 1)
    return anchor
