"""What the law says to one step: states by their number, so that walking a procedure compares numbers, not names."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from builder.model.records.law import Rule
from builder.model.reference import Ref


class Asking(NamedTuple):
    """One rule about one state at a step: the state must hold, must not hold, or is owed."""

    rule_id: str
    rule: Rule
    held: int
    excuse: Sequence[int]
    """While all of these hold, the rule does not bind."""


class Wide(NamedTuple):
    """A rule that forbids a state of whoever has it."""

    rule_id: str
    rule: Rule
    subject: Ref
    excuse: Sequence[int]


class Order(NamedTuple):
    """A rule by which other acts come before this step."""

    rule_id: str
    rule: Rule
    subject: Ref
    tags: tuple[int, ...]
    """Acts on subjects that may not come later."""
    excuse: Sequence[int]


class Lack(NamedTuple):
    """A rule asks for what the step does not carry."""

    rule_id: str
    rule: Rule
    subject: Ref
    parts: tuple[str, ...]
    """Any of which would do; the first is told."""
    excuse: Sequence[int]


class Piece(NamedTuple):
    """All that the law says to a step on one of its subjects; of numbers none comes twice."""

    tag: int
    """The act on this subject."""
    needed: tuple[int, ...]
    banned: tuple[int, ...]
    wide: tuple[Wide, ...]
    owes: tuple[Asking, ...]
    orders: tuple[Order, ...]
    lacks: tuple[Lack, ...]
    spoils: tuple[int, ...]
    spoils_any: tuple[str, ...]
    makes: tuple[int, ...]


@dataclass(slots=True)
class Bound:
    """All that the law says to one step, its pieces put together.

    A walk through a large book waits for memory, so these are tuples, of numbers that all of the law share: sets take
    ten times as much, and most of them would be empty.
    """

    tags: tuple[int, ...]
    """The act on whoever it may be, then on each subject."""
    carries: frozenset[str]
    exempt: frozenset[str]
    """Rules of the book that the step sets aside."""
    owing: frozenset[str]
    """Of these, those by which it would owe something: to set them aside is never needless."""
    is_strange: bool
    """Whether something about it may be wrong by itself."""
    needed: tuple[int, ...]
    """While all of these states hold, no rule that needs one is broken."""
    banned: tuple[int, ...]
    """While none of these states holds, no rule that forbids one of them is broken."""
    wide: tuple[Wide, ...]
    owes: tuple[Asking, ...]
    orders: tuple[Order, ...]
    lacks: tuple[Lack, ...]
    spoils: tuple[int, ...]
    spoils_any: tuple[str, ...]
    """States that are spoiled for whoever has them."""
    makes: tuple[int, ...]
