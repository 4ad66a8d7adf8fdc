"""What is kept of one build: its files as they were read, its results with what they hang on, what it published."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from builder.keeping.store import Bytes, SpoiledError, Store
from builder.model.files import Piece, Seen


class KeptFile(NamedTuple):
    """One record's file as it was read and shaped; nothing was wrong with it."""

    path: str
    seen: Seen
    shaped: Bytes
    """The result, packed."""


class KeptUnit(NamedTuple):
    """One result: a record's page with all that is made beside it, a procedure judged, a page of the book's own."""

    own: bytes
    """A mark of what it was made from by name: the record itself."""
    facts: bytes
    """Marks of all else that was asked while it was made, eight bytes each."""
    paths: tuple[str, ...]
    """Its files."""
    result: Bytes
    """What the build needs of it, packed."""
    apart: Bytes = b""
    """What a build seldom needs of it, packed."""


class Glance(NamedTuple):
    """What shows, without reading anything else of what is kept, that nothing at all was touched."""

    code: bytes
    order: bytes
    """A mark of what was ordered, of the settings and of all templates."""
    sources: bytes
    """A mark of how all files of the layers were seen before they were read."""
    site: bytes
    """A mark of how all files of the book were seen once it was published."""
    book: str
    """The book's id."""
    told: bytes
    """What the build had to tell, packed."""


class Kept(NamedTuple):
    """All of it."""

    code: bytes
    """A mark of Seambook itself and of the libraries it runs on; and of the settings and templates of the book."""
    settings: bytes
    scales: bytes
    started: int
    """Before the first file was read, in nanoseconds: what was changed later may have been read half-way."""
    files: Mapping[tuple[str, str], KeptFile]
    """By kind and id."""
    facts: Mapping[int, bytes]
    """Every fact that there was, with a mark of what it was."""
    units: Mapping[str, KeptUnit]
    pieces: Mapping[str, tuple[Piece, Seen]]
    """Every published file with its hash and size, and how it was seen on the disk."""
    store: Store | None = None
    """Where results lie; None where nothing was read."""
    segments: int = 0
    first: int = 0
    """How many segments the file has, and how long it is with the first one alone."""

    def bytes_of(self, found: Bytes) -> bytes:
        """Return bytes, wherever they are; raises SpoiledError."""
        if isinstance(found, bytes):
            return found
        if self.store is None:
            raise SpoiledError("what was kept is gone")
        return self.store.bytes_of(found)


EMPTY = Kept(b"", b"", b"", 0, {}, {}, {}, {})
