"""The kind a lesson is: one piece of the work, taught in the four steps of job instruction.

The four steps - prepare the learner, show the work, let them try, follow up - are those of the Training Within Industry
programme (War Manpower Commission, 1940s, public domain; from memory).

A lesson holds no question. It names the procedures and calculators that its questions are drawn from, so that they are
made anew from what those say today.
"""

from dataclasses import field
from typing import Annotated

from pydantic import StringConstraints

from builder.model.records.calculator import Literal_
from builder.model.records.fields import (
    CalculatorId,
    Count,
    Id,
    Line,
    Many,
    Minutes,
    Name,
    Plain,
    Points,
    Prose,
    SourceId,
    Stated,
    StatedMap,
    Variable,
    record,
)
from builder.model.records.procedure import IsoDate
from builder.model.records.skill import SkillId

LessonId = Annotated[Id, Points(("lesson",))]
TAUGHT = ("procedure", "panel", "seam", "cavity", "opening", "method", "rule", "hazard", "calculator", "table", "tool",
          "supply", "term")  # fmt: skip
"""The kinds a lesson may send its reader to."""
Taught = Annotated[str, Points(TAUGHT)]
CATCHING = ("rule", "calculator", "figure", "procedure", "table", "decision", "method", "seam", "panel", "hazard",
            "defect")  # fmt: skip
"""The kinds that may catch a mistake: what is checked, worked out, drawn or looked at."""
Catching = Annotated[str, Points(CATCHING)]
ProcedureOrStep = Annotated[str, Points(("procedure",), with_step=True)]
"""A procedure, or with `#step` behind it the phase that step stands in."""
Between = Annotated[str, StringConstraints(pattern=r"^\S.* to \S.*$", max_length=160)]
"""Two values of an input, `0.8 mm to 1.5 mm`; twice the same where only that one is asked with."""


@record
class Shown:
    """One thing the trainer shows: the step, its key point and the reason."""

    do: Line
    key_point: Line
    why: Line
    look_at: tuple[Taught, ...] = ()


@record
class Caught:
    """A mistake that costs a car, and what of the book catches it."""

    mistake: Line
    by: Catching
    how: Line
    """How it is seen there."""


@record
class Questions:
    """What the questions of a lesson are drawn from."""

    procedures: Stated[ProcedureOrStep] = ()
    """Their steps are put in order, spoiled by one rule, and asked for their dangers."""
    calculators: Stated[CalculatorId] = ()
    """They are worked out with fresh numbers each time."""
    from_: dict[CalculatorId, dict[Variable, Between]] = field(default_factory=dict)
    """The numbers of an input that are drawn, where not all that it admits make sense to a beginner."""


@record
class Practical:
    """A piece of work that is made, measured, and judged by a calculator."""

    key: Id
    """Permanent: what learners have passed hangs on it."""
    title: Name
    do: Prose
    calculator: CalculatorId
    given: StatedMap[Many[Literal_]]
    """What the learner is told, by input: a value, or several of which one is drawn."""
    measured: StatedMap[Plain]
    """What is measured on the piece and typed in, by input: how it is asked for."""
    passes: dict[Variable, Literal_] = field(default_factory=dict)
    """The answers with which it is passed: the id of a decision or choice, or a number as it is shown."""
    compare: dict[Variable, Literal_] = field(default_factory=dict)
    """Answers that the learner finds alone, and how far each may be off."""
    times: Count = 1
    """How many in a row are made to pass."""


@record
class Lesson:
    """What a new hire is taught in one sitting."""

    title: Name
    was: tuple[Id, ...] = ()
    summary: Prose
    aims: tuple[Line, ...]
    """What the learner can do afterwards."""
    after: Stated[LessonId]
    """Lessons that come before it."""
    minutes: Minutes
    read: Stated[Taught]
    """What is read before the sitting."""
    prepare: tuple[Line, ...]
    """The place and the learner made ready."""
    show: tuple[Shown, ...]
    try_: tuple[Line, ...]
    """What the learner does under the trainer's eye."""
    follow_up: tuple[Line, ...]
    """When it is looked at again, and whom to ask meanwhile."""
    watch_for: Stated[Line]
    """Mistakes that learners make."""
    teaches: Stated[SkillId] = ()
    catches: Stated[Caught] = ()
    questions: Questions | None = None
    practical: Stated[Practical] = ()
    read_through: IsoDate | None = None
    """When its author last held it against what it names; a procedure that was revised later is told."""
    sources: Stated[SourceId]
