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


def choose(contents: Sequence[str], folder: Path) -> Chosen:
    """Take the layers named on the command line, else those of the folder's shop.yaml, else the supplied library."""
    name: str | None = None
    words: Sequence[str] = contents
    if not words:
        settings, problems = _shop(folder)
        if problems:
            return Chosen((), None, problems)
        words = settings.layers if settings is not None else (WORD,)
        name = settings.name if settings is not None else None
    found = tuple(layer(word, folder) for word in words)
    for word, one in zip(words, found, strict=True):
        if not one.path.is_dir():
            raise LayerError(f'there is no folder of content at "{word}"', "name a folder of records, or supplied")
    return Chosen(found, name, ())


def _shop(folder: Path) -> tuple[ShopSettings | None, tuple[Problem, ...]]:
    tree, problems = pipeline.read_settings(folder, SHOP_FILE, SHOP_FILE)
    if tree is None:
        return None, problems
    settings, more = pipeline.shape_settings(ShopSettings, tree, SHOP_FILE)
    return settings, (*problems, *more)
