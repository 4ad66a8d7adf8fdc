"""What the first pass over a book's records hands on: of one file, and of all of them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from builder.formula import Fault
from builder.model.pictures import WebPicture
from builder.model.problem import Problem
from builder.model.records import Record
from builder.model.records.supporting import Term
from builder.model.reference import Ref
from builder.model.shelf import Shelf
from builder.model.summary import Summary


class Shaped(NamedTuple):
    """One file after reading and shaping; a record that travels between processes does so as bytes."""

    ref: Ref
    record: bytes | Record | None
    summary: Summary | None
    problems: tuple[Problem, ...]
    digest: bytes = b""
    """Of the file's bytes."""
    picture: WebPicture | None = None
    """Of a figure."""
    faults: tuple[Fault, ...] = ()
    """Of its picture."""
    said: bytes = b""
    """A mark of all that the record says, whatever comments stand in its file and however it is laid out."""
    told: bytes = b""
    """A mark of the summary."""


class Gathered(NamedTuple):
    """Every file of the book after the first pass."""

    shelf: Shelf
    """The kinds that are few and asked for everywhere, whole."""
    packed: Mapping[Ref, bytes | Record]
    """All others; where they are many or were read by several processes, packed until they are drawn."""
    summaries: Mapping[Ref, Summary]
    broken: frozenset[Ref]
    scales: Mapping[str, tuple[str, ...]]
    pictures: Mapping[str, WebPicture]
    """By the figure's id: how large each is, since other pages show it too."""
    said: Mapping[Ref, bytes]
    """Of every record a mark of all that it says; where nothing is kept there is none."""
    told: Mapping[Ref, bytes]
    """Of every record a mark of its summary."""
    fingerprint: str
    """Over what every file says, as bytes, and by which name it is known."""

    def names(self) -> list[tuple[str, ...]]:
        """Return of each word that the glossary explains all its names."""
        terms = (record for record in self.shelf.values() if isinstance(record, Term))
        return [(record.title, *record.synonyms) for record in terms if record.synonyms]
