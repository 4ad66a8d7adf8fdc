"""The --content words, or the shop's own file -> the layers of the book."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from builder import pipeline
from builder.model.files import Layer
from builder.model.problem import Problem
from builder.model.records.settings import ShopSettings
from builder.supplied import WORD, layer

SHOP_FILE = "shop.yaml"


class LayerError(Exception):
    """A layer that is not there: nothing an author wrote in a record, so no problem with a place."""

    def __init__(self, message: str, do: str) -> None:
        super().__init__(message)
        self.do = do


class Chosen(NamedTuple):
    """The layers, lowest first, and what the shop calls itself."""

    layers: tuple[Layer, ...]
    name: str | None
    problems: tuple[Problem, ...]
    shop: ShopSettings | None = None
    """All that the shop says of itself; None where the layers were named on the command line."""


def choose(contents: Sequence[str], folder: Path) -> Chosen:
    """Take the layers named on the command line, else those of the folder's shop.yaml, else the supplied library."""
    shop: ShopSettings | None = None
    words: Sequence[str] = contents
    if not words:
        shop, problems = _shop(folder)
        if problems:
            return Chosen((), None, problems)
        words = shop.layers if shop is not None else (WORD,)
    found = _told_apart(tuple(layer(word, folder) for word in words))
    for word, one in zip(words, found, strict=True):
        if not one.path.is_dir():
            raise LayerError(f'there is no folder of content at "{word}"', "name a folder of records, or supplied")
    return Chosen(found, shop.name if shop is not None else None, (), shop)


def _told_apart(found: tuple[Layer, ...]) -> tuple[Layer, ...]:
    """A shop's own folder may be called content, as the supplied one is shown: then that one goes by its word."""
    own = {one.label for one in found if not one.supplied}
    return tuple(one._replace(label=WORD) if one.supplied and one.label in own else one for one in found)


def _shop(folder: Path) -> tuple[ShopSettings | None, tuple[Problem, ...]]:
    tree, problems = pipeline.read_settings(folder, SHOP_FILE, SHOP_FILE)
    if tree is None:
        return None, problems
    settings, more = pipeline.shape_settings(ShopSettings, tree, SHOP_FILE)
    return settings, (*problems, *more)
