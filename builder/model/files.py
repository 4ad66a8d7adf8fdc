"""Content files: where each record's text stands, and which layer it comes from."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from builder.model.reference import Ref


class Layer(NamedTuple):
    """One folder of content; later layers win by id."""

    path: Path
    label: str
    """As shown before its files in problems, with forward slashes."""


class SourceFile(NamedTuple):
    """One record's file."""

    path: Path
    shown: str
    """As problems name it."""
    ref: Ref


class Overridden(NamedTuple):
    """A record of an earlier layer that a later one replaces."""

    ref: Ref
    loser: str
    winner: str


class Discovery(NamedTuple):
    """Every file of the book, sorted by kind and id."""

    files: tuple[SourceFile, ...]
    overridden: tuple[Overridden, ...]
