"""The kind a vehicle is: what records apply to it, and where it differs from them."""

from typing import Annotated, Literal

from builder.model.records.fields import Id, Line, Name, PanelId, Points, ProcedureId, Prose, SourceId, Stated, record

Side = Literal["left", "right", "both"]
DIFFERS = ("panel", "seam", "cavity", "opening", "procedure")
"""The kinds of which one vehicle may have its own."""


@record
class Difference:
    """Where this vehicle is not as the record says."""

    on: Annotated[str, Points(DIFFERS)]
    side: Side
    """Sides are the car's own, seen from the driver's seat."""
    is_: Line
    """How it is on this vehicle."""
    do: Line
    """What to do otherwise than the record says."""
    source: SourceId


@record
class Vehicle:
    """What records apply to."""

    title: Name
    was: tuple[Id, ...] = ()
    summary: Prose
    """Which vehicles are meant, in words a technician can check on the car."""
    body: Line
    """How it is built: one shell, a frame and a cab, how many doors."""
    data: Line
    """Where the maker's instruction for it is to be had, or that there is none."""
    panels: Stated[PanelId]
    """The panels of this book that it has."""
    procedures: Stated[ProcedureId]
    """The procedures that were proven on it."""
    support: Stated[Line]
    """Where it may be held up, and where not."""
    differs: Stated[Difference]
    cautions: Stated[Line]
    sources: Stated[SourceId]
