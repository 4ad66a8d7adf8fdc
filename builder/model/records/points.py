"""What a calculator says that works on a table of points: two places of each, fitted rigidly over each other."""

from typing import Annotated, Literal

from pydantic import StringConstraints

from builder.model.records.fields import Line, Name, Places, SourceId, Variable, record

TableText = Annotated[str, StringConstraints(min_length=1, max_length=20000)]
"""A table as text: a line with the names of the columns, below it a line a point, cells parted by commas."""


@record
class NamedColumn:
    """A column of the table."""

    say: Name
    column: Name
    """Its name at the head of the table."""


@record
class PlaceColumns:
    """The three columns that hold one place of every point."""

    say: Name
    """What this place is."""
    x: Name
    y: Name
    z: Name


@record
class SoundColumn:
    """The column that says which points are sound: the fit is made on them alone."""

    say: Name
    column: Name
    yes: tuple[Name, ...]
    """What may be written for yes, the usual word first."""
    no: tuple[Name, ...]
    """What may be written for no."""


@record
class Axes:
    """What the three axes are called."""

    x: Name
    y: Name
    z: Name


@record
class LeastBreadth:
    """How far the sound points must stand off one line, as a share of their length along it; below it no fit is made.

    The breadth is the second largest over the largest spread of the points, each the root of the mean square along one
    of their own three directions.
    """

    value: Annotated[str, StringConstraints(min_length=1, max_length=80)]
    source: SourceId
    note: Line | None = None


@record
class Refusals:
    """What is said where no fit can be made."""

    few: Line
    """Fewer than three sound points."""
    line: Line
    """The sound points lie on one line, or nearly."""
    undecided: Line
    """Several turns fit equally well."""


@record
class Verdicts:
    """What is said of a point, and of a sound point that the other sound points do not bear out."""

    within: Name
    beyond: Name
    doubtful: Name
    alone: Name
    """Stands before how far it lies off where the fit is made without it."""
    rest: Name
    """Stands before the root mean square of the other sound points in that fit."""
    first: Name
    """Stands with the doubtful point without which the others agree best."""


@record
class Points:
    """The table of points, and what is said of it.

    Every point has two places: where it should be, and where it was measured. The measured places are turned and
    shifted as one rigid body until the sound points lie as near to where they should be as they can (least squares);
    what then is between the two is each point's deviation. Nothing is ever mirrored or scaled, but for `mirror`.

    Formulas may use what comes of it: points, sound, tried, doubtful, beyond (counts); rms, rms_all, largest (of all
    points), largest_sound, shift_x, shift_y, shift_z (lengths); turn, turn_x, turn_y, turn_z (angles; about x first,
    then y, then z); breadth (see least_breadth) and reach (distance of the farthest sound point from the middle of the
    sound ones, as a share of the distance of the farthest point).
    """

    unit: Name
    """The unit of a bare number in the table."""
    digits: Places = 1
    """Decimal places that deviations are shown with."""
    mirror: Literal["none", "x", "y", "z"] = "none"
    """The axis along which the first place is turned round before the fit: the sign of that column is changed."""
    name: NamedColumn
    stated: PlaceColumns
    """Where the points should be."""
    measured: PlaceColumns
    """Where they were measured."""
    sound: SoundColumn
    axes: Axes
    tolerance: Variable
    """The input that says how long a deviation may be."""
    least_breadth: LeastBreadth
    refuse: Refusals
    verdicts: Verdicts
    start: TableText
    """The points that fill the page at first."""
