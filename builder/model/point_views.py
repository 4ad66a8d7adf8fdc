"""What a page shows of a calculator that works on points: the table to fill in, and what comes of every point."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, NamedTuple

from builder.model.html import Html
from builder.model.said import Said


class PointHeads(NamedTuple):
    """What the parts of a point are called."""

    name: str
    stated: str
    measured: str
    sound: str
    axes: tuple[str, ...]
    columns: tuple[str, ...]
    """As the table is written as text."""


class EnteredPoint(NamedTuple):
    """One point to be filled in, with what it starts with."""

    number: int
    name: str
    stated: tuple[Said, ...]
    measured: tuple[Said, ...]
    sound: bool


@dataclass(frozen=True, slots=True)
class PointEntry:
    """The table of points, to be typed in, pasted or loaded."""

    form: ClassVar[str] = "points"
    title: str
    heads: PointHeads
    unit: Said
    points: tuple[EnteredPoint, ...]
    anchor: str = ""


class PointResult(NamedTuple):
    """One point with its deviation."""

    name: str
    sound: bool
    off: tuple[Said, ...]
    length: Said
    verdict: Html
    level: str
    """within, beyond or doubtful: the style sheet's handle, beside the words."""


@dataclass(frozen=True, slots=True)
class PointResults:
    """What comes of every point, and the place where it is drawn."""

    form: ClassVar[str] = "deviations"
    title: str
    heads: PointHeads
    unit: Said
    points: tuple[PointResult, ...]
    anchor: str = ""
