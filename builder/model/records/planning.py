"""What a layer says of how jobs are planned (`planning.yaml`): places, hours, what may not go on at once, spreads."""

from typing import Annotated, Literal

from pydantic import Field, StringConstraints

from builder.model.records.fields import (
    ActId,
    AnyQuantity,
    CalculatorId,
    Count,
    Duration,
    Id,
    Line,
    Name,
    SourceId,
    Stated,
    Temperature,
    Variable,
    Word,
    YesNo,
    record,
)

Factor = Annotated[float, Field(ge=0.1, le=20)]
"""How many times as long."""
TimeOfDay = Annotated[str, StringConstraints(pattern=r"^(?:[01]\d|2[0-3]):[0-5]\d$")]
"""Hours and minutes, 24 hours to the day: `08:00`."""
Weekday = Annotated[int, Field(ge=1, le=7)]
"""1 is Monday."""


@record
class WorkPlace:
    """A place or a machine that only so many steps hold at a time."""

    say: Name
    """Its name; a step's `needs_place` gives this or the id."""
    count: Count = 1
    """How many of them the shop has, until a job says otherwise."""
    means: Line | None = None
    """What counts as it, and what does not."""


@record
class Trait:
    """Something that goes on while a step is done, and that keeps other steps away."""

    say: Name
    because: Line | None = None
    of: Literal["heat", "vapour"] | None = None
    """Every act whose own record says so."""
    acts: tuple[ActId, ...] = ()
    """These acts as well."""
    through_wait: YesNo = False
    """It goes on while the wait after the step runs: vapour until the coat has flashed."""
    lingers: Annotated[float, Field(ge=0, le=10_000)] = 0
    """Minutes that it goes on after that."""
    source: SourceId


@record
class Clash:
    """Two traits that never go on at once in or beside one car."""

    between: tuple[Id, Id]
    because: Line
    source: SourceId


@record
class Spread:
    """How far the time of some acts' steps may turn out from the minutes that are written down."""

    acts: tuple[ActId, ...]
    low: Factor
    high: Factor
    because: Line
    source: SourceId


@record
class UsualSpread:
    """The same for every act that no row names."""

    low: Factor
    high: Factor
    source: SourceId


@record
class Rust:
    """How rusty a car is, and how many times as long that makes the steps that rust slows."""

    say: Name
    means: Line | None = None
    low: Factor
    likely: Factor
    high: Factor
    source: SourceId


@record
class LoneHand:
    """A step for two that one does alone, where nobody else is there."""

    factor: Factor
    never: tuple[ActId, ...] = ()
    """These wait for the second person."""
    because: Line
    source: SourceId


@record
class Curing:
    """By which calculators a wait is worked out at another temperature than it is written down for."""

    acts: tuple[ActId, ...]
    """Whose waits follow it; the waits of all others stay as written."""
    cure: CalculatorId
    """Asked for a wait that has no most."""
    cure_answer: Variable
    window: CalculatorId
    """Asked for a wait that has a most."""
    window_least: Variable
    window_most: Variable
    sheet_temperature: Temperature
    """Where the wait names none."""
    least_temperature: Temperature
    """Below it nothing cures."""
    factor: Factor
    because: Line
    cold: Line
    """What to do where the shop is colder than that."""
    source: SourceId


@record
class Watching:
    """What is told in the bay while a wait, a window or a watch runs."""

    every: Duration
    """How often whoever keeps a watch is asked to look."""
    look: Line
    """What they do then."""
    cold: Name
    """The answer after which the watch goes on, and by which it ends once its time is over."""
    warm: Name
    """The answer after which the watch begins again from its start."""
    warm_do: Line
    """What to do when that is the answer."""
    warn: Duration
    """So long before a window closes it is told."""
    late: Line
    """What to do when it has closed."""
    because: Line
    source: SourceId


@record
class Turns:
    """Stages of a job that come before all others, and after them; for the rest the law alone decides."""

    first: tuple[Annotated[Id, Word("stage")], ...] = ()
    last: tuple[Annotated[Id, Word("stage")], ...] = ()
    because: Line
    source: SourceId


@record
class WithTheLast:
    """Acts that are done once a job, with the last procedure that comes to them; the others go on meanwhile."""

    acts: tuple[ActId, ...] = ()
    because: Line
    source: SourceId


@record
class Hours:
    """When the shop is open, until a job says otherwise."""

    opens: TimeOfDay
    closes: TimeOfDay
    days: tuple[Weekday, ...]
    source: SourceId


@record
class Climate:
    """The shop's air, until a job says otherwise."""

    temperature: Temperature
    humidity: AnyQuantity
    source: SourceId


@record
class Hands:
    """How many work on a car, until a job says otherwise."""

    usual: Count
    most: Count
    source: SourceId


@record
class LookAgain:
    """When something on the repaired car is to be looked at again."""

    after: Name
    """From the day it left, in words: `6 months`."""
    look: Line
    source: SourceId


@record
class CustomerPart:
    """A part of the page for the customer."""

    say: Name
    """Its heading."""
    means: Line
    """What stands below it."""
    of: Literal["steps", "measures", "batches", "findings", "looks", "words"]
    """Where its list comes from: steps that are done, or another part of the job's record."""
    acts: tuple[ActId, ...] = ()
    """Of steps: which acts' steps it lists, by what they were done on."""
    nothing: Line | None = None
    """What it says where the list is empty; without it the part is left out."""
    ask: Name | None = None
    """What the shop may write there itself, as a question to whoever fills it in."""


@record
class CustomerPage:
    """What the customer reads of a job."""

    opening: Line
    parts: dict[Id, CustomerPart]
    looks: tuple[LookAgain, ...]
    closing: Line


@record
class Planning:
    """How jobs are planned; of several layers the last that has the file wins."""

    places: dict[Id, WorkPlace]
    place_of: dict[Id, Id]
    """The place of each act that needs one; a step's own `needs_place` comes before it."""
    place_of_tool: dict[Id, Id]
    """The place of each step that uses one of these tools; it comes before the act's."""
    traits: dict[Id, Trait]
    clashes: Stated[Clash]
    watch: Stated[ActId]
    """Steps during which, and during whose wait, somebody has no other duty, and which end before closing."""
    usual_spread: UsualSpread
    spread: Stated[Spread]
    rust: dict[Id, Rust]
    """From none to worst."""
    rusty: Stated[ActId]
    """Acts that rust slows."""
    lone_hand: LoneHand
    curing: Curing
    watching: Watching | None = None
    """Without it waits are timed all the same, and a watch asks for nothing until it is over."""
    stages: Turns | None = None
    with_the_last: WithTheLast | None = None
    hours: Hours
    hands: Hands
    climate: Climate
    customer: CustomerPage | None = None
