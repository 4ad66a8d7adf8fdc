"""What a device keeps of the people who learn on it, and the file that it is saved in; never part of a job.

Whatever was passed or given is kept with what the records were like at that time, so that a later revision is noticed.
"""

from dataclasses import field
from typing import Annotated, Literal

from pydantic import Field, StringConstraints

from builder.model.records.fields import Id, Name, Plain, Variable, YesNo, record
from builder.model.records.job import JobBook, Moment, Text
from builder.model.reference import ID_PATTERN

RecordName = Annotated[str, StringConstraints(pattern=rf"^[a-z]+(?:-[a-z]+)*:{ID_PATTERN}$", max_length=160)]
"""A record by kind and id, `procedure:id`; the book may not have it any more."""
Seed = Annotated[str, StringConstraints(pattern=r"^[A-Za-z0-9-]+$", max_length=40)]
"""From which a sheet of questions is made again."""
Sort = Literal["order", "broken", "work", "hazard"]


@record
class Stood:
    """What a record was like when something that rests on it was passed or given."""

    fingerprint: Annotated[str, StringConstraints(pattern=r"^[0-9a-f]{12}$")]
    revision: Annotated[int, Field(ge=1, le=100_000)] | None = None
    """Of a procedure."""
    title: Name | None = None
    """For a book that no longer has it."""


@record
class Answered:
    """One question, and how it was answered."""

    id: Annotated[str, StringConstraints(min_length=1, max_length=200)]
    """Names the question within its sheet."""
    sort: Sort | None = None
    ok: YesNo
    given: Plain | None = None
    at: Moment | None = None


@record
class Round:
    """The questions of a lesson, asked once through."""

    seed: Seed
    begun: Moment
    asked: Annotated[int, Field(ge=0, le=1000)]
    """How many questions there were."""
    ended: Moment | None = None
    """When the last one was answered."""
    answers: tuple[Answered, ...] = ()
    against: dict[RecordName, Stood] = field(default_factory=dict)


@record
class Tried:
    """A practical test, once."""

    at: Moment
    passed: YesNo
    seed: Seed | None = None
    given: dict[Variable, Plain] = field(default_factory=dict)
    """What the learner was told, by input."""
    measured: dict[Variable, Plain] = field(default_factory=dict)
    own: dict[Variable, Plain] = field(default_factory=dict)
    """The learner's own figures, by answer."""
    verdict: Plain | None = None
    by: Name | None = None
    """Who measured it."""
    notes: Plain | None = None
    against: dict[RecordName, Stood] = field(default_factory=dict)


@record
class Learnt:
    """What somebody did of one lesson."""

    rounds: tuple[Round, ...] = ()
    """In the order in which they were begun."""
    tests: dict[Id, tuple[Tried, ...]] = field(default_factory=dict)
    """By the key of the practical test."""


@record
class Given:
    """A level of a skill that an assessor gave; without a level one that was taken back."""

    level: Id | None = None
    at: Moment
    by: Name
    notes: Plain | None = None
    against: dict[RecordName, Stood] = field(default_factory=dict)


@record
class Learner:
    """Somebody who learns, with all that they have done."""

    id: Annotated[str, StringConstraints(pattern=r"^[A-Za-z0-9-]+$", max_length=80)] | None = None
    """Made once by the page."""
    name: Name
    path: Id | None = None
    """The path that they follow."""
    lessons: dict[Id, Learnt] = field(default_factory=dict)
    skills: dict[Id, tuple[Given, ...]] = field(default_factory=dict)
    """By skill every level that was given, the last one last."""
    notes: Text | None = None
    made: Moment
    changed: Moment


@record
class TrainingFile:
    """The file in which the page of training saves one person. Keys it does not know are kept."""

    format: Literal["1"]
    """The form of this file. A later Seambook reads every earlier one."""
    book: JobBook
    person: Learner
