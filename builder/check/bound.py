"""What the law says to one step: states by their number, so that walking a procedure compares numbers, not names."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
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
    tags: set[int]
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
    """All that the law says to a step on one of its subjects."""

    tag: int
    """The act on this subject."""
    needed: list[int]
    banned: list[int]
    wide: list[Wide]
    owes: list[Asking]
    orders: list[Order]
    lacks: list[Lack]
    spoils: list[int]
    spoils_any: tuple[str, ...]
    makes: list[int]


@dataclass(slots=True)
class Bound:
    """All that the law says to one step, its pieces put together; not changed once it is whole."""

    tags: list[int]
    """The act on whoever it may be, then on each subject."""
    carries: frozenset[str]
    exempt: frozenset[str]
    """Rules of the book that the step sets aside."""
    owing: frozenset[str]
    """Of these, those by which it would owe something: to set them aside is never needless."""
    is_strange: bool
    """Whether something about it may be wrong by itself."""
    needed: set[int] = field(default_factory=set)
    """While all of these states hold, no rule that needs one is broken."""
    banned: set[int] = field(default_factory=set)
    """While none of these states holds, no rule that forbids one of them is broken."""
    wide: list[Wide] = field(default_factory=list)
    owes: list[Asking] = field(default_factory=list)
    orders: list[Order] = field(default_factory=list)
    lacks: list[Lack] = field(default_factory=list)
    spoils: set[int] = field(default_factory=set)
    spoils_any: set[str] = field(default_factory=set)
    """States that are spoiled for whoever has them."""
    makes: list[int] = field(default_factory=list)
