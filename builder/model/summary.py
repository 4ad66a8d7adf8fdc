"""Summaries: the little of each record that linking and checking need, so that whole books fit in memory."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple, Protocol

from builder.model.place import Span
from builder.model.records.shell import Drawn
from builder.model.reference import Mention, Ref
from builder.model.rests import Rest

Path = tuple[str | int, ...]
"""Where in a record: keys and list positions from its top."""
KEY = "[key]"
"""Ends a path where the last key itself is meant, not its value."""
FactValue = float | str | None
"""In base units; a choice's id; or None where it is unknown."""
Facts = Mapping[str, FactValue]


class StepSummary(NamedTuple):
    """What the order of steps is judged by."""

    key: str
    path: Path
    act: str
    subjects: tuple[Ref, ...]
    method: str
    keep: tuple[str, ...]
    """Panels of the seam that stay."""
    exempt: tuple[str, ...]
    """Rules that the author sets aside for this step."""
    reasons: tuple[str, ...] = ()
    """Why, one for each of them."""
    carries: frozenset[str] = frozenset()
    """What the step carries, in the words of `StepPart`."""
    works_out: tuple[str, ...] = ()
    """Calculators among its values."""
    measures: tuple[str, ...] = ()
    """Names of what it measures."""


class StackedSheet(NamedTuple):
    """One sheet of a segment's stack."""

    panel: str
    thickness: float | None
    """In base units; None where it is unknown."""
    strength: str


class Stack(NamedTuple):
    """A segment's sheets, outermost first, and how the factory joined them."""

    sheets: tuple[StackedSheet, ...]
    factory: str
    """The method's id; empty where there was no joint."""


class Issue(NamedTuple):
    """One revision of a procedure."""

    number: int
    date: str
    author: str
    approver: str
    reason: str
    steps: tuple[tuple[str, str], ...] = ()
    """Keys of steps that were changed, each with what was."""


class Summary(NamedTuple):
    """One record in short."""

    ref: Ref
    title: str
    aliases: tuple[str, ...]
    was: tuple[str, ...]
    anchors: tuple[str, ...]
    mentions: tuple[Mention, ...]
    facts: tuple[Facts, ...]
    """Of a seam one for each segment, of other subjects one."""
    relations: Mapping[str, tuple[Ref, ...]]
    """closes, panels, bounds, neighbours, relies_on: refs by name of the relation."""
    steps: tuple[StepSummary, ...]
    handed: bool | None = None
    """Of a panel whether it says so; None of other kinds."""
    only: str = ""
    """Of a panel that a car has on one side alone: which."""
    status: str = ""
    drawn: tuple[Drawn, ...] = ()
    """Of a panel where it is on the drawing of the shell."""
    rests: tuple[Rest, ...] = ()
    """Values, limits and rules with the source that each rests on."""
    stacks: tuple[Stack, ...] = ()
    """Of a seam one for each segment."""
    passes_on: tuple[str, ...] = ()
    """Of a procedure the rules by which it leaves something owed for those that rely on it."""
    passed_because: tuple[str, ...] = ()
    """Why, one for each of them."""
    stage: str = ""
    """Of a procedure where in the whole job it stands; empty where it does not say."""
    issues: tuple[Issue, ...] = ()
    """Of a procedure its revisions, newest first."""
    read_through: str = ""
    """Of a lesson the day on which its author last held it against what it names; empty where it says none."""


class Locate(Protocol):
    """Reads a record's file again to find the place of one of its fields."""

    def __call__(self, ref: Ref, path: Path, start: int | None = None, end: int | None = None) -> Span:
        """Return the field's place, narrowed to characters of its text where they stand one to one."""


PlacesOf = Callable[[Ref, Mention], tuple[Span, ...]]
"""Reads a record's file again to find every place where it makes this mention."""
