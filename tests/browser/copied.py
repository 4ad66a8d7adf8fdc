"""From the supplied library to both copies of it in one file each, drawn once."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import NamedTuple

from builder import layers, publish
from builder.drawing import Drawing
from builder.order import Order
from builder.passes import Way
from builder.pocket_copy import pocket_copy
from builder.supplied import templates
from tests.site.building import ROOT

PART = "free-spot-welds"
SHOWN = "iframe.pocket-leaf:not([hidden])"
"""The page of the book that a copy shows."""


class Copies(NamedTuple):
    """The whole supplied library and one procedure of it, each in one file."""

    whole: Path
    part: Path
    paths: tuple[str, ...]
    """What the folder holds from which the whole copy was made."""


def copied(folder: Path) -> Copies:
    """Draw the library once and make both copies of it."""
    chosen = layers.choose(("supplied",), ROOT)
    whole, part = folder / "whole.html", folder / "part.html"
    way = Way(Order(chosen.layers, templates(), folder / "site", chosen.name, pocket=whole))
    gathered = way.gather(way.discover())
    catalogue = way.connect(gathered)
    programs = way.judge(gathered, catalogue)
    with publish.open_draft(folder / "site", way.settings().id) as draft:
        drawing = Drawing(way, gathered, catalogue, programs, draft.desk, way.keeper)
        paths = drawing.draw()
        for order in (way.order, replace(way.order, pocket=part, only=(PART,))):
            way.order = order
            with pocket_copy(drawing, paths) as copy:
                assert copy is not None
                copy.place()
    return Copies(whole, part, tuple(paths))
