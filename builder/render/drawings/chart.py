"""Lines over one input as data in, their drawing out; chart.js draws the same, mark by mark."""

from __future__ import annotations

import math
from dataclasses import dataclass

from builder.formula.ticks import Ticks, ticks_around, ticks_within
from builder.model.plots import Chart, Trace
from builder.model.said import Said
from builder.render.drawings import leader, strokes
from builder.render.drawings.leader import Called, Leader
from builder.render.drawings.stack import WIDTH
from builder.render.drawings.strokes import Point, at, line, words
from builder.render.drawings.text import Label, width_of, wrap

_TOP, _FOOT = 36.0, 196.0
_RIGHT = 216.0
_LABELS = 234.0
"""Where the names of the lines begin."""
_SIZE, _TICK_SIZE = 13.0, 12.0
_BEYOND = 10.0
"""How far an axis runs on past what it measures."""
_POINT = 3.4
_UP, _ACROSS = 4, 5
"""Parts into which the axes are divided at most."""
_LEAST_GAP = 62.0
"""Room in which it can be written that there is no answer."""


@dataclass(frozen=True, slots=True)
class Layout:
    """The chart with everything in its place."""

    chart: Chart
    left: float
    across: Ticks
    up: Ticks | None
    """None where there is no number at all."""

    def x(self, value: float) -> float:
        """Place on the sheet of a value of the input."""
        return self.left + (_RIGHT - self.left) * (value - self.chart.start) / (self.chart.end - self.chart.start)

    def y(self, value: float) -> float:
        """Place on the sheet of an answer."""
        assert self.up is not None
        low, high = self.up.value(self.up.first), self.up.value(self.up.last)
        return _FOOT - (_FOOT - _TOP) * (value - low) / (high - low)


def lay_out(chart: Chart) -> Layout:
    """Find round ticks for both axes, and room for those at the side."""
    known = [y for trace in chart.traces for _, y in trace.points if y is not None]
    known += [trace.here for trace in chart.traces if trace.here is not None]
    known += [chart.limit.y] if chart.limit is not None and known else []
    up = ticks_around(min(known), max(known), _UP) if known else None
    widest = max((width_of(text, _TICK_SIZE) for text in up.texts), default=0.0) if up is not None else 0.0
    left = max(30.0, widest + 10)
    return Layout(chart, left, _across(chart, _RIGHT - left), up)


def _across(chart: Chart, room: float) -> Ticks:
    """As many ticks as their numbers leave room for."""
    for divisions in range(_ACROSS, 1, -1):
        ticks = ticks_within(chart.start, chart.end, divisions)
        widest = max((width_of(text, _TICK_SIZE) for text in ticks.texts), default=0.0)
        if widest + 8 <= room * abs(ticks.value(1)) / (chart.end - chart.start):
            return ticks
    return ticks_within(chart.start, chart.end, 1)


def draw(chart: Chart, title: str, description: str) -> str:
    """The chart as SVG text."""
    layout = lay_out(chart)
    marks = [*_axes(layout), *_lines(layout)]
    foot = _foot(layout)
    marks.append(words(foot))
    leaders = leader.column(_called(layout), _LABELS, WIDTH - _LABELS - 2, 10.0)
    marks += [one.draw() for one in leaders]
    return strokes.svg(chart.id, title, Said(description), WIDTH, _height(foot, leaders), marks)


def _height(foot: Label, leaders: tuple[Leader, ...]) -> float:
    return max([foot.box.bottom, *(one.box.bottom for one in leaders)]) + 8


def _foot(layout: Layout) -> Label:
    lines = wrap(layout.chart.foot, _SIZE, _LABELS - 20)
    return Label(lines, max((layout.left + _RIGHT) / 2, 8 + (_LABELS - 20) / 2), _FOOT + 38, _SIZE, "middle")


def _axes(layout: Layout) -> list[str]:
    marks = []
    for value, text in zip(layout.up.values, layout.up.texts, strict=True) if layout.up else ():
        y = layout.y(value)
        marks += [line((layout.left, y), (_RIGHT, y), style="grid"), line((layout.left - 3, y), (layout.left, y))]
        marks.append(words(Label((text,), layout.left - 6, y + 4, _TICK_SIZE, "end")))
    for value, text in zip(layout.across.values, layout.across.texts, strict=True):
        x = layout.x(value)
        marks.append(line((x, _FOOT), (x, _FOOT + 4)))
        marks.append(words(Label((text,), x, _FOOT + 17, _TICK_SIZE, "middle")))
    top, end = (layout.left, _TOP - _BEYOND), (_RIGHT + _BEYOND, _FOOT)
    marks.append(line(top, (layout.left, _FOOT), end))
    marks += [strokes.arrowhead(top, -math.pi / 2), strokes.arrowhead(end, 0.0)]
    if layout.chart.unit:
        marks.append(words(Label((layout.chart.unit,), layout.left - 6, _TOP - 20, _TICK_SIZE, "end")))
    return marks


def _lines(layout: Layout) -> list[str]:
    marks = []
    chart = layout.chart
    if layout.up is not None and chart.limit is not None:
        y = layout.y(chart.limit.y)
        marks.append(line((layout.left, y), (_RIGHT, y), style="limit"))
    for number, trace in enumerate(chart.traces):
        path = "".join(f"M{strokes.points(stretch)}" for stretch in _stretches(layout, trace))
        if path:
            marks.append(f'<path class="trace trace-{number + 1}" d="{path}"/>')
    marks += [words(label) for label in _gaps(layout)]
    if chart.here is None:
        return marks
    x = layout.x(chart.here)
    marks.append(line((x, _FOOT), (x, _TOP - 14), style="here"))
    marks += [
        f'<circle class="solid" cx="{at(x)}" cy="{at(layout.y(trace.here))}" r="{_POINT}"/>'
        for trace in chart.traces if trace.here is not None
    ]  # fmt: skip
    half = width_of(chart.here_said, _SIZE, bold=True) / 2
    middle = min(max(x, layout.left + half), _LABELS - 6 - half)
    marks.append(words(Label((chart.here_said,), middle, _TOP - 20, _SIZE, "middle", "strong")))
    return marks


def _stretches(layout: Layout, trace: Trace) -> list[list[Point]]:
    """A line's parts, broken where there is no answer; one value by itself is a dot."""
    found: list[list[Point]] = [[]]
    for number, (_, value) in enumerate(trace.points):
        if value is None:
            found.append([])
            continue
        y = layout.y(value)
        found[-1] += [(layout.x(x), y) for x in _reach(layout.chart, trace, number)]
    return [part if len(part) > 1 else part * 2 for part in found if part]


def _reach(chart: Chart, trace: Trace, number: int) -> tuple[float, ...]:
    """From where to where a value holds: half way to its neighbours where the input counts."""
    x = trace.points[number][0]
    if not chart.stepped:
        return (x,)
    before = trace.points[number - 1][0] if number else x
    after = trace.points[number + 1][0] if number + 1 < len(trace.points) else x
    return ((before + x) / 2, (x + after) / 2)


def _gaps(layout: Layout) -> list[Label]:
    """Words where no line has an answer and there is room to say so."""
    chart = layout.chart
    found: list[Label] = []
    start: float | None = None
    places = [point[0] for point in chart.traces[0].points]
    for number, x in enumerate(places):
        is_empty = all(trace.points[number][1] is None for trace in chart.traces)
        if is_empty and start is None:
            start = x
        if start is not None and (not is_empty or number == len(places) - 1):
            left, right = layout.x(start), layout.x(x)
            if right - left >= _LEAST_GAP:
                found.append(Label(("no answer",), (left + right) / 2, _FOOT - 8, _TICK_SIZE, "middle", "quiet"))
            start = None
    return found


def _called(layout: Layout) -> tuple[Called, ...]:
    """The names of the lines at their right ends, from the top down."""
    chart = layout.chart
    found = []
    for trace in chart.traces:
        ends = [(x, y) for x, y in trace.points if y is not None]
        if ends:
            place = (layout.x(ends[-1][0]), layout.y(ends[-1][1]))
            found.append(Called(place, Said(trace.value or "–"), trace.label))
    if chart.limit is not None and layout.up is not None:
        found.append(Called((_RIGHT, layout.y(chart.limit.y)), Said(chart.limit.value), chart.limit.label))
    return tuple(sorted(found, key=lambda one: one.place[1]))
