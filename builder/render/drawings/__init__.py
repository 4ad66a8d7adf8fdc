"""Drawings as data in, SVG text out; `draw`, `draw_view` for the body shell, `plot` and `code` are the entry points.

Every figure is 340 user units wide and lays out its own labels, so that nothing is scaled down on the narrowest
phone; a view of the shell is drawn in its own units. Lines carry classes and no colours: the style sheet makes them
ink on paper, or its negative.
"""

from __future__ import annotations

from functools import lru_cache

from builder.model.drawings import Section
from builder.model.plots import Chart
from builder.model.views import Figure, Html, Plotted
from builder.render.drawings import bend, channel, chart, marks, opening, run, section
from builder.render.drawings.code import code
from builder.render.drawings.shell import draw_view

__all__ = ["code", "draw", "draw_view", "plot"]
_SKETCHES = {"marks": marks.draw, "bend": bend.draw, "channel": channel.draw, "opening": opening.draw}


@lru_cache(maxsize=4096)
def draw(figure: Figure) -> Html:
    """The figure's drawing, named by its title and described by its words."""
    drawing = figure.drawing
    if isinstance(drawing, Section):
        return Html(section.draw(drawing, figure.title, figure.words))
    return Html(run.draw(drawing, figure.title, figure.words))


def plot(plotted: Plotted) -> Html:
    """The drawing of a chart or a sketch."""
    drawn = plotted.plot
    if isinstance(drawn, Chart):
        return Html(chart.draw(drawn, plotted.title, plotted.words))
    return Html(_SKETCHES[drawn.form](drawn, plotted.title, plotted.words))
