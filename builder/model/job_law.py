"""What the law says to the steps of one procedure, in a form that a job can put together with other procedures."""

from __future__ import annotations

from typing import NamedTuple

from builder.model.reference import Side

Places = tuple[int, ...]
"""States of subjects, by their place in `ProcedureLaw.states`."""


class Whose(NamedTuple):
    """A state or an act, and whose it is."""

    name: str
    """The state or act."""
    subject: str
    """As records write it, without its side: `seam:` and its id, `body`; empty where it is on whoever it may be."""
    side: Side | None
    """Of what a car has one of on each side: this side or the other one, seen from the procedure."""


class Asked(NamedTuple):
    """One rule about one state."""

    rule: str
    state: int
    excuse: Places
    """While all of these hold, the rule does not bind."""


class Ordered(NamedTuple):
    """One rule by which other acts come before a step."""

    rule: str
    acts: tuple[int, ...]
    """By their place in `ProcedureLaw.acts`: none of them may be done after the step."""
    excuse: Places


class Anywhere(NamedTuple):
    """One rule that forbids a state of whoever has it, or of whoever has it on the other side."""

    rule: str
    subject: str
    side: Side | None
    excuse: Places


class StepLaw(NamedTuple):
    """What the law says to one step."""

    acts: tuple[int, ...]
    """What it does, on whoever it may be and on each subject, by place in `ProcedureLaw.acts`."""
    needs: tuple[Asked, ...]
    bans: tuple[Asked, ...]
    owes: tuple[Asked, ...]
    orders: tuple[Ordered, ...]
    anywhere: tuple[Anywhere, ...]
    spoils: Places
    wipes: tuple[str, ...]
    """States that are spoiled for whoever has them."""
    makes: Places


class ProcedureLaw(NamedTuple):
    """What the law says to all steps of a procedure."""

    states: tuple[Whose, ...]
    acts: tuple[Whose, ...]
    steps: tuple[StepLaw, ...]
    """One for each step, in order."""
    brought: Places
    """What holds before the first step, left behind by the procedures this one relies on."""


class AnyonesRule(NamedTuple):
    """A rule that forbids a state of whoever has it."""

    state: str
    is_other_side: bool
    """Whether it speaks of the other side of the car alone."""
    owners: tuple[str, ...] | None
    """Who is meant; None where it is everybody."""
