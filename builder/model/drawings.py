"""What a drawing shows, as data: the numbers come from records, the lines are drawn by `render`."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, Literal, NamedTuple

from builder.model.outline import Line
from builder.model.said import Said


@dataclass(frozen=True, slots=True)
class DrawnSheet:
    """One sheet of the stack, outermost first."""

    label: str
    thickness: float | None
    """In mm; None where unknown, drawn broken and marked so."""
    thickness_said: Said
    note: str = ""
    """Strength and coating in words."""


@dataclass(frozen=True, slots=True)
class DrawnWeld:
    """The weld in the section."""

    form: Literal["spot", "plug", "seam", "bond"]
    label: Said
    width: float | None
    """In mm: of the nugget at the sheets' faces, or of the plug hole; None draws it without a dimension."""
    has_stepped_holes: bool = False
    """Of plugs through more than one sheet: each hole is smaller than the one above it."""


@dataclass(frozen=True, slots=True)
class Section:
    """Cross-section of one segment of a seam: thickness at one stated scale, width at another."""

    id: str
    """Unique on its page; ids inside the drawing begin with it."""
    flange: float
    """In mm, from the edge to the radius."""
    flange_said: Said
    sheets: tuple[DrawnSheet, ...]
    weld: DrawnWeld | None
    film: str
    """Label of the film on the mating faces, or empty where there is none."""
    seal: Said
    """Label of the sealer bead, or empty."""
    seal_profile: str
    """Id of its profile, or empty."""
    seal_size: float
    """In mm."""
    thickness_scale: float
    """Drawn mm on paper for each mm of sheet."""
    width_scale: float
    is_staggered: bool = False
    """The edges of the inner sheets stand back, so that each pair has a strip of its own."""


@dataclass(frozen=True, slots=True)
class RunSegment:
    """One segment in the run of a seam."""

    label: str
    length: float
    """In mm."""
    length_said: Said
    layers: int
    welds: int | None


@dataclass(frozen=True, slots=True)
class Run:
    """A seam seen along its length: its segments to one scale, with their welds."""

    id: str
    segments: tuple[RunSegment, ...]
    length_said: Said
    """Of all of them."""


Drawing = Section | Run


class DrawnPanel(NamedTuple):
    """A panel on a view of the shell."""

    title: str
    href: str
    outlines: tuple[Line, ...]
    """One, or one a hand."""
    hidden: bool
    """Behind what is seen: in dashes, and pressed on its edge."""


@dataclass(frozen=True, slots=True)
class ShellView:
    """One side of the shell, whole: what is mirrored has been mirrored."""

    id: str
    say: str
    width: float
    height: float
    column: int
    """Its place in the row, counted from the left."""
    upended: bool
    """On the unfolded sheet it lies with its foot up."""
    strokes: tuple[tuple[str, tuple[Line, ...]], ...]
    """Lines by style."""
    panels: tuple[DrawnPanel, ...]


@dataclass(frozen=True, slots=True)
class Body:
    """A body shell unfolded, each panel of the book leading to its page: a block of a page by itself."""

    form: ClassVar[str] = "body"
    title: str
    shell: str
    """The shell's own title."""
    notes: tuple[str, ...]
    rows: tuple[tuple[ShellView, ...], ...]
    """As its views lie on the sheet, from the top."""
    anchor: str
    words: str
    """Anchor of the list that says the same in words."""

    @property
    def width(self) -> float:
        """Of the widest row, in the units of the drawing."""
        return max((sum(view.width for view in row) for row in self.rows), default=1.0)

    @property
    def widest(self) -> float:
        """Width of the widest view."""
        return max((view.width for row in self.rows for view in row), default=1.0)
