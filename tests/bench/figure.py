"""A figure of the bench."""

from __future__ import annotations

from typing import NamedTuple


class Figure(NamedTuple):
    """One line of the table."""

    name: str
    value: float
    unit: str
    bound: float | None = None
    """What it may be at most; None where it only explains another."""
    floor: float | None = None
    """The floor's seconds, where it is a time."""
