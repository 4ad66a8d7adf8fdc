"""A view of the body shell as data in, its drawing out: line work, and every panel of the book a way to its page.

A view is drawn in its own units and scaled by the page, so lines keep their width whatever the scale. Text cannot:
names are set as large as the unfolded sheet needs them on a wide screen, and a small screen leaves them to the list
in words.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache
from html import escape

from builder.model.drawings import Body, DrawnPanel, ShellView
from builder.model.outline import Line, area_of, points_of
from builder.render.drawings.room import Polygon, Spot, find_room
from builder.render.drawings.strokes import at

_NARROWEST_SHEET = 944.0
"""Pixels the sheet takes on the narrowest screen that shows it unfolded (drawing.css: 64em)."""
_NARROWEST_VIEW = 288.0
"""Pixels the widest view takes on a phone of 320."""
_TEXT = 14.5
"""Least pixels of text."""
_GUTTER = 0.02
"""Of the sheet's width between two views of a row."""
_LEAD = 1.3
"""Distance of two lines of text, in sizes."""


def draw_view(body: Body, view: ShellView) -> str:
    """One view as SVG text. Its width is a share of the sheet's, its height of a phone's; the style sheet takes one."""
    sheet = body.width * (1 + _GUTTER * (max(map(len, body.rows)) - 1))
    size, small = sheet * _TEXT / _NARROWEST_SHEET, body.widest * _TEXT / _NARROWEST_VIEW
    band = small * 1.5
    height = view.height + band
    share, phone = 100 * view.width / sheet, 90 * height / body.widest
    turned = " upended" if view.upended else ""
    names = _names(view, size)
    marks = [_lines(style, lines) for style, lines in view.strokes]
    marks += [_panel(panel, size, names[panel]) for panel in _largest_first(view.panels)]
    return (
        f'<svg class="drawing shell-view{turned} column-{view.column}" role="group" aria-label="{escape(view.say)}" '
        f'viewBox="0 {at(-band)} {at(view.width)} {at(height)}" width="{share:.2f}%" height="{phone:.2f}vw">'
        f'{_title("when-wide", view.say, size, band)}{_title("when-narrow", view.say, small, band)}'
        f'<g class="flat"><rect class="bare" width="{at(view.width)}" height="{at(view.height)}"/>'
        f'{"".join(marks)}</g></svg>'
    )


def _title(style: str, say: str, size: float, band: float) -> str:
    y = size - band if style == "when-narrow" else -size * 0.5
    return f'<text class="{style} say" aria-hidden="true" x="0" y="{at(y)}" font-size="{at(size)}">{escape(say)}</text>'


def _largest_first(panels: Iterable[DrawnPanel]) -> list[DrawnPanel]:
    """Small ones last, so that they lie on top and can be pressed; those behind after all, in dashes."""
    return sorted(panels, key=lambda panel: (panel.hidden, -area_of(points_of(panel.outlines[0])), panel.href))


def _panel(panel: DrawnPanel, size: float, spots: Sequence[Spot]) -> str:
    """A panel as a link: its outline, a wider reach for a finger, and its name where there is room."""
    words = "".join(f'<g class="name" aria-hidden="true">{_words(spot, size)}</g>' for spot in spots)
    outline = _path("behind" if panel.hidden else "region", panel.outlines, closed=True)
    return (
        f'<a class="panel" href="{escape(panel.href)}"><title>{escape(panel.title)}</title>'
        f'{_path("reach", panel.outlines, closed=True)}{outline}{words}</a>'
    )


def _words(spot: Spot, size: float) -> str:
    """The lines of a name about their middle; what stands upright is read from the right, as on any drawing."""
    x, y = spot.middle
    turn = f' transform="rotate(-90 {at(x)} {at(y)})"' if spot.upright else ""
    top = y - size * _LEAD * (len(spot.lines) - 1) / 2 + size * 0.35
    return "".join(
        f'<text x="{at(x)}" y="{at(top + size * _LEAD * index)}" font-size="{at(size)}" text-anchor="middle"{turn}>'
        f"{escape(line)}</text>"
        for index, line in enumerate(spot.lines)
    )


@lru_cache(maxsize=16)
def _names(view: ShellView, size: float) -> dict[DrawnPanel, list[Spot]]:
    """Where each panel's name has room, clear of the panels that lie upon it."""
    areas = {panel: [Polygon(points_of(line)) for line in panel.outlines] for panel in view.panels}
    order = _largest_first(view.panels)
    found: dict[DrawnPanel, list[Spot]] = {}
    for index, panel in enumerate(order):
        above = [area for other in order[index + 1 :] for area in areas[other]]
        seen = areas[panel] if not panel.hidden else ()
        spots = (find_room(panel.title, area, above, size, size * _LEAD) for area in seen)
        found[panel] = [spot for spot in spots if spot is not None]
    return found


def _lines(style: str, lines: tuple[Line, ...]) -> str:
    return _path(style, lines, closed=False)


def _path(style: str, lines: tuple[Line, ...], *, closed: bool) -> str:
    return f'<path class="{style}" d="{"".join(_course(line) + "Z" * closed for line in lines)}"/>'


def _course(line: Line) -> str:
    """A line as path data."""
    letters = {2: "L", 4: "Q", 6: "C"}
    parts = [letters[len(move)] + " ".join(map(at, move)) for move in line[1:]]
    return f"M{at(line[0][-2])} {at(line[0][-1])}" + "".join(parts)
