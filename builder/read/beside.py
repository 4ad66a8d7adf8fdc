"""The picture files of one folder and the records they lie beside -> a problem for each that no record shows."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path as DiskPath
from typing import NamedTuple

from builder.model.files import SourceFile
from builder.model.pictures import PICTURE_ENDINGS
from builder.model.place import Span
from builder.model.problem import Problem
from builder.read import codes
from builder.read.plain import parse_plain
from builder.read.text import read_text


class Lying(NamedTuple):
    """A picture file in a folder of records."""

    path: DiskPath
    shown: str


def strays(pictures: Iterable[Lying], records: Iterable[SourceFile]) -> Iterator[Problem]:
    """Tell each picture that no record of the same layer shows; nobody would see it in the book."""
    shown = {name for record in records for name in _shown_by(record)}
    for picture in pictures:
        if picture.path.name not in shown:
            yield Problem(
                codes.STRAY_PICTURE, Span(picture.shown, 1, 1, 2), f'no record shows "{picture.path.name}"',
                f"write {picture.path.stem}.yaml beside it, or take the picture away",
            )  # fmt: skip


def _shown_by(record: SourceFile) -> Iterable[str]:
    """Return the names a record's picture may have: the one it says, else its own with any ending."""
    text, _ = read_text(record)
    value = parse_plain(text) if text is not None and "file:" in text else None
    named = value.get("file") if isinstance(value, dict) else None
    return (named,) if isinstance(named, str) else (f"{record.ref.id}{ending}" for ending in PICTURE_ENDINGS)
