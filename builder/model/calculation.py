"""What a calculator's page holds beside its form: how far it may be trusted, its formulas, and the slip for paper."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, NamedTuple

from builder.model.html import Html
from builder.model.said import Said


@dataclass(frozen=True, slots=True)
class Notice:
    """A line that is read before all else on the page."""

    form: ClassVar[str] = "notice"
    title: str
    html: Html
    anchor: str = ""


class DecisionRow(NamedTuple):
    """One row of a decision."""

    condition: Html
    """As mathematics; of the last row nothing."""
    text: str
    """The condition as the record writes it."""
    say: Html
    because: Html
    won: bool = False
    """It gives the answer for the values in hand."""


class Formula(NamedTuple):
    """One formula or decision, with its value."""

    name: str
    readable: str
    say: str
    """What it is called among the answers; empty where it is none, or is called the same."""
    math: Html
    """Of a formula; of a decision nothing."""
    text: str
    """The formula as the record writes it."""
    value: Html
    """For the values the page begins with; of a decision that has an answer nothing, since the row says it."""
    sign: Said
    """What stands behind the value's number."""
    why: str = ""
    """Why there is no answer."""
    rows: tuple[DecisionRow, ...] = ()


@dataclass(frozen=True, slots=True)
class Formulas:
    """The way to the answers: each formula uses only what stands above it."""

    form: ClassVar[str] = "formulas"
    title: str
    formulas: tuple[Formula, ...]
    anchor: str = ""


@dataclass(frozen=True, slots=True)
class Slip:
    """What paper adds to the form, its answers and its limits, so that one sheet can go with the car."""

    form: ClassVar[str] = "slip"
    title: str
    sources: tuple[str, ...]
    book: str
    fingerprint: str
    anchor: str = ""
    address: str = ""


WayThere = Notice | Formulas | Slip
"""The blocks of this module."""
