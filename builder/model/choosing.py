"""What a page shows of a decision: the answer, or those that remain in their order with what each hangs on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, NamedTuple

from builder.model.html import Html
from builder.model.labelled import Caution, Link, Row


class WayView(NamedTuple):
    """One answer."""

    hangs_on: tuple[Html, ...]
    """All of it must be so; empty where nothing is asked any more."""
    say: Html
    because: Html
    then: tuple[WayView, ...] = ()


class CaseView(NamedTuple):
    """One or more places for which the same remains."""

    where: str
    """Empty where the page or the step has only one place."""
    ways: tuple[WayView, ...]
    """One alone is the answer."""
    asks: tuple[str, ...]
    """The questions that decide between several."""
    then: tuple[WayView, ...]
    """What follows from every answer alike."""
    cautions: tuple[Caution, ...]
    """Those that hold."""
    doubts: tuple[Caution, ...]
    """Those that hold where what they hang on is so."""
    known: tuple[Row, ...]
    links: tuple[Link, ...]
    """To the calculator with what is known filled in, one for each place."""


@dataclass(frozen=True, slots=True)
class Choosing:
    """A decision for one record or step."""

    form: ClassVar[str] = "choosing"
    title: str
    href: str
    """To the decision's own page."""
    cases: tuple[CaseView, ...]
    outranks: Html
    source: Link
    anchor: str = ""
    is_folded: bool = False
    """Whether answers that remain are folded in, however few."""
