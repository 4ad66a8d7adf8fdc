"""What is kept <-> bytes on the disk: whole and our own, or as good as none.

Objects are written by pickle and read by an unpickler that knows nothing but Seambook's own plain types: whoever can
write to the folder can make a build do needless work, not run a program of theirs.
"""

from __future__ import annotations

import io
import os
import pickle
from contextlib import suppress
from hashlib import sha256
from pathlib import Path
from typing import Any

from builder.keeping.kept import EMPTY, Kept

_HEAD = b"seambook kept 1\n"
_PLAIN = {
    "builtins": frozenset({"frozenset", "set"}),
    "fractions": frozenset({"Fraction"}),
}
_OWN = ("builder.model.", "builder.keeping.", "builder.formula.fault", "builder.search.page_words",
        "builder.view.job_book", "builder.gathered", "builder.drawing")  # fmt: skip
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


def write_kept(path: Path, kept: Kept) -> None:
    """Write it beside and put it in its place in one step; where the disk refuses, nothing is kept."""
    data = packed(tuple(kept))
    beside = path.with_name(f"{path.name}-{os.getpid()}")
    try:
        beside.write_bytes(_HEAD + sha256(data).digest() + data)
        beside.replace(path)
    except OSError:
        with suppress(OSError):
            beside.unlink()


def read_kept(path: Path) -> Kept:
    """Read what was kept; nothing where the file is missing, damaged, of another edition or not ours."""
    try:
        data = path.read_bytes()
        head, mark, told = data[:len(_HEAD)], data[len(_HEAD):len(_HEAD) + 32], data[len(_HEAD) + 32:]
        if head != _HEAD or sha256(told).digest() != mark:
            return EMPTY
        return Kept(*unpacked(told))
    except Exception:  # whatever a damaged file makes of itself, it is as good as none
        return EMPTY
