"""What is kept <-> bytes, read as our own or not at all.

Objects are written by pickle and read by an unpickler that knows nothing but Seambook's own plain types: whoever can
write to the folder can make a build do needless work, not run a program of theirs.
"""

from __future__ import annotations

import io
import pickle
from typing import Any

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
