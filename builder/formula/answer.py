"""Answers: what a calculator gives back - inputs as taken, outputs in their units, warnings judged."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from builder.formula.fault import Fault
from builder.formula.no_answer import Value


class Taken(NamedTuple):
    """An input as the calculator took it."""

    value: float | str | None
    """In the unit asked for, or the id of a choice; None where what was given had no answer itself."""
    unit: str
    """Empty for a bare number or a choice."""
    is_default: bool = False


class Result(NamedTuple):
    """One output."""

    value: float | str | None
    """In its unit, unrounded; the id of a choice or decision; None where there is no answer."""
    unit: str
    text: str
    """As shown, without the unit: rounded to its digits, or what a decision says; empty where there is no answer."""
    why: str | None = None
    """Why there is no answer: `outside the table: thickness 5 mm, the table ends at 3 mm`."""
    because: str | None = None
    """A decision's reason."""


class Judged(NamedTuple):
    """One warning of the record, judged."""

    level: str
    say: str
    holds: bool | None
    """None where its condition has no answer: the warning cannot be judged."""
    why: str | None = None
    """Why it cannot be judged."""


@dataclass(frozen=True, slots=True)
class Answer:
    """What a calculator answers; where there are faults, nothing was worked out."""

    inputs: Mapping[str, Taken]
    outputs: Mapping[str, Result]
    warnings: tuple[Judged, ...]
    values: Mapping[str, Value] = field(default_factory=dict)
    """Every input, constant and formula by name, in base units, for showing the way to the answer."""
    faults: tuple[Fault, ...] = ()
    rows: Mapping[str, int] = field(default_factory=dict)
    """By the name of each decision that has an answer, which of its rows gave it, counted from 0."""
