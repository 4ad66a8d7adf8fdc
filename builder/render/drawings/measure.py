"""Two places and a way out in, a dimension between them out: level, upright or leaning; sketch.js has the twins."""

from __future__ import annotations

import math
from dataclasses import replace

from builder.render.drawings import strokes
from builder.render.drawings.stack import WIDTH
from builder.render.drawings.strokes import Point, arrowhead, line
from builder.render.drawings.text import Label, width_of

_GAP, _BEYOND = 3.0, 4.0
_OUTSIDE, _TAIL = 20.0, 14.0
_EDGE = 4.0


def between(one: Point, other: Point, away: Point) -> str:
    """A dimension line from one place to another, moved aside by `away`, with its extension lines."""
    reach = math.hypot(*away)
    ends = [(x + away[0], y + away[1]) for x, y in (one, other)]
    if reach <= _GAP:
        return arrows(*ends)
    near, far = _GAP / reach, 1 + _BEYOND / reach
    marks = [
        line((x + away[0] * near, y + away[1] * near), (x + away[0] * far, y + away[1] * far)) for x, y in (one, other)
    ]
    return "".join(marks) + arrows(*ends)


def arrows(one: Point, other: Point) -> str:
    """The dimension line alone, its arrows outside where there is no room between."""
    direction = math.atan2(other[1] - one[1], other[0] - one[0])
    if math.hypot(other[0] - one[0], other[1] - one[1]) >= _OUTSIDE:
        return line(one, other) + arrowhead(one, direction + math.pi) + arrowhead(other, direction)
    x, y = _TAIL * math.cos(direction), _TAIL * math.sin(direction)
    tails = line((one[0] - x, one[1] - y), (other[0] + x, other[1] + y))
    return tails + arrowhead(one, direction) + arrowhead(other, direction + math.pi)


def inside(label: Label) -> Label:
    """The label moved in where it would leave the sheet."""
    box = label.box
    by = max(_EDGE - box.left, 0.0) + min(WIDTH - _EDGE - box.right, 0.0)
    return replace(label, x=label.x + by)


def beside(text: str, left: float, right: float, y: float, size: float, end: float = WIDTH - _EDGE) -> str:
    """What a level dimension at `y` says: on its line, or past an end of it where it has no room; none beyond `end`."""
    room = width_of(text, size)
    out = 6.0 if right - left >= _OUTSIDE else _TAIL + 6
    if right - left >= room + 6:
        return on_paper(inside(Label((text,), (left + right) / 2, y - 5, size, "middle")))
    if right + out + room <= end:
        return strokes.words(Label((text,), right + out, y + 4, size))
    if left - out - room >= _EDGE:
        return strokes.words(Label((text,), left - out, y + 4, size, "end"))
    return on_paper(inside(Label((text,), (left + right) / 2, y - 5, size, "middle")))


def on_paper(label: Label) -> str:
    """The label on bare paper, which interrupts the lines it crosses."""
    box = label.box
    corners = [(box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom)]
    return strokes.shape(f"M{strokes.points(corners)}Z", "paper") + strokes.words(label)
