"""Marks along a line as data in, their drawing to scale out; marks.js draws the same, mark by mark."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence

from builder.model.plots import Measure, Sketch
from builder.model.said import Said
from builder.render.drawings import strokes
from builder.render.drawings.measure import beside, between
from builder.render.drawings.stack import WIDTH
from builder.render.drawings.strokes import at, line, words
from builder.render.drawings.text import Label, width_of

_LEFT = 16.0
_SPAN = WIDTH - 2 * _LEFT
_BAND = 14.0
"""Drawn height of the flange."""
_OVER = 4.0
"""How far a mark stands out of it."""
_SIZE, _TURN_SIZE = 13.0, 12.0
_ROW, _TURN_ROW = 30.0, 15.0
_FINE = 4.0
"""Marks nearer than this are drawn in hairlines."""
MOST = 1000
"""Marks drawn at most."""
_MOST_TURN_ROWS = 4


def draw(sketch: Sketch, title: str, description: str) -> str:
    """The marks as SVG text; bare paper where there is no count."""
    count = count_of(sketch.measures)
    places, extent = lay_out(sketch.measures, count)
    scale = _SPAN / extent
    xs = [_LEFT + place * scale for place in places[:MOST]]
    turns = _turn_rows(xs, sketch.turns)
    top = 28.0 + (_TURN_ROW * (turns + 1) if turns else 0.0)
    marks = [words(Label((_counted(sketch.measures, count),), _LEFT - 8, 16.0, _SIZE, style="strong"))] if count else []
    if turns:
        said = ("The number at a mark is its turn.",)
        marks.append(words(Label(said, _LEFT - 8, 32.0, _TURN_SIZE, style="quiet")))
        marks += _turns(xs, sketch.turns, turns, top)
    marks += [
        f'<rect class="band" x="{at(_LEFT)}" y="{at(top)}" width="{at(_SPAN)}" height="{at(_BAND)}"/>',
        _ticks(xs, top),
    ]
    rows = list(_rows(sketch.measures, xs))
    foot = top + _BAND
    labels = []
    for number, (left, right, text) in enumerate(rows):
        y = foot + _OVER + _ROW * (number + 1) - 6
        marks.append(between((left, foot + _OVER), (right, foot + _OVER), (0.0, y - foot - _OVER)))
        labels.append(beside(text, left, right, y, _SIZE))
    return strokes.svg(sketch.id, title, Said(description), WIDTH, foot + _OVER + _ROW * len(rows) + 8, marks + labels)


def count_of(measures: Mapping[str, Measure]) -> int:
    """How many marks there are; none where that is not told."""
    value = measures["count"].value
    return max(0, math.floor(value + 0.5)) if value is not None else 0


def lay_out(measures: Mapping[str, Measure], count: int) -> tuple[list[float], float]:
    """Where the marks are and how long the line is, in one unit; evenly spread where nothing else is told."""
    length, first, spacing = (_value(measures, name) for name in ("length", "first", "spacing"))
    drawn = min(count, MOST)
    if spacing is None and length is not None and first is not None and count > 1:
        spacing = (length - 2 * first) / (count - 1)
    if spacing is None and first is not None and count == 1:
        spacing = 0.0
    if spacing is None:
        extent = length or 1.0
        return [extent * (number + 0.5) / count for number in range(drawn)], extent
    start = first if first is not None else spacing / 2
    places = [start + spacing * number for number in range(drawn)]
    end = length if length is not None else start * 2 + spacing * (count - 1)
    return places, max([end, *places]) or 1.0


def _value(measures: Mapping[str, Measure], name: str) -> float | None:
    return measures[name].value if name in measures else None


def _counted(measures: Mapping[str, Measure], count: int) -> str:
    text = f"{measures['count'].name}: {count}"
    return f"{text}, the first {MOST} drawn" if count > MOST else text


def _ticks(xs: Sequence[float], top: float) -> str:
    style = "tick-fine" if len(xs) > 1 and xs[1] - xs[0] < _FINE else "tick"
    path = "".join(f"M{at(x)} {at(top - _OVER)}V{at(top + _BAND + _OVER)}" for x in xs)
    return f'<path class="{style}" d="{path}"/>' if path else ""


def _rows(measures: Mapping[str, Measure], xs: Sequence[float]) -> Iterator[tuple[float, float, str]]:
    """From where to where each measure goes, and what it says; the shortest next to the line."""
    if len(xs) > 1 and _value(measures, "spacing") is not None:
        yield xs[0], xs[1], measures["spacing"].text
    if xs and _value(measures, "first") is not None:
        yield _LEFT, xs[0], measures["first"].text
    length = _value(measures, "length")
    if length is not None:
        _, extent = lay_out(measures, count_of(measures))
        yield _LEFT, _LEFT + _SPAN * length / extent, measures["length"].text


def _turn_rows(xs: Sequence[float], turns: Sequence[int]) -> int:
    """In how many rows the turns have room; none where they have not, or there are none."""
    if not any(turns[: len(xs)]):
        return 0
    widest = width_of(str(max(turns)), _TURN_SIZE) + 4
    rows = math.ceil(widest / (xs[1] - xs[0])) if len(xs) > 1 and xs[1] > xs[0] else 1
    return rows if rows <= _MOST_TURN_ROWS else 0


def _turns(xs: Sequence[float], turns: Sequence[int], rows: int, top: float) -> Iterator[str]:
    for number, (x, turn) in enumerate(zip(xs, turns, strict=False)):
        if turn:
            y = top - _OVER - 4 - _TURN_ROW * (number % rows)
            if number % rows:
                yield line((x, top - _OVER), (x, y + 3), style="grid")
            yield words(Label((str(turn),), x, y, _TURN_SIZE, "middle"))
