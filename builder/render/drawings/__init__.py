"""Drawings as data in, SVG text out; `draw` is the entry point.

Every drawing is 340 user units wide and lays out its own labels, so that nothing is scaled down on the narrowest
phone. Lines carry classes and no colours: the style sheet makes them ink on paper, or its negative.
"""

from __future__ import annotations

from functools import lru_cache

from builder.model.drawings import Section
from builder.model.views import Figure, Html
from builder.render.drawings import run, section

__all__ = ["draw"]


@lru_cache(maxsize=4096)
def draw(figure: Figure) -> Html:
    """The figure's drawing, named by its title and described by its words."""
    drawing = figure.drawing
    if isinstance(drawing, Section):
        return Html(section.draw(drawing, figure.title, figure.words))
    return Html(run.draw(drawing, figure.title, figure.words))
