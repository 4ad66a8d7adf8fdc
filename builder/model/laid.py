"""The welds of a whole seam by one method, as a layout and as a marking strip show them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, Literal, NamedTuple

from builder.model.html import Html
from builder.model.said import Said
from builder.model.work import WeldRow

MOST = 1000
"""Welds of a segment drawn at most."""


class LaidSegment(NamedTuple):
    """One segment with its welds."""

    label: str
    length: float
    """In mm."""
    length_said: Said
    factory: int | None
    """Welds that the factory made; None where that is not known, or where there was no joint."""
    row: WeldRow | None
    """None where the method makes no single welds here."""
    why: str = ""
    """Why there is no row."""
    first_said: Said = Said("")
    spacing_said: Said = Said("")

    @property
    def weld_places(self) -> list[float]:
        """In mm from the segment's front end."""
        row = self.row
        return [] if row is None else [row.first + row.spacing * at for at in range(min(row.count, MOST))]

    @property
    def factory_places(self) -> list[float]:
        """Where the factory's welds were, taken as even between the plan's own ends; in mm from the front end."""
        count = min(self.factory or 0, MOST)
        end = self.row.first if self.row is not None else 0.0
        if count > 1 and 0 < end < self.length / 2:
            return [end + (self.length - 2 * end) * at / (count - 1) for at in range(count)]
        return [self.length * (at + 0.5) / count for at in range(count)]


@dataclass(frozen=True, slots=True)
class WeldLayout:
    """A seam from its front end, every weld in its place."""

    id: str
    """Unique on its page; ids inside the drawing begin with it."""
    form: Literal["spot", "plug", "seam", "bond"]
    segments: tuple[LaidSegment, ...]


@dataclass(frozen=True, slots=True)
class Laid:
    """A layout with the same in words and numbers; a script redraws it when a length is measured."""

    form: ClassVar[str] = "laid"
    title: str
    method: str
    """Its title."""
    layout: WeldLayout
    words: Said
    head: tuple[str, ...]
    rows: tuple[tuple[Html, ...], ...]
    anchor: str
    data: str
    """JSON by which the script draws it."""
    strip: tuple[str, str] = ("", "")
    """Label of the link to the marking strip, and where it leads; both empty where there is none."""
