"""What working out gives: calculators' answers for records, as plain values that pages show."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal, NamedTuple

from builder.model.decided import Decided
from builder.model.plots import Measured, Series
from builder.model.records.calculator import Input
from builder.model.summary import Facts


class Value(NamedTuple):
    """One input or answer, ready to be shown."""

    say: str
    text: str
    """The number as shown, the label of a choice, or empty where there is no answer."""
    unit: str = ""
    """The unit's name as records write it."""
    why: str = ""
    """Why there is no answer."""
    because: str = ""
    """A decision's reason."""
    number: float | None = None
    """An answer before it was rounded, in its unit."""
    instead: str = ""
    """Said where there is no answer, in place of saying just that."""


class StepValue(NamedTuple):
    """What one formula or decision of a calculator gives."""

    name: str
    value: Value
    """Without a text where it is a number whose decimal places nobody chose."""
    row: int | None = None
    """Which row of a decision gives it, counted from 0."""


class Remark(NamedTuple):
    """A warning of a calculator or a limit of a method that holds, or that cannot be judged."""

    level: Literal["stop", "care", "note"]
    say: str
    because: str = ""
    unjudged: bool = False
    source: str = ""
    """Of a limit the source it rests on."""
    at: int = -1
    """Of a limit its place in the method's list."""


class PointRow(NamedTuple):
    """One point of a table of points, with what a fit says of it; lengths in the table's unit."""

    name: str
    sound: bool
    stated: tuple[float, float, float]
    measured: tuple[float, float, float]
    off: tuple[float, float, float]
    length: float
    is_beyond: bool
    is_doubtful: bool = False
    is_first: bool = False
    alone: float = 0.0
    """Of a doubtful point how far it stands off in the fit without it."""
    rest: float = 0.0
    """And how well the others then agree."""


class WorkedOut(NamedTuple):
    """One calculator worked out with one segment's facts."""

    calculator: str
    say: str
    segment: str
    """The segment in words; empty where the seam has only one."""
    given: tuple[Value, ...]
    answers: tuple[Value, ...]
    remarks: tuple[Remark, ...]
    fragment: str
    """Opens the calculator's page with the same inputs: `in=length:1060~mm,...`."""
    points: tuple[PointRow, ...] = ()
    """Of a calculator that works on points each of them."""
    steps: tuple[StepValue, ...] = ()
    """The way to the answers, on the calculator's own page alone."""
    names: tuple[str, ...] = ()
    """Of each answer shown its name in the calculator."""
    at: int = -1
    """Its place in the plan of the method."""


@dataclass(frozen=True, slots=True)
class WeldRow:
    """The welds along one segment; lengths in mm from its front end."""

    length: float
    count: int
    first: float
    spacing: float
    order: tuple[int, ...] = ()
    """When each weld is made, counted from 1, the front one first; empty where no order is worked out."""


class MethodPlan(NamedTuple):
    """One allowed method on one segment."""

    method: str
    remarks: tuple[Remark, ...]
    """Its limits that hold here or cannot be judged."""
    worked: tuple[WorkedOut, ...]
    mark_width: float | None = None
    """Width of the weld in mm, for the section."""
    mark_say: str = ""
    row: WeldRow | None = None
    """Of a method that makes single welds, where all it needs is known."""
    has_stepped_holes: bool = False
    is_staggered: bool = False
    """Both for the section."""
    waiting: tuple[Remark, ...] = ()
    """Its limits that do not hold here and might where the seam is longer or shorter."""
    is_moved: bool = False
    """Whether anything of it depends on the segment's length."""
    calculators: tuple[str, ...] = ()
    """What its plan is worked out by."""


@dataclass(frozen=True, slots=True)
class SegmentPlan:
    """One segment of a seam worked out."""

    name: str
    facts: tuple[Value, ...]
    methods: tuple[MethodPlan, ...]
    known: Facts = field(default_factory=dict)
    """What formulas may name of it, in base units."""
    asked: Input | None = None
    """How its length is asked for, where a plan depends on it and says what is admitted."""


SeamPlan = tuple[SegmentPlan, ...]
StepsDecided = Mapping[str, tuple[Decided, ...]]
StepValues = Mapping[str, tuple[WorkedOut, ...]]
"""By the step's key."""


@dataclass(frozen=True, slots=True)
class Worked:
    """Everything worked out for one record; which part is filled depends on its kind."""

    steps: StepValues
    seam: SeamPlan = ()
    started: WorkedOut | None = None
    """A calculator for its starting values."""
    charts: Mapping[str, Series] = field(default_factory=dict)
    """A calculator's charts for its starting values."""
    measured: Measured | None = None
    """What its sketch is drawn from, for them."""
    decided: tuple[Decided, ...] = ()
    """A seam's or a panel's decisions."""
    steps_decided: StepsDecided = field(default_factory=dict)
    """A procedure's, by the step's key."""
