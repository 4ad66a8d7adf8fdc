"""What a drawing shows, as data: the numbers come from records, the lines are drawn by `render`."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class DrawnSheet:
    """One sheet of the stack, outermost first."""

    label: str
    thickness: float | None
    """In mm; None where unknown, drawn broken and marked so."""
    note: str = ""
    """Strength and coating in words."""


@dataclass(frozen=True, slots=True)
class DrawnWeld:
    """The weld in the section."""

    form: Literal["spot", "plug", "seam", "bond"]
    label: str
    width: float | None
    """In mm: of the nugget at the sheets' faces, or of the plug hole; None draws it without a dimension."""


@dataclass(frozen=True, slots=True)
class Section:
    """Cross-section of one segment of a seam: thickness at one stated scale, width at another."""

    id: str
    """Unique on its page; ids inside the drawing begin with it."""
    flange: float
    """In mm, from the edge to the radius."""
    sheets: tuple[DrawnSheet, ...]
    weld: DrawnWeld | None
    film: str
    """Label of the film on the mating faces, or empty where there is none."""
    seal: str
    """Label of the sealer bead, or empty."""
    seal_profile: str
    """Id of its profile, or empty."""
    seal_size: float
    """In mm."""
    thickness_scale: float
    """Drawn mm on paper for each mm of sheet."""
    width_scale: float


@dataclass(frozen=True, slots=True)
class RunSegment:
    """One segment in the run of a seam."""

    label: str
    length: float
    """In mm."""
    layers: int
    welds: int | None


@dataclass(frozen=True, slots=True)
class Run:
    """A seam seen along its length: its segments to one scale, with their welds."""

    id: str
    segments: tuple[RunSegment, ...]


Drawing = Section | Run
