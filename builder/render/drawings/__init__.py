"""Drawings as data in, SVG text out; `draw`, for the body shell `draw_view`, and `code` are the entry points.

Every figure is 340 user units wide and lays out its own labels, so that nothing is scaled down on the narrowest
phone; a view of the shell is drawn in its own units. Lines carry classes and no colours: the style sheet makes them
ink on paper, or its negative.
"""

from __future__ import annotations

from functools import lru_cache

from builder.model.drawings import Section
from builder.model.views import Figure, Html
from builder.render.drawings import run, section
from builder.render.drawings.code import code
from builder.render.drawings.shell import draw_view

__all__ = ["code", "draw", "draw_view"]


@lru_cache(maxsize=4096)
def draw(figure: Figure) -> Html:
    """The figure's drawing, named by its title and described by its words."""
    drawing = figure.drawing
    if isinstance(drawing, Section):
        return Html(section.draw(drawing, figure.title, figure.words))
    return Html(run.draw(drawing, figure.title, figure.words))
