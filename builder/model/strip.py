"""A marking strip: a seam's welds by one method at full size, as sheets of paper show them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from builder.model.laid import LaidSegment
from builder.model.said import Said


@dataclass(frozen=True, slots=True)
class Strip:
    """What is drawn on the sheets."""

    id: str
    """Unique on its page; ids inside the drawings begin with it."""
    seam: str
    method: str
    """Titles."""
    shop: str
    edition: str
    """Which issue of the book the strip is from."""
    unit: Said
    """Of the places on the strip."""
    is_handed: bool
    """Whether the car has the seam twice, once on each side."""
    segments: tuple[LaidSegment, ...]
    places: tuple[tuple[Said, ...], ...]
    """Of each segment's welds the place from the segment's front end, without the unit."""


@dataclass(frozen=True, slots=True)
class Sheets:
    """The sheets of a strip, and how they are used; a script draws them anew for measured lengths."""

    form: ClassVar[str] = "strip"
    title: str
    strip: Strip
    data: str
    """JSON by which the script draws them."""
    seam_href: str
    address: str = ""
    """Where the page is to be had, for the code on each sheet; or empty."""
    anchor: str = "strip"
