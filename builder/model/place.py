"""Places in content files: what every tree node, reference and problem carries from birth."""

from __future__ import annotations

from typing import NamedTuple


class Span(NamedTuple):
    """A stretch of one line of a content file, counted as editors count: from 1, in characters."""

    file: str
    """Path as shown to the author, relative to the folder above its layer, with forward slashes."""
    line: int
    column: int
    end: int
    """Column just past the last character, on the same line."""

    def at(self, column: int, end: int) -> Span:
        """Return the same line narrowed to other columns."""
        return Span(self.file, self.line, column, end)
