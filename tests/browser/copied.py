"""The supplied library as it was built -> both copies of it in one file each."""

from __future__ import annotations

import os
import shutil
from dataclasses import replace
from pathlib import Path
from typing import NamedTuple

from builder import layers, pipeline
from builder.order import Order
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
    """What the folder holds from which they were made."""


def copied(site: Path, kept: Path, folder: Path) -> Copies:
    """Make both copies from the library as it was built at `site`, with what was kept of that."""
    shutil.copytree(site, folder / "site", copy_function=os.link)
    shutil.copyfile(kept, folder / "kept")
    chosen = layers.choose(("supplied",), ROOT)
    order = Order(chosen.layers, templates(), folder / "site", chosen.name, kept=folder / "kept")
    whole, part = folder / "whole.html", folder / "part.html"
    for one in (replace(order, pocket=whole), replace(order, pocket=part, only=(PART,))):
        outcome = pipeline.make(one)
        assert outcome.published is not None, outcome.problems
        assert outcome.published.changed == 0, "the copies hold what the book is"
    paths = (path.relative_to(site).as_posix() for path in sorted(site.rglob("*")) if path.is_file())
    return Copies(whole, part, tuple(paths))
