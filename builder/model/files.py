"""Content files: where each record's text stands, and which layer it comes from."""

from __future__ import annotations

import hashlib
import os
from pathlib import Path
from typing import NamedTuple

from builder.model.reference import Ref

TAKEN_FROM = ".taken-from"
"""A layer's folder for the records that its own were made from; hidden, so no folder of records."""


class Layer(NamedTuple):
    """One folder of content; later layers win by id."""

    path: Path
    label: str
    """As shown before its files in problems, with forward slashes."""
    supplied: bool = False
    """The library that comes with Seambook: nobody writes there."""

    def taken_from(self, ref: Ref, folder: str, ending: str) -> Path:
        """Return where a copy of the record is kept that this layer's own takes the place of, as it was taken."""
        return self.path / TAKEN_FROM / folder / f"{ref.id}{ending}"


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


Seen = tuple[int, int, int, int]
"""Size, number, time of the last writing, and time at which the system last changed anything about a file, which no
program can set: the same as long as nobody touched it."""


def seen_in(found: os.stat_result) -> Seen:
    """Return how a file is seen; times in nanoseconds."""
    return found.st_size, found.st_ino, found.st_mtime_ns, found.st_ctime_ns


class Piece(NamedTuple):
    """One published file."""

    digest: str
    size: int


def piece_of(data: bytes) -> Piece:
    """Hash a file that is made."""
    return Piece(hashlib.sha256(data).hexdigest(), len(data))


class Published(NamedTuple):
    """How many files a publication touched, dot-files apart."""

    changed: int
    """New, or with other bytes than before."""
    unchanged: int
    """With the bytes they had."""
    removed: int
    """Of the old folder, and no longer there."""


class Discovery(NamedTuple):
    """Every file of the book, sorted by kind and id."""

    files: tuple[SourceFile, ...]
    overridden: tuple[Overridden, ...]
