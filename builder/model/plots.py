"""What is drawn of a calculator's answers, as data: numbers come from its formulas, lines are drawn by `render`."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple


class Sample(NamedTuple):
    """One input's value with what comes out for it, in base units."""

    x: float
    ys: tuple[float | None, ...]
    """Of each answer drawn; None where there is none."""


class Series(NamedTuple):
    """Answers over one input, the others held."""

    samples: tuple[Sample, ...]
    rows: tuple[Sample, ...]
    """A few at round values of the input, to be read as a table."""
    stepped: bool
    """The input counts: each whole number has its own answer, and nothing lies between two."""
    here: Sample | None
    """The input as it is given; None where that lies outside what is drawn."""
    given: float
    """The input as it is given."""
    limit: float | None
    """What must not be passed, where the chart has such a line and it has an answer."""
    why: tuple[str, ...]
    """Why an answer is missing, of each answer drawn; empty where none is."""


class Measure(NamedTuple):
    """One measure of a sketch."""

    name: str
    """The question, or what the answer is called."""
    value: float | None
    """In base units; None where it is not told."""
    text: str
    """With its unit, as it is shown; or why there is none."""


class Said(NamedTuple):
    """How a measure is said."""

    unit: str
    """Empty for a bare number."""
    digits: int | None
    """Decimal places; None where it is said in the figures it was given in."""


class Measured(NamedTuple):
    """What a sketch is drawn from."""

    values: Mapping[str, float | None]
    """By measure of the form, in base units."""
    why: Mapping[str, str]
    """Why a value is missing."""
    said: Mapping[str, Said]
    """The unit each is said in, and with how many decimal places."""
    order: str = ""
    """In which order marks are made, as it is shown."""


class Trace(NamedTuple):
    """One line of a chart, in the units shown."""

    label: str
    points: tuple[tuple[float, float | None], ...]
    here: float | None
    """Its value at the input as it is given."""
    value: str
    """The same in words; empty where there is none."""


class Limit(NamedTuple):
    """A line across a chart that must not be passed."""

    label: str
    y: float
    value: str


class Chart(NamedTuple):
    """Lines over one input, in the units shown."""

    id: str
    foot: str
    """What runs along the foot, with its unit."""
    unit: str
    """Sign of the unit upwards; may be empty."""
    start: float
    end: float
    traces: tuple[Trace, ...]
    stepped: bool = False
    limit: Limit | None = None
    here: float | None = None
    here_said: str = ""


class Sketch(NamedTuple):
    """One thing drawn to scale with its measures."""

    id: str
    form: str
    measures: Mapping[str, Measure]
    """By measure of the form; those that the record gives."""
    turns: tuple[int, ...] = ()
    """When each mark has its turn, from the first mark on; 0 where it is not told."""


Plot = Chart | Sketch
