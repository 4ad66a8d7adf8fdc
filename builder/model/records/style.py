"""What a layer says of how its procedures are written (`house-style.yaml`): what the lint of the house objects to."""

from builder.model.records.fields import ActId, HazardId, Many, Plain, Stated, record


@record
class Hedge:
    """Words that leave open what is to be done."""

    say: Many[Plain]
    do: Plain
    """What is written in their place."""


@record
class Verb:
    """An imperative, and the acts of which a step so told may be."""

    say: Many[Plain]
    acts: Many[ActId]


@record
class Danger:
    """A hazard that begins with some acts, so that the first step of these names it."""

    acts: Many[ActId]
    hazard: Many[HazardId]
    """One of these."""


@record
class Measured:
    """Acts after which a procedure must have measured."""

    acts: Many[ActId]
    because: Plain


@record
class HouseStyle:
    """The style of the house; of several layers the last that has the file wins."""

    hedges: Stated[Hedge] = ()
    verbs: Stated[Verb] = ()
    objects: Stated[Plain] = ()
    """Words that what is acted on begins with: the verb stands before one, a noun that looks like it does not."""
    listed: Stated[Plain] = ()
    """Kinds of records that a step lists where its words name one: tool, supply."""
    takes_away: Stated[ActId] = ()
    """Acts that remove what they name, so that a supply in their words is none that they use."""
    dangers: Stated[Danger] = ()
    measured: Measured | None = None
    used: Stated[Plain] = ()
    """Kinds of records that somebody must refer to: tool, supply."""
