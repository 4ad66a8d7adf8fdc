"""What is kept <-> bytes on the disk: whole and our own, or as good as none.

Objects are written by pickle and read by an unpickler that knows nothing but Seambook's own plain types: whoever can
write to the folder can make a build do needless work, not run a program of theirs.
"""

from __future__ import annotations

import io
import os
import pickle
from collections.abc import Callable
from contextlib import suppress
from functools import partial
from hashlib import sha256
from pathlib import Path
from typing import Any, BinaryIO

from builder.keeping.kept import EMPTY, Glance, Kept

_HEAD = b"seambook kept 3\n"
_LENGTH, _DIGEST = 8, 32
"""Bytes before each part that say how long it is, and its SHA-256."""
_PARTS = 2
_PLAIN = {
    "builtins": frozenset({"frozenset", "set"}),
    "fractions": frozenset({"Fraction"}),
}
_OWN = ("builder.model.", "builder.keeping.", "builder.formula.fault", "builder.search.page_words",
        "builder.view.job_book", "builder.gathered", "builder.drawing",
        "builder.indexing")  # fmt: skip
"""Modules whose types may be kept."""


class _Reader(pickle.Unpickler):
    """Reads our own plain types alone."""

    def find_class(self, module: str, name: str) -> Any:
        """Return a type; anything that is none, or of somebody else, is refused."""
        if name in _PLAIN.get(module, ()) or (f"{module}.".startswith(_OWN) and "." not in name):
            found = super().find_class(module, name)
            # What a module of ours takes from elsewhere is not ours.
            if isinstance(found, type) and found.__module__ == module:
                return found
        raise pickle.UnpicklingError(f"{module}.{name} is nothing that is kept")


def packed(value: object) -> bytes:
    """Return a value as bytes."""
    return pickle.dumps(value, pickle.HIGHEST_PROTOCOL)


def unpacked(data: bytes) -> Any:
    """Return the value; raises UnpicklingError for what is not our own."""
    return _Reader(io.BytesIO(data)).load()


def write_kept(path: Path, glance: Glance | None, kept: Kept) -> None:
    """Write it beside and put it in its place in one step; where the disk refuses, nothing is kept."""
    beside = path.with_name(f"{path.name}-{os.getpid()}")
    try:
        with beside.open("xb") as file:
            file.write(_HEAD)
            for part in (None if glance is None else tuple(glance), tuple(kept)):
                data = packed(part)
                file.write(len(data).to_bytes(_LENGTH, "big") + sha256(data).digest())
                file.write(data)
        beside.replace(path)
    except OSError:
        with suppress(OSError):
            beside.unlink()


def read_glance(path: Path) -> Glance | None:
    """Read what shows whether anything was touched; None where there is none, or nothing that is whole and ours."""
    try:
        with path.open("rb") as file:
            return Glance(*_parts(file)[0]())
    except Exception:  # as below
        return None


def read_kept(path: Path) -> Kept:
    """Read what was kept; nothing where the file is missing, damaged, of another edition or not ours."""
    try:
        with path.open("rb") as file:
            return Kept(*_parts(file)[1]())
    except Exception:  # whatever a damaged file makes of itself, it is as good as none
        return EMPTY


def _parts(file: BinaryIO) -> list[Callable[[], Any]]:
    """Find the parts of a whole file, each to be read when it is asked for."""
    if file.read(len(_HEAD)) != _HEAD:
        raise pickle.UnpicklingError("of another edition")
    parts: list[Callable[[], Any]] = []
    end = os.fstat(file.fileno()).st_size
    while (at := file.tell()) < end:
        length = int.from_bytes(file.read(_LENGTH), "big")
        parts.append(partial(_part, file, at, length))
        file.seek(at + _LENGTH + _DIGEST + length)
    if at != end or len(parts) != _PARTS:
        raise pickle.UnpicklingError("not whole")
    return parts


def _part(file: BinaryIO, at: int, length: int) -> Any:
    file.seek(at + _LENGTH)
    mark, data = file.read(_DIGEST), file.read(length)
    if sha256(data).digest() != mark:
        raise pickle.UnpicklingError("not whole")
    return unpacked(data)
