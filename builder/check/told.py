"""What the law says to all steps of a kind on subjects of a kind: the states it is about, and whose, yet unnumbered."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from builder.model.records.law import Rule
from builder.model.reference import Ref

Near = tuple[str, tuple[int, ...], Ref]
"""Whose state is meant: its kind, the numbers of its states, and it."""


class Aim(NamedTuple):
    """States, and whose they are, seen from a step's subject."""

    of: str
    where: str | None
    places: Mapping[str, tuple[int, ...]]
    """By the kind of whoever is meant: those states that it can have, by their place among all states."""


class Told(NamedTuple):
    """One rule that speaks of such a step."""

    rule_id: str
    rule: Rule
    aims: tuple[Aim, ...]
    """The state it is about; of an order, of what is asked and of what holds anywhere none."""
    excuse: tuple[Aim, ...]


class Spoken(NamedTuple):
    """All that the law says to such a step on such a subject."""

    needs: tuple[Told, ...]
    forbids: tuple[Told, ...]
    wide: tuple[Told, ...]
    owes: tuple[Told, ...]
    orders: tuple[Told, ...]
    asks: tuple[Told, ...]
    needed: tuple[Aim, ...]
    """The states of all `needs` together."""
    banned: tuple[Aim, ...]
    """The states of all `forbids` together."""
    spoils: tuple[Aim, ...]
    spoils_any: tuple[str, ...]
    """States that are spoiled for whoever has them."""
    makes: tuple[Aim, ...]
