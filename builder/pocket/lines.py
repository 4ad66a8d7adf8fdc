"""Files of a book in, the same with what they share said once out.

Groups are packed apart, so a line that stands in many would be packed in each. Such lines are put into a table, and a
mark stands in their place: a character that no text of a book holds, and two letters for the line's number.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence

MARK = "\x01"
FEWEST, SHORTEST = 3, 24
"""In how many groups a line must stand, and how many characters it must have, to be worth a row of the table."""
_ENDS = re.compile(
    r"(\n)|(?<=</li>)|(?<=</div>)|(?<=</p>)|(?<=</dl>)|(?<=</section>)|(?<=</h[2-4]>)"
    r"|(?=<(?:li|div|dl|p|h[1-6]|section|article|ul|ol|figure|tr|script|link|button)\b)"
)
"""Where a line ends as a page is read: pages hold next to no line ends of their own."""
_FIRST, _LETTERS = 0x21, 94
_MOST = _LETTERS * _LETTERS


def is_text(path: str) -> bool:
    """Return whether lines of this file may be in the table."""
    return path.endswith((".html", ".js", ".css"))


def shared(groups: Iterable[Iterable[str]]) -> list[str]:
    """Return the lines that stand in several groups, sorted; a group is the texts of its files."""
    seen: dict[str, int] = {}
    for group in groups:
        lines = {line for text in group for line in _lines(text) if len(line) >= SHORTEST}
        for line in lines:
            seen[line] = seen.get(line, 0) + 1
    often = [line for line, count in seen.items() if count >= FEWEST]
    return sorted(sorted(often, key=lambda line: (-seen[line] * len(line), line))[:_MOST])


def numbered(table: Sequence[str]) -> Mapping[str, str]:
    """Return what stands in a line's place."""
    return {
        line: f"{MARK}{chr(_FIRST + at // _LETTERS)}{chr(_FIRST + at % _LETTERS)}" for at, line in enumerate(table)
    }


def marked(text: str, marks: Mapping[str, str]) -> str:
    """Return a text with marks in the place of the lines that the table holds."""
    return "".join([marks.get(line, line) for line in _lines(text)])


def _lines(text: str) -> list[str]:
    return [line for line in _ENDS.split(text) if line]
