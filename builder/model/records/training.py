"""What a layer says of training (`training.yaml`): levels of a skill, how many questions are asked, what passes."""

from typing import Annotated

from pydantic import Field

from builder.model.records.fields import Id, Line, Name, SourceId, record

Asked = Annotated[int, Field(ge=0, le=20)]
Percent = Annotated[float, Field(gt=0, le=100)]


@record
class SkillLevel:
    """How far somebody has come with a skill."""

    say: Name
    means: Line
    """What an assessor has seen before they give it."""


@record
class Asks:
    """How many questions of each sort a lesson asks, if its procedures and calculators give so many."""

    order: Asked
    """Put steps in order."""
    broken: Asked
    """Find the step that goes wrong, or before which one is missing."""
    work: Asked
    """Work something out."""
    hazard: Asked
    """Name the danger of a step, or what protects from it."""


@record
class Breakdown:
    """The heads of a job breakdown sheet."""

    step: Name
    key_point: Name
    reason: Name
    about: Line
    """How the sheet is used; stands above it."""


@record
class Trainer:
    """What the trainer's sheet says."""

    before: tuple[Line, ...]
    """What is made ready before a learner comes."""
    give: tuple[Line, ...]
    """What is seen to before a level is given."""


@record
class Training:
    """How new people are taught; of several layers the last that has the file wins."""

    levels: dict[Id, SkillLevel]
    """From the least to the most."""
    questions: Asks
    pass_: Percent
    """The share of right answers, in percent, with which a lesson's questions are passed."""
    breakdown: Breakdown
    trainer: Trainer
    because: Line
    """Why these levels and this share."""
    source: SourceId
