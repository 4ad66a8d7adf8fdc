"""Points and labels in, SVG elements out: the few marks every drawing is made of, in ISO 128 line widths."""

from __future__ import annotations

import math
from collections.abc import Iterable
from functools import lru_cache
from html import escape

from builder.model.said import Said
from builder.render.drawings.text import Label

Point = tuple[float, float]
_HEAD = 8.0
"""Length of an arrowhead."""
_SPREAD = math.radians(10)
"""Half the angle of an arrowhead: a closed and filled one of 20 degrees, as ISO 129-1 shows."""


@lru_cache(maxsize=65536)
def at(value: float) -> str:
    """A coordinate, short and the same on every machine."""
    # Adding nothing takes the sign from nothing, which is kept here as one value with and without it.
    text = f"{value + 0.0:.1f}"
    return text[:-2] if text.endswith(".0") else text


def points(places: Iterable[Point]) -> str:
    """Coordinates of a path through the places."""
    return "L".join(f"{at(x)} {at(y)}" for x, y in places)


def line(*places: Point, style: str = "thin") -> str:
    """An open line through the places."""
    return f'<path class="{style}" d="M{points(places)}"/>'


def shape(outline: str, style: str, fill: str = "") -> str:
    """A closed area; `fill` is a reference such as `url(#id)`, else the style says."""
    attribute = f' fill="{fill}"' if fill else ""
    return f'<path class="{style}"{attribute} d="{outline}"/>'


def dot(place: Point, style: str = "solid") -> str:
    """The end of a leader inside an outline."""
    return f'<circle class="{style}" cx="{at(place[0])}" cy="{at(place[1])}" r="2.4"/>'


def arrowhead(tip: Point, direction: float) -> str:
    """A filled arrowhead whose tip points along `direction`, in radians, clockwise from the right."""
    ends = [
        (tip[0] - _HEAD * math.cos(direction + turn), tip[1] - _HEAD * math.sin(direction + turn))
        for turn in (-_SPREAD, _SPREAD)
    ]
    return shape(f"M{points([tip, *ends])}Z", "solid")


def break_line(start: Point, end: Point) -> str:
    """The thin zigzag that ends what goes on outside the drawing."""
    (x1, y1), (x2, y2) = start, end
    length = math.hypot(x2 - x1, y2 - y1) or 1.0
    along = ((x2 - x1) / length, (y2 - y1) / length)
    swing = min(4.0, length / 4)

    def place(share: float, aside: float) -> Point:
        return x1 + (x2 - x1) * share + along[1] * aside, y1 + (y2 - y1) * share - along[0] * aside

    return line(place(-0.12, 0), place(0.4, 0), place(0.45, swing), place(0.55, -swing), place(0.6, 0), place(1.12, 0))


def words(label: Label) -> str:
    """The text elements of a label."""
    style = f' class="{label.style}"' if label.style else ""
    anchor = "" if label.anchor == "start" else f' text-anchor="{label.anchor}"'
    return "".join(
        f'<text{style} x="{at(label.x)}" y="{at(label.line_at(index))}" font-size="{at(label.size)}"{anchor}'
        f"{_other(text, label.others[index] if label.others else text)}>"
        f"{escape(text)}</text>"
        for index, text in enumerate(label.lines)
    )


def _other(text: str, other: str) -> str:
    """The attribute by which the page's script shows the other system of units."""
    return f' data-q="{escape(other)}"' if other != text else ""


def svg(id_: str, title: str, description: Said, width: float, height: float, marks: Iterable[str]) -> str:
    """The whole drawing; it is named by its title and its words, under ids no record's can equal (`_`)."""
    name = escape(id_)
    body = "".join(marks)
    described = _other(description.text, description.other or description.text)
    return (
        f'<svg class="drawing" role="img" aria-labelledby="{name}_title {name}_words" '
        f'viewBox="0 0 {at(width)} {at(height)}" width="{at(width)}" height="{at(height)}">'
        f'<title id="{name}_title">{escape(title)}</title><desc id="{name}_words"{described}>'
        f"{escape(description.text)}</desc>{body}</svg>"
    )
