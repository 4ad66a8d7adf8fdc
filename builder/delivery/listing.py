"""Files of a folder -> their hashes and sizes, and the text that lists them as `sha256sum -c` reads it."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import NamedTuple

LIST = "files.sha256"


class Piece(NamedTuple):
    """One published file."""

    digest: str
    size: int


def read_listing(folder: Path, paths: Iterable[str]) -> dict[str, Piece]:
    """Hash the files as they lie there, in the order of their paths."""
    return {path: _piece((folder / path).read_bytes()) for path in sorted(paths)}


def listed(listing: Mapping[str, Piece], more: Mapping[str, bytes]) -> bytes:
    """Return one line a file, sorted by path: its hash, two blanks, its path."""
    whole = {**listing, **{path: _piece(data) for path, data in more.items()}}
    return "".join(f"{whole[path].digest}  {path}\n" for path in sorted(whole)).encode()


def edition_of(text: bytes) -> str:
    """Return the hash of the list: two books with the same one are the same, byte for byte."""
    return hashlib.sha256(text).hexdigest()


def _piece(data: bytes) -> Piece:
    return Piece(hashlib.sha256(data).hexdigest(), len(data))
