"""A body shell laid flat: the views of its drawing, their line work, and how they lie on the sheet."""

import re
from dataclasses import field
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, StringConstraints
from pydantic_core import PydanticCustomError

from builder.model.outline import LINE_PATTERN
from builder.model.records.fields import Id, Name, Prose, SourceId, Stated, YesNo, record


def _well_written(text: Any) -> Any:
    """Parts are parted by `;` whatever blanks stand around it, so that a long line may be folded."""
    if not isinstance(text, str):
        return text
    line = "; ".join(" ".join(part.split()) for part in text.split(";"))
    if not re.fullmatch(LINE_PATTERN, line):
        raise PydanticCustomError("drawn_line", "this is no line of points")
    return line


DrawnLine = Annotated[str, BeforeValidator(_well_written), StringConstraints(pattern=LINE_PATTERN, max_length=4000)]
"""A line of a drawing, numbers alone: see `builder.model.outline`."""
Extent = Annotated[float, Field(ge=1, le=99_999)]
"""A size in the units of the drawing."""
Place = Annotated[int, Field(ge=1, le=9)]


@record
class Stroke:
    """Lines of one width and sort."""

    style: Literal["edge", "thin", "axis"]
    """An edge of the shell, a thin line for all else, or the long dashes and dots of an axis."""
    runs: tuple[DrawnLine, ...]
    """Each from its first point through the others, parted by semicolons: `0 0; 100 0` is a straight; with four numbers
    the way to the last two bends towards the first two; with six it has a handle at each end."""


@record
class View:
    """One side of the shell as it is seen from outside, laid flat."""

    say: Name
    width: Extent
    """In the units of the drawing, which all its views share."""
    height: Extent
    row: Place
    """On the sheet, counted from the top."""
    column: Place
    """In its row, counted from the left."""
    middle: Literal["level", "upright"] | None = None
    """Which way its middle line runs. Line work and handed panels are then drawn for one half, and mirrored."""
    strokes: tuple[Stroke, ...]


@record
class Twin:
    """The same side on the other hand, made by the builder in mirror image."""

    say: Name
    of: Id
    """The view it is the mirror image of."""
    row: Place
    column: Place
    upended: YesNo = False
    """Unfolded it lies with its foot up, as the sheet of a box does."""


@record
class Shell:
    """A body shell unfolded; its panels say in their own records where they are on it."""

    title: Name
    was: tuple[Id, ...] = ()
    summary: Prose
    views: dict[Id, View]
    """In the order they are read; panels name them by their keys."""
    twins: dict[Id, Twin] = field(default_factory=dict)
    notes: tuple[Name, ...] = ()
    """What the drawing's title block says: how it lies, what it leaves out."""
    sources: Stated[SourceId]


@record
class Drawn:
    """Where a panel is on the drawing of the shell."""

    view: Id
    """A view of the shell, or the twin of one."""
    outline: DrawnLine
    """Its edge, point by point and closed of itself, in the units of the shell's drawing: `0 0; 100 0; 100 50`."""
    hidden: YesNo = False
    """It lies behind what is seen there: drawn in dashes and named in words."""
