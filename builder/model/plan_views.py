"""What a page shows of a segment worked out: for each method the verdict, then what its plan comes to, in groups."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, NamedTuple

from builder.model.html import NO_HTML, Html
from builder.model.plotted import UnitOption
from builder.model.said import Said


class PlanRow(NamedTuple):
    """One answer."""

    name: str
    """The answer's name in its calculator."""
    label: str
    value: Html
    sign: Said
    """What stands behind its number."""
    note: str = ""


class PlanCaution(NamedTuple):
    """A limit, or what a calculator warns of."""

    level: str
    say: Html
    because: Html = NO_HTML
    unjudged: bool = False
    at: int = -1
    """Of a limit its place in the method's list."""
    is_waiting: bool = False
    """It does not hold here, and might at another length: out of sight until it does."""


class PlanPart(NamedTuple):
    """One calculator put to work."""

    at: int
    """Its place in the method's plan."""
    rows: tuple[PlanRow, ...]
    cautions: tuple[PlanCaution, ...]


class PlanLink(NamedTuple):
    """The way to a calculator, filled in the same way."""

    at: int
    """The place in the plan of what it is filled in like."""
    text: str
    href: str


class PlanGroup(NamedTuple):
    """What stands under one heading."""

    title: str
    parts: tuple[PlanPart, ...]
    links: tuple[PlanLink, ...]


class PlannedMethod(NamedTuple):
    """One allowed method on one segment."""

    id: str
    title: str
    href: str
    anchor: str
    verdict: str
    """The gravest level, or nothing where no limit holds."""
    limits: tuple[PlanCaution, ...]
    groups: tuple[PlanGroup, ...]


class PlanFact(NamedTuple):
    """What is known of the segment."""

    label: str
    value: Html
    is_length: bool = False


class LengthAsk(NamedTuple):
    """The question for the length measured on the car."""

    id: str
    label: str
    unit: Said
    start: Said
    limits: Html
    units: tuple[UnitOption, ...]


@dataclass(frozen=True, slots=True)
class PlannedSegment:
    """One segment: what is known of it, and what each method comes to."""

    form: ClassVar[str] = "plan"
    title: str
    seam: str
    number: int
    """Counted from 1."""
    facts: tuple[PlanFact, ...]
    methods: tuple[PlannedMethod, ...]
    ask: LengthAsk | None
    """None where nothing depends on the length."""
    anchor: str
