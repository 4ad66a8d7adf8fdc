"""Texts that no author writes and no Markdown machine reads to its end in time -> the reason why they are refused.

The end of a bracket that is never closed is looked for to the end of its text, so the work grows with their number
times its length; a list in a list is a call in a call. The bounds are ours: ten times what the supplied library takes.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from pydantic_core import PydanticCustomError

from builder.model.sections import sections_of

BRACKETS_TIMES_LETTERS = 4_000_000
DEEPEST = 40
"""Lists and quotations in one another; four blanks set one in."""
LONGEST_SECTION, LONGEST_PAGE, MOST_SECTIONS = 20_000, 200_000, 400
_MARKS = re.compile(rf"^[ \t]*(?:(?:[-+*>]|\d+[.)])[ \t]*){{{DEEPEST},}}", re.MULTILINE)
_SET_IN = re.compile(rf"^(?: {{4}}|\t){{{DEEPEST},}}", re.MULTILINE)


def bounded(text: str) -> str:
    """Return the text as it is; raises PydanticCustomError where it is out of bounds."""
    if text.count("[") * len(text) > BRACKETS_TIMES_LETTERS:
        raise _out_of_bounds("it holds too many brackets for its length", "part it, or take brackets out")
    if _MARKS.search(text) or _SET_IN.search(text):
        said = f"lists or quotations stand more than {DEEPEST} deep in one another"
        raise _out_of_bounds(said, "write them less deep")
    return text


def bounded_page(lines: Sequence[str]) -> Sequence[str]:
    """Return a page's lines as they are; raises PydanticCustomError where they are out of bounds."""
    if sum(map(len, lines)) > LONGEST_PAGE:
        raise _out_of_bounds(f"it has more than {LONGEST_PAGE:,} letters", "make several pages of it")
    sections = sections_of(lines)
    if len(sections) > MOST_SECTIONS:
        raise _out_of_bounds(f"it has more than {MOST_SECTIONS} headings", "make several pages of it")
    for section in sections:
        text = "\n".join(section.lines)
        if len(text) > LONGEST_SECTION:
            said = f"a section of it has more than {LONGEST_SECTION:,} letters"
            raise _out_of_bounds(said, "part it by headings")
        bounded(text)
    return lines


def _out_of_bounds(said: str, do: str) -> PydanticCustomError:
    return PydanticCustomError("out_of_bounds", "out of bounds", {"said": said, "do": do})
