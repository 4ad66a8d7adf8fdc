"""What is opened in the bay -> the way there, for the pages that lead to it."""

from __future__ import annotations

from builder.model.views import Link, Links
from builder.view.here import Here
from builder.view.lists import BAY

TITLE = "In the bay"
KEEPS = "one step at a time; keeps ticks, readings, releases and photographs"


def way_to_bay(here: Here, asked: str) -> Links:
    """Return the way into the bay: `asked` says what is opened there."""
    return Links("To work from", (Link(TITLE, f"{here.root}{BAY}#{asked}", KEEPS),), anchor="to_bay")
