"""Things with a few labelled texts each, as pages show them where a table's cells would be too narrow."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, NamedTuple

from builder.model.html import NO_HTML, Html
from builder.model.labelled import Row


class Card(NamedTuple):
    """One thing with labelled texts below it."""

    title: Html
    rows: tuple[Row, ...] = ()
    text: Html = NO_HTML
    """Paragraphs below the title."""
    anchor: str = ""


@dataclass(frozen=True, slots=True)
class Cards:
    """Things with texts too long for a table's cells on a phone."""

    form: ClassVar[str] = "cards"
    title: str
    cards: tuple[Card, ...]
    anchor: str = ""
