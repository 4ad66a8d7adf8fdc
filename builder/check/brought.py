"""What a procedure brings along for those that rely on it: the states it leaves, and what it leaves owed."""

from __future__ import annotations

from typing import NamedTuple

from builder.check.numbers import Held

Debt = tuple[str, Held]
"""A rule, and the state that is owed by it."""


class Brought(NamedTuple):
    """What holds and what is owed before the first step."""

    held: tuple[Held, ...] = ()
    debts: tuple[Debt, ...] = ()


NOTHING = Brought()
