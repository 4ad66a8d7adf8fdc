"""A calculator: questions in, formulas with units, answers and warnings out, and proofs against published figures."""

from dataclasses import field
from typing import Annotated, Literal

from pydantic import StringConstraints

from builder.model.records.fields import (
    Expression,
    Id,
    Line,
    Name,
    Places,
    Prose,
    SourceId,
    Stated,
    TableId,
    Variable,
    Word,
    YesNo,
    record,
)
from builder.model.records.points import Points, TableText

Literal_ = Annotated[str, StringConstraints(min_length=1, max_length=80)]
"""A bare number, a quantity or the id of a choice, as text; what fits is decided by the input's own unit."""


NO_ANSWER = "no answer"
"""Stands in a proof in place of a value."""


@record
class Input:
    """One question the calculator asks."""

    ask: Name
    unit: Name | None = None
    """Unit of the answer; absent for a bare number and for choices."""
    start: Literal_ | None = None
    """Fills the page at first; in `unit`, as a bare number, or a choice id. Does not make the input optional."""
    default: Literal_ | None = None
    """Taken where nothing is given; makes the input optional."""
    from_: Literal_ | None = None
    """Least value admitted, a bare number in `unit`."""
    to: Literal_ | None = None
    """Greatest value admitted, a bare number in `unit`."""
    whole: YesNo = False
    """Only whole numbers are admitted."""
    one_of: tuple[Literal_, ...] = ()
    """The only quantities admitted, such as [50 Hz, 60 Hz]."""
    choose: dict[Id, Name] | None = None
    """Choices: id to label; compared with a quoted id by == and != only."""
    help: Line | None = None


@record
class Fixed:
    """A named constant with its source, so that every number names its source."""

    value: Literal_
    """A bare number; its unit stands beside it."""
    unit: Name | None = None
    source: SourceId
    note: Line | None = None


@record
class Output:
    """One answer shown."""

    say: Name
    unit: Name | None = None
    """Unit it is shown in; absent for a bare number, a decision or a choice."""
    digits: Places = 3
    """Decimal places shown."""
    tells: dict[Literal_, Name] = field(default_factory=dict)
    """What is shown in place of certain numbers, such as {1: it fits, 0: it does not}; tools get the number."""


@record
class Caution:
    """A caution that stands where its condition holds, and says it cannot be judged where it has no answer."""

    if_: Expression
    level: Literal["stop", "care", "note"]
    say: Line


@record
class Row:
    """One row of a decision: the first whose condition holds gives the answer; the last has `otherwise`."""

    if_: Expression | None = None
    otherwise: Id | None = None
    """The last row's answer id, in place of `if` and `answer`."""
    answer: Id | None = None
    say: Line
    because: Line


@record
class Proof:
    """A published example: given these inputs, these outputs, within a tolerance."""

    given: dict[Variable, Literal_]
    expect: dict[Variable, Literal_]
    """Quantity text, bare number, choice or decision id, or `no answer`."""
    within: Literal_ | dict[Variable, Literal_] = "0"
    """One tolerance for all, or one an output: a bare number in the output's unit, or a quantity
    (of a temperature: a difference). Exact ids need none."""
    points: TableText | None = None
    """The table of points, where the calculator works on one."""
    deviations: dict[Name, Literal_] = field(default_factory=dict)
    """By the point's name how long its deviation is."""
    deviations_within: Literal_ = "0"
    """How far a deviation may be off."""
    source: SourceId
    note: Line | None = None


@record
class Chart:
    """How answers go with one input, the others held as they are given: drawn on the page and redrawn as one types."""

    say: Name
    over: Variable
    """The input along the foot of the chart: a number, not a choice."""
    from_: Literal_
    """Where the chart begins, a bare number in the input's unit."""
    to: Literal_
    """Where it ends."""
    show: tuple[Variable, ...]
    """The outputs drawn, all in one unit."""
    limit: Variable | None = None
    """A formula, an input or a fixed value of the same unit that is drawn as a line across: what must not be passed."""


@record
class Sketch:
    """A drawing to scale of what was worked out, redrawn as one types."""

    form: Literal["marks", "bend", "channel", "opening"]
    """marks: points along a line (count; length, first, spacing, and order, an output in words such as `1, 12; 6; 3, 9`
    that says in which order they are made); bend: a sheet bent once (angle bent through, radius, thickness; setback,
    allowance); channel: a base with two legs, outside measures (base, left, right, thickness; radius, blank); opening:
    a four-sided opening that leans (width, height, lean, how far its top stands to the right; rising, falling, its
    diagonals). The measures before the semicolon are needed."""
    say: Name
    with_: dict[Variable, Variable]
    """Each measure of the form, to the input, formula or fixed value that gives it."""


@record
class Calculator:
    """One calculation of the job, written once."""

    title: Name
    was: tuple[Id, ...] = ()
    asks: Line
    """The question it answers, as the technician would ask it."""
    moment: Annotated[Id, Word("moment")] | None = None
    """The moment of the job it serves; lists are grouped by it."""
    on_first_page: YesNo = True
    """Whether the first page leads to it; no where it is misread by whoever comes upon it away from the job."""
    also: tuple[Name, ...] = ()
    """Other words in which people ask for it; the search finds it by them."""
    about: Prose | None = None
    """How to read it, and what outranks it."""
    limits: tuple[Line, ...] = ()
    """Where it does not hold, and when it must not be used."""
    inputs: dict[Variable, Input]
    points: Points | None = None
    """The table of points it works on, where it does."""
    fixed: dict[Variable, Fixed] = field(default_factory=dict)
    tables: dict[Variable, TableId] = field(default_factory=dict)
    """Tables read in the formulas: the name used there, to the table's id."""
    work: dict[Variable, Expression] = field(default_factory=dict)
    """Formulas by the name of their result; they may stand in any order but not go in circles."""
    decide: dict[Variable, tuple[Row, ...]] = field(default_factory=dict)
    """Decisions by the name of their result."""
    outputs: dict[Variable, Output]
    charts: dict[Variable, Chart] = field(default_factory=dict)
    sketch: Sketch | None = None
    warnings: Stated[Caution]
    sources: Stated[SourceId]
    proofs: tuple[Proof, ...]


def called(calculator: Calculator, name: str) -> str:
    """Return what readers know a name of the formulas by: an answer, a question, else the words of the name."""
    if name in calculator.outputs:
        return calculator.outputs[name].say
    if name in calculator.inputs:
        return calculator.inputs[name].ask
    words = name.replace("_", " ")
    return words[:1].upper() + words[1:]


def limit_called(calculator: Calculator, name: str) -> str:
    """Return what a limit is called; of a name that readers never see it is said that it is one."""
    is_seen = name in calculator.outputs or name in calculator.inputs
    return called(calculator, name) if is_seen else "Limit: " + name.replace("_", " ")
