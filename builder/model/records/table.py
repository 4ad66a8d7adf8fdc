"""A published table: keys to look it up by, columns to read, rows, and where it comes from."""

from typing import Annotated, Literal

from pydantic import StringConstraints

from builder.model.records.fields import Id, Line, Name, Prose, SourceId, Stated, Variable, record

Cell = Annotated[str, StringConstraints(min_length=1, max_length=80)]
"""A number, a choice id, or `-` where the source prints nothing."""


@record
class Key:
    """One way into the table."""

    say: Name
    unit: Name | None = None
    match: Literal["exact", "up", "down", "between"]
    """exact: equal (numbers within 1e-9 relative, ids to the letter); up: the next row at or above; down: the next
    at or below; between: straight-line interpolation between the two rows around it (at most one key)."""


@record
class Column:
    """One column to read."""

    say: Name
    unit: Name | None = None
    source: SourceId | None = None
    """Where this column comes from another source than the table."""


@record
class Table:
    """Rows as the source prints them; a miss is "outside the table", never an extrapolation."""

    title: Name
    was: tuple[Id, ...] = ()
    about: Prose | None = None
    keys: dict[Variable, Key]
    columns: dict[Variable, Column]
    rows: tuple[dict[Variable, Cell], ...]
    sources: Stated[SourceId]
    note: Line | None = None
