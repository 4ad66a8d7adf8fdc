"""Drawings as data in, SVG text out; `draw`, `draw_view` for the body shell, `plot` and `code` are the entry points.

Every figure is 340 user units wide and lays out its own labels, so that nothing is scaled down on the narrowest
phone; a view of the shell is drawn in its own units. Lines carry classes and no colours: the style sheet makes them
ink on paper, or its negative.
"""

from __future__ import annotations

from functools import lru_cache

from builder.model.drawings import Section
from builder.model.laid import Laid
from builder.model.plots import Chart
from builder.model.strip import Sheets
from builder.model.views import Figure, Html, Plotted
from builder.render.drawings import bend, channel, chart, layout, marks, opening, run, section, strip
from builder.render.drawings.code import code
from builder.render.drawings.shell import draw_view

__all__ = ["code", "draw", "draw_view", "lay", "plot", "strip_sheets"]
_SKETCHES = {"marks": marks.draw, "bend": bend.draw, "channel": channel.draw, "opening": opening.draw}


@lru_cache(maxsize=4096)
def draw(figure: Figure) -> Html:
    """The figure's drawing, named by its title and described by its words."""
    drawing = figure.drawing
    if isinstance(drawing, Section):
        return Html(section.draw(drawing, figure.title, figure.words))
    return Html(run.draw(drawing, figure.title, figure.words))


def lay(laid: Laid) -> Html:
    """The layout of a seam's welds."""
    return Html(layout.draw(laid.layout, laid.title, laid.words))


def strip_sheets(sheets: Sheets) -> tuple[Html, ...]:
    """The sheets of a marking strip."""
    return tuple(map(Html, strip.sheets(sheets.strip)))


def plot(plotted: Plotted) -> Html:
    """The drawing of a chart or a sketch."""
    drawn = plotted.plot
    if isinstance(drawn, Chart):
        return Html(chart.draw(drawn, plotted.title, plotted.words))
    return Html(_SKETCHES[drawn.form](drawn, plotted.title, plotted.words))
