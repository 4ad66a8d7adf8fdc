"""Two places and a text in, a dimension line to ISO 129-1 out: extension lines, arrows, text above the line."""

from __future__ import annotations

import math

from builder.render.drawings.strokes import arrowhead, line

_BEYOND = 4.0
"""How far an extension line runs past the dimension line."""
_GAP = 3.0
"""Between the outline and the start of its extension line."""
_OUTSIDE = 20.0
"""Below this width the arrows point inwards from outside."""
_TAIL = 14.0


def across(left: float, right: float, y: float, foot: float) -> str:
    """A horizontal dimension at `y` between two extension lines that come from `foot`."""
    return extension(left, y, foot) + extension(right, y, foot) + arrows(left, right, y)


def arrows(left: float, right: float, y: float) -> str:
    """The dimension line alone, its arrows outside where there is no room between."""
    if right - left >= _OUTSIDE:
        marks = [line((left, y), (right, y)), arrowhead((left, y), math.pi), arrowhead((right, y), 0.0)]
    else:
        marks = [line((left - _TAIL, y), (right + _TAIL, y))]
        marks += [arrowhead((left, y), 0.0), arrowhead((right, y), math.pi)]
    return "".join(marks)


def extension(x: float, y: float, foot: float) -> str:
    """From the outline at `foot` to a little beyond the dimension line at `y`."""
    toward = 1.0 if foot > y else -1.0
    return line((x, foot - toward * _GAP), (x, y - toward * _BEYOND))
