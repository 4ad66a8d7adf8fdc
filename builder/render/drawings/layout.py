"""The welds of a seam as data in, their layout out, in as many rows as the marks need; layout.js draws the same.

A row shows a stretch of the seam: the order of welding above, the welds in the band, the factory's below, then the
measures of each segment that begins there.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from builder.model.laid import MOST, LaidSegment, WeldLayout
from builder.model.said import Said
from builder.render.drawings import strokes
from builder.render.drawings.measures_below import Block, below
from builder.render.drawings.order_numbers import LEVEL, SIZE, Number, number_room, placed
from builder.render.drawings.stack import WIDTH
from builder.render.drawings.strokes import arrowhead, at, break_line, line, words
from builder.render.drawings.text import Label, wrap

LEFT = 16.0
SPAN = WIDTH - 2 * LEFT
_TOP = 24.0
_BAND = 14.0
_FACTORY = (3.0, 11.0)
"""From where to where below the band the factory's ticks go."""
_BORDER = (4.0, 14.0)
_BETWEEN = 18.0
"""Between two rows."""
_CLOSEST = 8.0
"""Welds without numbers stand no nearer than this while there are rows to be had."""
_FINE = 4.0
_MOST_ROWS = 6
_NOTE = 12.0


class Spot(NamedTuple):
    """Where a place along the seam lies on the drawing."""

    row: int
    x: float


class Scale(NamedTuple):
    """How a seam is broken into rows."""

    total: float
    rows: int

    @property
    def units(self) -> float:
        """User units to one mm."""
        return self.rows * SPAN / self.total

    def spot(self, place: float) -> Spot:
        """Where a place is, in mm from the front; the last row holds what comes after it."""
        row = min(self.rows - 1, max(0, math.floor(place * self.rows / self.total + 1e-9)))
        return Spot(row, LEFT + (place - row * self.total / self.rows) * self.units)


class Laid(NamedTuple):
    """A segment on the drawing."""

    segment: LaidSegment
    start: float
    """In mm from the seam's front end."""
    welds: list[Spot]
    factory: list[Spot]


def draw(layout: WeldLayout, title: str, description: Said) -> str:
    """The layout as SVG text."""
    marks, height = marks_of(layout)
    return strokes.svg(layout.id, title, description, WIDTH, height, marks)


def marks_of(layout: WeldLayout) -> tuple[list[str], float]:
    """Everything drawn, and how high it is."""
    scale = scale_of(layout.segments)
    laid = _lay(layout.segments, scale)
    numbers = placed([_asked(one) for one in laid], scale.rows)
    levels = 1 + max((number.level for number in numbers), default=-1)
    closest = _closest(laid, scale)
    marks = _front()
    y = _TOP
    for row in range(scale.rows):
        top = y + LEVEL * levels + (4 if levels else 0)
        foot = top + _BAND
        marks += [mark for one in laid for mark in _stretch(one, scale, row, top)]
        xs = [spot.x for one in laid for spot in one.welds if spot.row == row]
        marks += _welds(xs, layout.form, top, closest)
        marks += [mark for number in numbers if number.row == row for mark in _number(number, top)]
        marks += _ends(scale, row, top)
        blocks = [_block(one, scale) for one in laid if scale.spot(one.start).row == row]
        found, bottom = below(blocks, foot, foot + _BORDER[1])
        marks += found
        y = bottom + _BETWEEN
    notes = Label(wrap(_notes(laid, numbers), _NOTE, WIDTH - 8), 4.0, y + 4, _NOTE, style="quiet")
    return [*marks, words(notes)], notes.box.bottom + 4


def scale_of(segments: Sequence[LaidSegment]) -> Scale:
    """In so many rows that the marks have room; at most `_MOST_ROWS`."""
    total = sum(segment.length for segment in segments) or 1.0
    rows = 1
    while rows < _MOST_ROWS and not all(_is_roomy(segment, rows * SPAN / total) for segment in segments):
        rows += 1
    return Scale(total, rows)


def _is_roomy(segment: LaidSegment, units: float) -> bool:
    row = segment.row
    if row is None or row.count < 3:
        return True
    return row.spacing * units >= (number_room(max(row.order)) / 2 if row.order else _CLOSEST)


def _lay(segments: Sequence[LaidSegment], scale: Scale) -> list[Laid]:
    laid, start = [], 0.0
    for segment in segments:
        laid.append(Laid(
            segment, start,
            [scale.spot(start + place) for place in segment.weld_places],
            [scale.spot(start + place) for place in segment.factory_places],
        ))  # fmt: skip
        start += segment.length
    return laid


def _asked(one: Laid) -> list[Number]:
    """The numbers that the welds of a segment should have."""
    order = one.segment.row.order if one.segment.row is not None else ()
    return [Number(turn, spot.row, spot.x, at_) for at_, (turn, spot) in enumerate(zip(order, one.welds, strict=False))]


def _front() -> list[str]:
    return [
        line((LEFT, 12.0), (LEFT + 24, 12.0)), arrowhead((LEFT, 12.0), math.pi),
        words(Label(("Front",), LEFT + 30, 16.0, 13.0)),
    ]  # fmt: skip


def _stretch(one: Laid, scale: Scale, row: int, top: float) -> Iterator[str]:
    """What of a segment lies in a row: its band, the factory's welds, and its borders."""
    first, last = scale.spot(one.start), scale.spot(one.start + one.segment.length)
    is_last = last.row > first.row and last.x <= LEFT + 1e-6
    end = Spot(last.row - 1, LEFT + SPAN) if is_last else last
    if not first.row <= row <= end.row:
        return
    left = first.x if row == first.row else LEFT
    right = end.x if row == end.row else LEFT + SPAN
    style = "band" if one.segment.row is not None else "band unknown"
    yield (
        f'<rect class="{style}" x="{at(left)}" y="{at(top)}" width="{at(right - left)}" height="{at(_BAND)}"/>'
    )
    foot = top + _BAND
    upper, lower = (at(foot + down) for down in _FACTORY)
    ticks = "".join(f"M{at(x)} {upper}V{lower}" for at_, x in one.factory if at_ == row)
    if ticks:
        yield _path(ticks, "factory")
    borders = [x for at_, x in ((first.row, first.x), (end.row, end.x)) if at_ == row]
    yield "".join(line((x, top - _BORDER[0]), (x, foot + _BORDER[1]), style="outline") for x in borders)


def _closest(laid: Sequence[Laid], scale: Scale) -> float:
    """How near welds of one segment come on the drawing, of which there are more than two."""
    rows = [one.segment.row for one in laid if one.segment.row is not None]
    return min((row.spacing * scale.units for row in rows if row.count > 2), default=_CLOSEST)


def _welds(xs: Sequence[float], form: str, top: float, closest: float) -> list[str]:
    """The welds of one row: a dot for a spot, a ring for a plug, a stroke for anything else or where they are dense."""
    if not xs:
        return []
    middle = top + _BAND / 2
    if closest < _FINE:
        return [_path("".join(f"M{at(x)} {at(top)}V{at(top + _BAND)}" for x in xs), "tick-fine")]
    if form not in ("spot", "plug"):
        return [_path("".join(f"M{at(x)} {at(top + 2)}V{at(top + _BAND - 2)}" for x in xs), "tick")]
    radius = min(3.2, closest * 0.34)
    r, across = at(radius), at(2 * radius)
    rings = "".join(f"M{at(x - radius)} {at(middle)}a{r} {r} 0 1 1 {across} 0a{r} {r} 0 1 1 -{across} 0" for x in xs)
    return [_path(rings, "solid weld" if form == "spot" else "hole")]


def _path(outline: str, style: str) -> str:
    return f'<path class="{style}" d="{outline}"/>'


def _number(number: Number, top: float) -> Iterator[str]:
    y = top - 5 - LEVEL * number.level
    if number.level:
        yield line((number.x, top), (number.x, y + 3), style="grid")
    yield words(Label((str(number.turn),), number.x, y, SIZE, "middle", "strong" if number.turn == 1 else ""))


def _ends(scale: Scale, row: int, top: float) -> list[str]:
    """Where the seam goes on in another row, its band is broken off."""
    xs = [LEFT] * (row > 0) + [LEFT + SPAN] * (row < scale.rows - 1)
    return [break_line((x, top), (x, top + _BAND)) for x in xs]


def _block(one: Laid, scale: Scale) -> Block:
    """What is said below a segment; of its measures those that lie in the row where it begins are drawn."""
    start = scale.spot(one.start)
    drawn = itertools.takewhile(lambda spot: spot.row == start.row, one.welds[:2])
    return Block(one.segment, start.x, tuple(spot.x for spot in drawn))


def _notes(laid: Sequence[Laid], numbers: Sequence[Number]) -> str:
    said = []
    asked = sum(len(_asked(one)) for one in laid)
    if numbers:
        rest = ", as far as there is room; all of it is in the table below" if len(numbers) < asked else ""
        said.append(f"Numbers: the turn in which a weld is made{rest}.")
    if any(one.factory for one in laid):
        said.append("Light ticks: the factory's welds, taken as evenly spread.")
    if any(one.segment.row is not None and one.segment.row.count > MOST for one in laid):
        said.append(f"Of each segment the first {MOST} welds are drawn.")
    return " ".join(said)
