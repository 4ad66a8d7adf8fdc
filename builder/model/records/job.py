"""A job: one car's work, with the procedures chosen for it and what was found, ticked off and released on the way.

The same type is the form of the file that the page of jobs saves (`JobFile`); a record of the book holds what stands
there under `job`. A step of a job is named `procedure@side#key`, since one procedure may be done on both sides.
"""

from dataclasses import field
from typing import Annotated, Literal

from pydantic import Field, StringConstraints

from builder.model.records.fields import (
    Id,
    MethodId,
    Name,
    Plain,
    ProcedureId,
    ReadingId,
    SeamId,
    StepId,
    SupplyId,
    VehicleId,
    YesNo,
    record,
)

Moment = Annotated[str, StringConstraints(pattern=r"^[12]\d{3}-[01]\d-[0-3]\dT[0-2]\d:[0-5]\d(?::[0-5]\d)?$")]
"""A day and a time of the shop's own clock, `2026-11-30T08:00`."""
Clock = Annotated[str, StringConstraints(pattern=r"^(?:[01]\d|2[0-3]):[0-5]\d$")]
Text = Annotated[str, StringConstraints(min_length=1, max_length=20000)]
Side = Literal["left", "right"]
Amount = Annotated[float, Field(ge=0, le=10_000_000)]
Reading = Annotated[float, Field(ge=-10_000_000, le=10_000_000)]
Held = Annotated[int, Field(ge=0, le=99)]
Picture = Annotated[
    str, StringConstraints(pattern=r"^data:image/(?:jpeg|png|webp);base64,[A-Za-z0-9+/]+={0,2}$", max_length=4_000_000)
]
"""A photograph as the page keeps it."""


@record
class Chosen:
    """A procedure, and the side of the car it is done on."""

    procedure: ProcedureId
    side: Side | None = None
    """Left out where the car has but one of what it works on."""


@record
class Run:
    """A procedure that the job does, as it was when it was chosen."""

    procedure: ProcedureId
    side: Side | None = None
    """Left out where the car has but one of what it works on."""
    revision: Annotated[int, Field(ge=1, le=100_000)] | None = None
    fingerprint: Annotated[str, StringConstraints(pattern=r"^[0-9a-f]{12}$")] | None = None
    """Of the procedure's record, so that the job tells which words were followed."""
    title: Name | None = None
    """What it was called, for a book that no longer has it."""
    finding: Id | None = None
    """The finding that brought it."""


@record
class Hours:
    """When the shop works."""

    opens: Clock
    closes: Clock
    days: tuple[Annotated[int, Field(ge=1, le=7)], ...]
    """Days of the week, Monday is 1."""


@record
class Climate:
    """What the shop's air is like, on which curing hangs."""

    temperature: Annotated[float, Field(ge=-40, le=60)]
    """In degrees Celsius."""
    humidity: Annotated[float, Field(ge=0, le=100)]
    """In percent."""


@record
class Prices:
    """What is paid, in the shop's own currency."""

    currency: Annotated[str, StringConstraints(min_length=1, max_length=12)] | None = None
    labour: Amount | None = None
    """For an hour."""
    supplies: dict[SupplyId, Amount] = field(default_factory=dict)
    """For a pack."""


@record
class Tick:
    """A step that is done."""

    at: Moment
    by: Name | None = None
    minutes: Annotated[float, Field(ge=0, le=100_000)] | None = None
    """How long it took in truth."""


@record
class Release:
    """A stop that somebody answers for."""

    by: Name
    at: Moment
    reason: Plain | None = None


@record
class Found:
    """A reading as it was taken."""

    found: Reading
    unit: Name
    by: Name | None = None
    at: Moment | None = None
    gauge: Name | None = None
    released: Release | None = None
    """Who lets it stand where it is out of tolerance, and why."""


@record
class Photo:
    """A photograph taken at a step."""

    at: Moment
    by: Name | None = None
    say: Plain | None = None
    data: Picture | None = None


@record
class Coupon:
    """A test piece and what came of it."""

    seam: SeamId
    step: StepId | None = None
    method: MethodId | None = None
    at: Moment | None = None
    by: Name | None = None
    found: Plain | None = None
    verdict: Name | None = None


@record
class Batch:
    """Which lot of a supply went into the car."""

    number: Name
    at: Moment | None = None


@record
class Packs:
    """A supply that a finding needs."""

    supply: SupplyId
    packs: Amount


@record
class Finding:
    """Damage that came to light on the way, which waits for the customer's word."""

    id: Id
    where: Plain
    size: Plain | None = None
    step: StepId | None = None
    """At which it was seen."""
    found: Moment
    by: Name | None = None
    photo: Picture | None = None
    procedures: tuple[Chosen, ...] = ()
    """What it adds to the job."""
    minutes: Annotated[float, Field(ge=0, le=100_000)] | None = None
    supplies: tuple[Packs, ...] = ()
    price: Amount | None = None
    make_safe: YesNo = False
    """Whether it must be made safe at once, whatever the answer."""
    answer: Literal["waiting", "yes", "no"] = "waiting"
    answered: Moment | None = None
    by_whom: Name | None = None
    """Who gave the answer."""


@record
class Heard:
    """An alarm that somebody heard, or a look during a watch."""

    what: Literal["over", "closing", "late", "look", "warm"]
    """The wait was over, its window was about to close or had closed; a look found all cold, or something warm."""
    at: Moment
    by: Name | None = None


@record
class Timer:
    """A time that runs by the clock on the wall: the wait after a step, a watch, or one set by hand."""

    sort: Literal["wait", "watch", "hand"]
    step: StepId | None = None
    """Of one set by hand, the step that it was set at."""
    say: Name | None = None
    """What it is for."""
    begun: Moment
    """With seconds."""
    offset: Annotated[int, Field(ge=-1080, le=1080)] | None = None
    """Minutes by which that clock was ahead of universal time, so that a clock put forward in spring costs no hour."""
    least: Annotated[float, Field(ge=0, le=1_000_000)]
    """Minutes until work may go on."""
    most: Annotated[float, Field(ge=0, le=1_000_000)] | None = None
    """Minutes until the window closes."""
    by: Name | None = None
    heard: tuple[Heard, ...] = ()
    ended: Moment | None = None
    """When it was put away."""
    ended_by: Name | None = None


@record
class Job:
    """One car's work: which procedures on which side, when and by whom, and what was done and found so far."""

    title: Name
    was: tuple[Id, ...] = ()
    id: Annotated[str, StringConstraints(pattern=r"^[A-Za-z0-9-]+$", max_length=60)] | None = None
    """Made once by the page; a record of the book goes by its file's name."""
    number: Name | None = None
    """The shop's own."""
    customer: Name | None = None
    car: Plain | None = None
    """What it is known by: plate, colour."""
    vehicle: VehicleId | None = None
    notes: Text | None = None
    start: Moment
    hours: Hours
    hands: Annotated[int, Field(ge=1, le=4)]
    """Technicians who work on it at the same time."""
    places: dict[Id, Held] = field(default_factory=dict)
    """How many of each place the job may have; one that is left out is as the book's planning says."""
    climate: Climate | None = None
    rust: Id | None = None
    """How rusty the car is, by the words of the book's planning."""
    prices: Prices | None = None
    runs: tuple[Run, ...]
    done: dict[StepId, Tick] = field(default_factory=dict)
    readings: dict[ReadingId, Found] = field(default_factory=dict)
    """By step and measure: `procedure@side#key/name of the measure`."""
    releases: dict[StepId, Release] = field(default_factory=dict)
    notes_by_step: dict[StepId, Text] = field(default_factory=dict)
    photos: dict[StepId, tuple[Photo, ...]] = field(default_factory=dict)
    coupons: tuple[Coupon, ...] = ()
    batches: dict[SupplyId, tuple[Batch, ...]] = field(default_factory=dict)
    findings: tuple[Finding, ...] = ()
    timers: tuple[Timer, ...] = ()
    """In the order in which they were begun."""
    customer_page: dict[Id, Text] = field(default_factory=dict)
    """What the shop writes itself on the customer's page, by the part of it in the book's planning."""
    alone: YesNo = False
    """Whether it was begun by opening one procedure in the bay, and not in the list of jobs."""
    left_at: dict[Name, StepId] = field(default_factory=dict)
    """By the name of whoever works: the step they were at last."""
    order: tuple[StepId, ...] = ()
    """Steps as they were last planned."""
    made: Moment | None = None
    changed: Moment | None = None


@record
class JobBook:
    """The book that a job was made with."""

    id: Name
    title: Name | None = None
    fingerprint: Name | None = None


@record
class JobFile:
    """A job's file, as the page of jobs saves and opens it. Keys it does not know are kept."""

    format: Literal["1"]
    """The form of this file. A later Seambook reads every earlier one."""
    book: JobBook
    job: Job
