"""A procedure: phases of steps under revision control."""

from dataclasses import field
from datetime import date
from typing import Annotated, Literal

from pydantic import AfterValidator, StringConstraints
from pydantic_core import PydanticCustomError

from builder.model.records.fields import (
    ActId,
    AnyQuantity,
    Count,
    Duration,
    FigureId,
    HazardId,
    Id,
    Line,
    Many,
    MethodId,
    Minutes,
    Name,
    PanelId,
    ProcedureId,
    Prose,
    RuleId,
    SourceId,
    Stated,
    Subject,
    SupplyId,
    Temperature,
    ToolId,
    Word,
    YesNo,
    record,
)
from builder.model.records.working import Working


def _day(text: str) -> str:
    try:
        date.fromisoformat(text)
    except ValueError:
        raise PydanticCustomError("no_day", "this day is in no calendar") from None
    return text


IsoDate = Annotated[str, StringConstraints(pattern=r"^[12]\d{3}-\d{2}-\d{2}$"), AfterValidator(_day)]


@record
class Wait:
    """Time that must pass after a step: at least, at most, at which temperature, for what."""

    least: Duration
    most: Duration | None = None
    at: Temperature | None = None
    for_: Name
    attended: YesNo


@record
class Measure:
    """A reading taken and recorded as built."""

    name: Name
    unit: Name
    low: AnyQuantity | None = None
    high: AnyQuantity | None = None
    source: SourceId


@record
class Point:
    """A stop: at a hold work waits until it is released; a witness is called and work may go on."""

    sort: Literal["hold", "witness"]
    releases: Name
    """The role that releases it."""
    proof: Line
    """What must be seen, measured or photographed for it."""


@record
class Exemption:
    """A rule not kept in this step, and why that is right here."""

    rule: RuleId
    because: Line


@record
class Choice:
    """One branch where the car decides."""

    if_: Line
    do: Line


@record
class Spread:
    """How long a step may take: if all goes well, and if it turns out bad."""

    low: Minutes
    high: Minutes


@record
class Step:
    """One act, written as it is read in the bay."""

    key: Id
    """Permanent: links, job files and revisions hang on it."""
    act: ActId
    on: Many[Subject]
    keep: Many[PanelId] = ()
    """Sheets of the seam that stay."""
    face: Literal["outer", "inner"] | None = None
    """Where tools reach one face of a seam only: that of the sheet the seam lists first (outer) or last (inner)."""
    method: MethodId | None = None
    do: Line
    key_point: Line | None = None
    why: Line | None = None
    expect: Line | None = None
    supplies: Stated[SupplyId] = ()
    tools: Stated[ToolId] = ()
    hazards: Stated[HazardId] = ()
    minutes: Minutes | None = None
    spread: Spread | None = None
    """Minutes at least and at most; where it is absent they follow from the act, by `planning.yaml`."""
    split: YesNo = False
    """Hands-on work that may be left at closing and taken up again, with the car safe and nothing drying meanwhile."""
    hands: Count = 1
    wait: Wait | None = None
    measure: tuple[Measure, ...] = ()
    point: Point | None = None
    values: tuple[Working, ...] = ()
    choices: tuple[Choice, ...] = ()
    figure: Many[FigureId] = ()
    """What it looks like: pictures shown with the step."""
    photo: Line | None = None
    """What a photograph must show before the next step."""
    shared: YesNo = False
    """Done once a job, however many procedures ask for it."""
    needs_place: Name | None = None
    """Where it is done, where that is not the place of its act: a place of `planning.yaml`."""
    makes_holes: YesNo = False
    except_: tuple[Exemption, ...] = ()


@record
class Phase:
    """Steps that belong together."""

    title: Name
    steps: tuple[Step, ...]


@record
class Earlier:
    """A revision that was followed before, and who stood behind it."""

    number: Count
    date: IsoDate
    author: Name
    approver: Name
    reason: Line
    steps: dict[Id, Line] = field(default_factory=dict)
    """What was changed in which step, by its key; a step may have gone since."""


@record
class Revision:
    """Which issue of the procedure this is, and who stands behind it."""

    number: Count
    date: IsoDate
    author: Name
    approver: Name
    """Another person; `solo` where the shop has one; `none` while nobody has approved what is not issued."""
    reason: Line
    steps: dict[Id, Line] = field(default_factory=dict)
    """What was changed in which step, by its key: whoever followed the revision before is shown it there."""
    earlier: tuple[Earlier, ...] = ()
    """The revisions before this one, newest first."""


@record
class Person:
    """Hands needed."""

    who: Name
    count: Count


@record
class Part:
    """A part to have ready."""

    name: Name
    comes_from: Literal["maker", "reproduction", "donor", "fabricated"]
    only: Literal["left", "right"] | None = None
    """The side for whose work alone it is wanted."""
    note: Line | None = None


@record
class Needs:
    """What must be there before the first step."""

    conditions: Stated[Line]
    people: Stated[Person]
    tools: Stated[ToolId]
    supplies: Stated[SupplyId]
    parts: Stated[Part]


@record
class Procedure:
    """How one piece of work is done in this shop."""

    title: Name
    was: tuple[Id, ...] = ()
    purpose: Prose
    limits: Stated[Line]
    """When not to use it."""
    stage: Annotated[Id, Word("stage")] | None = None
    """Where in the whole job it stands; lists are grouped by it."""
    status: Literal["draft", "checked", "proven", "issued", "withdrawn"]
    replaced_by: ProcedureId | None = None
    """What to work from in place of a withdrawn procedure."""
    revision: Revision
    applies_to: Stated[Line]
    panels: tuple[PanelId, ...]
    """What it works on; written for this side."""
    relies_on: Many[ProcedureId] = ()
    passes_on: tuple[Exemption, ...] = ()
    """What this procedure leaves owed by a rule, for the procedure that relies on it to settle, and why."""
    needs: Needs
    hazards: Stated[HazardId]
    """Dangers of the whole job, beside those of its steps."""
    phases: tuple[Phase, ...]
    close_out: Stated[Line]
    sources: Stated[SourceId]
