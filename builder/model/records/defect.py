"""A defect: what is seen, how it is looked for, what it comes of and how each cause is told, and what mends it."""

from builder.model.records.fields import (
    ActId,
    FigureId,
    Id,
    Line,
    Many,
    MethodId,
    Name,
    Prose,
    SourceId,
    Stated,
    record,
)


@record
class Arises:
    """With which acts it shows itself; each step that does one leads to it."""

    act: Many[ActId]
    method: Many[MethodId] = ()
    """Only where the step joins by one of these, or does not say by which."""


@record
class Cause:
    """One of the things it may come of."""

    cause: Line
    tell: Line
    """How it is told from the others, by what is seen, felt or read."""
    do: Line
    """What is done so that the next one is right."""
    source: SourceId


@record
class Defect:
    """Work that did not come right, as it is met."""

    title: Name
    """What is seen, as somebody would say it who does not know why."""
    was: tuple[Id, ...] = ()
    condition: Prose
    """What is seen, felt or measured, and where."""
    look: Line
    """The test that shows it, also where it hides."""
    harm: Line
    """What becomes of it if it is left."""
    arises: Arises
    causes: tuple[Cause, ...]
    """The likeliest first."""
    mend: Prose
    """What becomes of the work that has it."""
    figures: Stated[FigureId] = ()
    sources: Stated[SourceId]
