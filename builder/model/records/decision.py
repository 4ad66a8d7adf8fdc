"""A decision: what is chosen, where it is shown, which calculator answers with what, and what outranks the answer."""

from dataclasses import field
from typing import Literal

from builder.model.records.fields import (
    ActId,
    CalculatorId,
    Expression,
    Id,
    Line,
    Many,
    Name,
    Prose,
    SourceId,
    Variable,
    record,
)
from builder.model.records.working import Given


@record
class Place:
    """Where a decision is shown: with every step that does an act, or on the page of each seam or panel."""

    act: Many[ActId] = ()
    """Its facts are those of the step and of each segment of the step's seams."""
    on: Literal["seam", "panel"] | None = None
    """In place of acts. Its facts are those of each segment, or of the panel."""


@record
class Works:
    """The calculator that answers, and what of its inputs is told here; what is left out is open."""

    calculator: CalculatorId
    with_: dict[Variable, Given]
    """What is known of an input. Where a fact has no answer, the input is open too."""
    possible: dict[Variable, dict[Id, Expression]] = field(default_factory=dict)
    """Of an open choice: where some of its ids can be the case, by conditions over the facts. An id that is not named
    can always be; where one alone is left, the input is known."""
    show: tuple[Variable, ...]
    """Decisions of the calculator, the one that matters first; each after it is shown for every answer of the one
    before."""


@record
class Decision:
    """A choice that is worked out with the facts of a seam, a step or a panel."""

    title: Name
    """What is decided, as readers ask for it: How to join it."""
    was: tuple[Id, ...] = ()
    summary: Prose
    when: Place
    works: Works
    outranks: Line
    """What comes before the answer, the highest first."""
    source: SourceId
