"""Marks in millimetres: what a sheet of a marking strip is made of, to hundredths; strip.js has the twin."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from html import escape
from typing import Literal

from builder.formula.numbers import fixed
from builder.model.said import Said
from builder.render.drawings.text import width_of

Point = tuple[float, float]
HEAD, HALF = 2.6, 0.5
"""Length and half the width of an arrowhead."""


@lru_cache(maxsize=65536)
def mm(value: float) -> str:
    """A coordinate to a hundredth of a millimetre, the same by Python and script."""
    # Adding nothing takes the sign from nothing, which is kept here as one value with and without it.
    return fixed(value + 0.0, 2).rstrip("0").rstrip(".")


def line(*places: Point, style: str) -> str:
    """An open line through the places."""
    joined = "L".join(f"{mm(x)} {mm(y)}" for x, y in places)
    return f'<path class="{style}" d="M{joined}"/>'


def upright(xs: Iterable[float], top: float, foot: float, style: str) -> str:
    """Level with one another, a stroke at each place; nothing where there is none."""
    path = "".join(f"M{mm(x)} {mm(top)}V{mm(foot)}" for x in xs)
    return f'<path class="{style}" d="{path}"/>' if path else ""


def arrow_left(x: float, y: float, length: float) -> str:
    """An arrow whose tip is at the place."""
    tip = f"M{mm(x)} {mm(y)}L{mm(x + HEAD)} {mm(y - HALF)}L{mm(x + HEAD)} {mm(y + HALF)}Z"
    return line((x, y), (x + length, y), style="thin") + f'<path class="solid" d="{tip}"/>'


def text(
    said: str | Said, x: float, y: float, size: float, anchor: Literal["start", "middle", "end"] = "start",
    style: str = "",
) -> str:  # fmt: skip
    """One line of text."""
    own, other = (said, "") if isinstance(said, str) else (said.text, said.other)
    kind = f' class="{style}"' if style else ""
    where = "" if anchor == "start" else f' text-anchor="{anchor}"'
    swapped = f' data-q="{escape(other)}"' if other and other != own else ""
    return f'<text{kind} x="{mm(x)}" y="{mm(y)}" font-size="{mm(size)}"{where}{swapped}>{escape(own)}</text>'


def shortened(said: str, size: float, room: float, *, bold: bool = False) -> str:
    """As much of a text as has room, with a sign where it was cut."""
    if width_of(said, size, bold) <= room:
        return said
    kept = said
    while kept and width_of(f"{kept}…", size, bold) > room:
        kept = kept[:-1]
    return f"{kept.rstrip()}…"
