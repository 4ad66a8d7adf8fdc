"""A seam along its length as data in, its drawing out: sheets as bands, welds as dots, segments dimensioned."""

from __future__ import annotations

from dataclasses import dataclass, replace

from builder.model.drawings import Run, RunSegment
from builder.model.said import Said, said
from builder.render.drawings import dimension, strokes
from builder.render.drawings.stack import WIDTH
from builder.render.drawings.strokes import at, line, words
from builder.render.drawings.text import Label, wrap, wrap_both

_LEFT = 8.0
_SPAN = WIDTH - 2 * _LEFT
_BAND = 9.0
"""Drawn height of one sheet."""
_SIZE = 13.0
_CLOSEST = 3.5
"""Welds nearer than this run into one thick line."""
_WELD = 2.0


@dataclass(frozen=True, slots=True)
class Placed:
    """One segment on the drawing."""

    segment: RunSegment
    left: float
    right: float
    label: Label
    line: float
    """y of its dimension line."""


@dataclass(frozen=True, slots=True)
class Layout:
    """The whole run with everything in its place."""

    run: Run
    foot: float
    """y of the innermost sheet."""
    segments: tuple[Placed, ...]
    total: Label | None
    height: float

    @property
    def labels(self) -> tuple[Label, ...]:
        """Every text on the drawing."""
        return tuple(placed.label for placed in self.segments) + ((self.total,) if self.total else ())


def lay_out(run: Run) -> Layout:
    """Place the segments to one scale, and a row with text and dimension below for each."""
    length = sum(segment.length for segment in run.segments) or 1.0
    foot = 10 + _BAND * max((segment.layers for segment in run.segments), default=0)
    x, y = _LEFT, foot + 8
    placed: list[Placed] = []
    for segment in run.segments:
        right = x + _SPAN * segment.length / length
        label = _beside(segment, (x + right) / 2, y + _SIZE)
        y = label.box.bottom + 6
        placed.append(Placed(segment, x, right, label, y))
        x, y = right, y + 8
    total = None
    if len(placed) > 1:
        lines, others = wrap_both(said(run.length_said, " in all"), _SIZE, _SPAN, bold=True)
        total = Label(lines, WIDTH / 2, y + _SIZE, _SIZE, "middle", "strong", others)
        y = total.box.bottom + 6
    return Layout(run, foot, tuple(placed), total, y + 8)


def draw(run: Run, title: str, description: Said) -> str:
    """The run as SVG text."""
    layout = lay_out(run)
    marks = [mark for placed in layout.segments for mark in _segment(placed, layout.foot)]
    rows = [(each.left, each.right, each.line) for each in layout.segments]
    if layout.total:
        rows.append((_LEFT, _LEFT + _SPAN, layout.total.box.bottom + 6))
    lowest = {x: y for left, right, y in rows for x in (left, right)}
    marks += [dimension.extension(x, y, layout.foot) for x, y in lowest.items()]
    marks += [dimension.arrows(*row) for row in rows]
    marks += [_clear(label) + words(label) for label in layout.labels]
    return strokes.svg(run.id, title, description, WIDTH, layout.height, marks)


def _facts(segment: RunSegment) -> Said:
    welds = f", {_counted(segment.welds, 'weld')}" if segment.welds is not None else ""
    return said(segment.length_said, f", {_counted(segment.layers, 'sheet')}{welds}")


def _counted(count: int, thing: str) -> str:
    return f"{count} {thing}" if count == 1 else f"{count} {thing}s"


def _beside(segment: RunSegment, middle: float, y: float) -> Label:
    """Its name, and beneath it what it is; centred on the segment, moved in where it would be cut off."""
    name = wrap(segment.label, _SIZE, _SPAN)
    facts, others = wrap_both(_facts(segment), _SIZE, _SPAN)
    label = Label(name + facts, middle, y, _SIZE, "middle", others=name + others if others else ())
    half = label.width / 2
    return replace(label, x=min(max(middle, _LEFT - 4 + half), WIDTH - 4 - half))


def _clear(label: Label) -> str:
    """Bare paper under a label, which interrupts the lines it crosses."""
    box = label.box
    corners = [(box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom)]
    return strokes.shape(f"M{strokes.points(corners)}Z", "paper")


def _segment(placed: Placed, foot: float) -> list[str]:
    """The bands of its sheets, outermost on top, and its welds evenly spaced."""
    top = foot - _BAND * placed.segment.layers
    marks = [
        f'<rect class="band" x="{at(placed.left)}" y="{at(top + _BAND * layer)}" '
        f'width="{at(placed.right - placed.left)}" height="{at(_BAND)}"/>'
        for layer in range(placed.segment.layers)
    ]
    count = placed.segment.welds or 0
    pitch = (placed.right - placed.left) / count if count else 0.0
    middle = (top + foot) / 2
    if count and pitch < _CLOSEST:
        marks.append(line((placed.left, middle), (placed.right, middle), style="weld-row"))
    elif count:
        ring = "".join(
            f"M{at(placed.left + pitch * (index + 0.5) - _WELD)} {at(middle)}a{_WELD} {_WELD} 0 1 1 {2 * _WELD} 0"
            f"a{_WELD} {_WELD} 0 1 1 -{2 * _WELD} 0"
            for index in range(count)
        )
        marks.append(strokes.shape(ring, "solid weld"))
    return marks
