"""Files of a folder -> their hashes and sizes, and the text that lists them as `sha256sum -c` reads it."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path

from builder.model.files import Piece, piece_of

LIST = "files.sha256"


def read_listing(
    where: Callable[[str], Path], paths: Iterable[str], known: Mapping[str, Piece]
) -> dict[str, Piece]:
    """Hash the files as they lie there, in the order of their paths; those that were hashed when they were made are."""
    return {path: known.get(path) or piece_of(where(path).read_bytes()) for path in sorted(paths)}


def listed(listing: Mapping[str, Piece], more: Mapping[str, bytes]) -> bytes:
    """Return one line a file, sorted by path: its hash, two blanks, its path."""
    whole = {**listing, **{path: piece_of(data) for path, data in more.items()}}
    return "".join(f"{whole[path].digest}  {path}\n" for path in sorted(whole)).encode()


def edition_of(text: bytes) -> str:
    """Return the hash of the list: two books with the same one are the same, byte for byte."""
    return hashlib.sha256(text).hexdigest()
