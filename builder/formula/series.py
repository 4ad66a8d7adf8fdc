"""Running over a range: from a chart and the values of one answer its samples, as series.js takes them too."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction

from builder.formula.charted import Charted
from builder.formula.no_answer import NoAnswer, Value
from builder.formula.numbers import exact
from builder.formula.program import Program
from builder.formula.run import rework
from builder.formula.ticks import ticks_within
from builder.model.plots import Sample, Series

CUTS = 40
"""Even samples at first: one more than this."""
MOST_STEPS = 60
"""An input that counts is sampled at every whole number up to here."""
MOST_SAMPLES = 300
HALVINGS = 10
"""How often a gap is halved at most: an edge is then found to a thousandth of a gap."""
FINENESS = 300
"""A line is refined where it bends by more than this part of what all lines span."""
LEAST_ROWS = 5
SLACK = 1e-9
At = Callable[[float], Sample]


def series(program: Program, chart: Charted, values: Mapping[str, Value]) -> Series:
    """Sample the outputs of a chart over its input; `values` are those of an answer."""
    why = [""] * len(chart.show)

    def at(x: float) -> Sample:
        found = rework(program, values, chart.over, x)
        for place, name in enumerate(chart.show):
            lost = found[name]
            if isinstance(lost, NoAnswer) and not why[place]:
                why[place] = lost.why
        return Sample(x, tuple(y if isinstance(y := found[name], float) else None for name in chart.show))

    unit, given = program.questions[chart.over].unit, values[chart.over]
    assert isinstance(given, float)
    whole = program.questions[chart.over].whole
    start, end = unit.from_base(chart.start), unit.from_base(chart.end)
    if not whole:
        even = [chart.start + (chart.end - chart.start) * cut / CUTS for cut in range(CUTS + 1)]
        samples = _refined([at(x) for x in even], at)
    else:
        samples = [at(unit.to_base(Fraction(place))) for place in _whole_places(start, end)]
    rows = tuple(at(unit.to_base(exact(x))) for x in row_places(start, end, whole))
    here = at(given) if chart.start <= given <= chart.end else None
    limit = values[chart.limit] if chart.limit is not None else None
    stepped = whole and end - start <= MOST_STEPS
    known = limit if isinstance(limit, float) else None
    return Series(tuple(samples), rows, stepped, here, given, known, tuple(why))


def row_places(start: float, end: float, whole: bool) -> tuple[float, ...]:
    """Return at which round values, in the unit shown, a chart is said as a table."""
    ticks = ticks_within(start, end, 1)
    for divisions in range(2, 3 * LEAST_ROWS):
        finer = ticks_within(start, end, divisions)
        if len(ticks.values) >= LEAST_ROWS or (whole and finer.power < 0):
            break
        ticks = finer
    return ticks.values


def _whole_places(start: float, end: float) -> list[int]:
    low, high = math.ceil(start - SLACK), math.floor(end + SLACK)
    if high - low <= MOST_STEPS:
        return list(range(low, high + 1))
    return [low + (high - low) * cut // CUTS for cut in range(CUTS + 1)]


def _refined(samples: list[Sample], at: At) -> list[Sample]:
    """Halve gaps where a line bends, jumps, begins or ends."""
    known = [y for sample in samples for y in sample.ys if y is not None]
    low, high = min(known, default=0.0), max(known, default=0.0)
    tolerance = max((high - low) / FINENESS, 1e-12 * max(abs(low), abs(high)))
    is_open = [True] * (len(samples) - 1)
    for _ in range(HALVINGS):
        if not any(is_open):
            break
        samples, is_open = _halved(samples, is_open, tolerance, at)
    return samples


def _halved(
    samples: Sequence[Sample], is_open: Sequence[bool], tolerance: float, at: At
) -> tuple[list[Sample], list[bool]]:
    grown, still = [samples[0]], []
    room = MOST_SAMPLES - len(samples)
    for one, other, may in zip(samples, samples[1:], is_open, strict=False):
        middle = at((one.x + other.x) / 2) if may and room > 0 else None
        if middle is not None and _bends(one, middle, other, tolerance):
            grown.append(middle)
            still += [True, True]
            room -= 1
        else:
            still.append(False)
        grown.append(other)
    return grown, still


def _bends(one: Sample, middle: Sample, other: Sample, tolerance: float) -> bool:
    for a, b, c in zip(one.ys, middle.ys, other.ys, strict=True):
        if a is None or b is None or c is None:
            if not (a is None and b is None and c is None):
                return True
        elif abs(b - (a + c) / 2) > tolerance:
            return True
    return False
