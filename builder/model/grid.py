"""A table of a page."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import ClassVar

from builder.model.html import NO_HTML, Html

_LONG_CELL = 28
"""Letters."""


@dataclass(frozen=True, slots=True)
class Grid:
    """A table; numbers are set in columns."""

    form: ClassVar[str] = "grid"
    title: str
    head: tuple[str, ...]
    rows: tuple[tuple[Html, ...], ...]
    note: Html = NO_HTML
    anchor: str = ""
    numeric: tuple[bool, ...] = ()
    other_head: tuple[str, ...] = ()
    """The head in the other system of units, empty where it is the same; or nothing at all."""

    @property
    def is_wordy(self) -> bool:
        """Whether cells hold whole sentences, which columns on a phone would break at every word."""
        words = (cell for row in self.rows for cell in row)
        return not self.other_head and any(len(re.sub("<[^>]*>", "", cell)) > _LONG_CELL for cell in words)
