"""What the law says to one step: states by their number, so that walking a procedure compares numbers, not names."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from builder.model.records.law import Rule
from builder.model.reference import Ref


class Asking(NamedTuple):
    """One rule about one state at a step: the state must hold, must not hold, or is owed."""

    rule_id: str
    rule: Rule
    held: int
    excuse: tuple[int, ...]
    """While one of these holds, the rule does not bind."""


class Wide(NamedTuple):
    """A rule that forbids a state of whoever has it."""

    rule_id: str
    rule: Rule
    subject: Ref
    state: str
    of: str
    excuse: tuple[int, ...]


class Order(NamedTuple):
    """A rule by which other acts come before this step."""

    rule_id: str
    rule: Rule
    subject: Ref
    tags: tuple[int, ...]
    """Acts on subjects that may not come later."""
    excuse: tuple[int, ...]


class Lack(NamedTuple):
    """A rule asks for what the step does not carry."""

    rule_id: str
    rule: Rule
    subject: Ref
    part: str
    excuse: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Bound:
    """All that the law says to one step."""

    needs: tuple[Asking, ...]
    forbids: tuple[Asking, ...]
    wide: tuple[Wide, ...]
    owes: tuple[Asking, ...]
    orders: tuple[Order, ...]
    lacks: tuple[Lack, ...]
    spoils: tuple[int, ...]
    spoils_any: tuple[str, ...]
    makes: tuple[int, ...]
    tags: tuple[int, ...]
    carries: frozenset[str]
    exempt: frozenset[str]
    """Rules of the book that the step sets aside."""
    owing: frozenset[str]
    """Of these, those by which it would owe something: to set them aside is never needless."""
