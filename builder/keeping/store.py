"""A file that only grows -> pieces of it, read when they are asked for, each held against its hash."""

from __future__ import annotations

import os
from collections.abc import Callable
from hashlib import blake2b
from pathlib import Path
from typing import BinaryIO, NamedTuple

from builder.model.problem import OutsideError

_MARK = 8
"""Bytes of a hash: it finds a disk's mistakes, and what anybody writes on purpose is read as no more than data."""


class SpoiledError(OutsideError):
    """What was kept is no longer what was written; the build begins once more and takes nothing of it."""


class Located(NamedTuple):
    """Bytes by where they lie in the file."""

    at: int
    size: int
    mark: bytes


Bytes = bytes | Located
_CLOSED = -1


class Store:
    """One file, open for as long as something in it is asked for; whoever puts another in its place does no harm.

    It is held by its number and not as an object of Python's, which complains when both go as one.
    """

    def __init__(self, path: Path, end: int) -> None:
        self._file = _CLOSED  # should it not open
        self._file = os.open(path, os.O_RDONLY | getattr(os, "O_BINARY", 0))
        self.end = end
        """How long it was when it was read, or was last written to by this process."""

    def bytes_of(self, found: Bytes) -> bytes:
        """Return bytes, wherever they are; raises SpoiledError."""
        if isinstance(found, bytes):
            return found
        data = self.read(found.at, found.size)
        if mark_of(data) != found.mark:
            raise SpoiledError("what was kept is damaged")
        return data

    def read(self, at: int, size: int) -> bytes:
        """Read from a place on; other processes that inherited the file may do so at the same time."""
        try:
            if hasattr(os, "pread"):
                return os.pread(self._file, size, at)
            os.lseek(self._file, at, os.SEEK_SET)
            return os.read(self._file, size)
        except OSError as error:
            raise SpoiledError(f"what was kept cannot be read: {error}") from error

    def is_at(self, path: Path) -> bool:
        """Whether this is the file at a path, and nobody wrote to it since."""
        try:
            there, here = path.stat(), os.fstat(self._file)
        except OSError:
            return False
        return os.path.samestat(there, here) and there.st_size == self.end

    def is_same(self, file: BinaryIO) -> bool:
        """Whether this is the file that is read elsewhere."""
        return os.path.samestat(os.fstat(file.fileno()), os.fstat(self._file))

    def close(self) -> None:
        """Read no more of it."""
        file, self._file = self._file, _CLOSED
        if file != _CLOSED:
            os.close(file)

    __del__ = close


class Laying:
    """Writes bytes behind each other and says where they lie."""

    def __init__(self, file: BinaryIO, bytes_of: Callable[[Bytes], bytes]) -> None:
        self._file, self._bytes_of = file, bytes_of

    def laid(self, found: Bytes) -> Located:
        """Write bytes down; return where."""
        data = self._bytes_of(found)
        at = self._file.tell()
        self._file.write(data)
        return Located(at, len(data), mark_of(data))


def mark_of(data: bytes) -> bytes:
    """Return the hash of bytes in the file."""
    return blake2b(data, digest_size=_MARK).digest()
