"""The smaller kinds: supply, tool, hazard, term, source and scale."""

from dataclasses import field
from typing import Annotated, Literal

from pydantic import Field

from builder.model.records.calculator import Fixed
from builder.model.records.fields import (
    ActId,
    AnyAmount,
    AnyQuantity,
    CalculatorId,
    Duration,
    FigureId,
    Id,
    Length,
    Line,
    Many,
    Name,
    Prose,
    SourceId,
    Stated,
    TermId,
    Variable,
    Word,
    YesNo,
    record,
)
from builder.model.records.working import Given


@record
class Fact:
    """One figure about a thing, with its source."""

    say: Name
    value: AnyQuantity
    source: SourceId


@record
class Pack:
    """How a supply is bought."""

    size: AnyAmount
    """What one pack holds, `310 ml`; a bare number of things that are counted."""
    of: Name | None = None
    """What is counted, where the size is a bare number: discs."""
    say: Name
    """What one pack is called: cartridge."""
    source: SourceId


@record
class Waste:
    """What is lost beside what is used: in the nozzle, on the cloth, in the cup."""

    part: Annotated[float, Field(ge=0, le=300)]
    """Percent on top."""
    source: SourceId


@record
class Reckoned:
    """A calculator that says how much of a supply one subject of a step takes."""

    calculator: CalculatorId
    fixed: dict[Variable, Fixed] = field(default_factory=dict)
    """Named constants, each with its source."""
    with_: dict[Variable, Given]
    """What it is given, over the facts of the step's seam, panel or cavity."""
    answer: Variable
    how: Name
    """What the amount came of, with the calculator's inputs in braces: `{area}, {dry_film} dry`."""


@record
class Usage:
    """How much of a supply a step takes that lists it. It says one of each, by, counted and told."""

    acts: Many[ActId] = ()
    """Steps of these acts; without any, of all that no row before speaks of."""
    on: Literal["seam", "panel", "cavity"] | None = None
    """Only where the step is done on one."""
    each: AnyAmount | None = None
    """A fixed amount."""
    per: Literal["step", "subject", "metre", "job"] = "step"
    """For each of them; a metre is one of the step's seams, and a job takes it once."""
    by: Reckoned | None = None
    """An amount that is worked out for each of the step's subjects, and counts once for each in a job."""
    each_time: YesNo = False
    """Of such an amount: it counts again with each step, since each lays a coat of its own."""
    told: Line | None = None
    """Why no amount can be given before the car is seen, and how it is found there."""
    counted: Line | None = None
    """Where it is counted in place of here, since these steps only fit, mix or look at it."""
    source: SourceId | None = None
    """Of a fixed amount."""


@record
class Supply:
    """Something that is used up."""

    title: Name
    was: tuple[Id, ...] = ()
    summary: Prose
    film: Length | None = None
    """Dry film as used, where it is a coating."""
    pack: Pack | None = None
    """How it is bought; without it no job can order it."""
    waste: Waste | None = None
    """What is lost, where the amounts do not count it already."""
    always_whole: YesNo = False
    """Bought whole for a job, since what is left of an opened pack is lost."""
    used: tuple[Usage, ...] = ()
    """How much a step takes that lists it, where no seam's plan says so; the first row that fits speaks."""
    facts: Stated[Fact]
    cautions: Stated[Line]


@record
class Calibrated:
    """How often a tool is tried against a standard."""

    every: Duration
    source: SourceId


@record
class Tool:
    """Something that is used again."""

    title: Name
    was: tuple[Id, ...] = ()
    summary: Prose
    facts: Stated[Fact]
    checks: Stated[Line]
    """What to look at before it is used."""
    calibrated: Calibrated | None = None
    """Of a tool that measures: its day stands on the record of the job."""
    figures: Stated[FigureId] = ()


@record
class Hazard:
    """A danger in the order a warning is read: what it is, how to avoid it, what it does."""

    title: Name
    was: tuple[Id, ...] = ()
    signal: Annotated[Id, Word("signal")]
    danger: Line
    avoid: Line
    consequence: Line
    protect: Stated[Line]
    signs: Stated[Line]
    figures: Stated[FigureId] = ()
    defer: Line
    """Whose instruction outranks this record."""
    source: SourceId


@record
class Term:
    """A word of the trade and what else it is called."""

    title: Name
    was: tuple[Id, ...] = ()
    means: Prose
    synonyms: Stated[Name]
    see: tuple[TermId, ...] = ()


@record
class Source:
    """Where a figure or a rule comes from, and how far it was checked."""

    title: Name
    was: tuple[Id, ...] = ()
    sort: Annotated[Id, Word("source-sort")]
    publisher: Name | None = None
    number: Name | None = None
    issued: Name | None = None
    seen: Line
    """How it was seen: the text itself, a page that quotes it, or from memory."""
    about: Prose | None = None


@record
class ScaleWord:
    """One word of a scale."""

    say: Name
    means: Line | None = None
    source: SourceId | None = None
    alone: Line | None = None
    """Of a sort of source: said at the head of a calculator for which it is the best that there is."""
    beside: Name | None = None
    """Of a sort of source: stands beside each value, table and proof that rests on it."""


@record
class Scale:
    """The words a field may hold, in order: mildest first, strictest last."""

    title: Name
    was: tuple[Id, ...] = ()
    summary: Prose
    words: dict[Id, ScaleWord]
