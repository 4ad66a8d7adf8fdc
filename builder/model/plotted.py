"""What a calculator's page holds beside its form: units to choose from, and what is drawn of its answers."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, NamedTuple

from builder.model.plots import Plot


class UnitOption(NamedTuple):
    """A unit that a number may be given or shown in."""

    name: str
    """As records write it."""
    sign: str
    chosen: bool
    limits: str = ""
    """Range admitted, in words, where it is asked for."""


@dataclass(frozen=True, slots=True)
class Plotted:
    """A chart or a sketch of a calculator's answers, redrawn by its script; with the same in words and numbers."""

    form: ClassVar[str] = "plot"
    title: str
    plot: Plot
    words: str
    """The text equivalent, in the units shown first."""
    notes: tuple[str, ...]
    """What the drawing cannot show."""
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    anchor: str
