"""A folder -> the bytes of its files; what a process has read before and nobody touched since is not read again.

Whoever builds again and again reads some hundred templates each time, in three places: to open so many files takes
longer than to look at them.
"""

from __future__ import annotations

import time
from pathlib import Path

from builder.model.files import Seen
from builder.model.look import LEAST_AGE, look

_HELD: dict[Path, tuple[Seen, bytes]] = {}


def bytes_in(folder: Path) -> dict[str, bytes]:
    """Return what all files of a folder hold, by their paths in it, in sorted order; hidden ones are among them.

    Raises OSError where one cannot be read. Where a link is among them, all are read: what it leads to is not seen.
    """
    now = time.time_ns()
    seen = look(folder, lambda _: True)
    if not seen.is_plain:
        files = sorted(path for path in folder.rglob("*") if path.is_file())
        return {path.relative_to(folder).as_posix(): path.read_bytes() for path in files}
    return {path: _bytes_of(folder / path, seen.files[path], now) for path in sorted(seen.files)}


def _bytes_of(path: Path, seen: Seen, now: int) -> bytes:
    known = _HELD.get(path)
    if known is not None and known[0] == seen:
        return known[1]
    data = path.read_bytes()
    if max(seen[2:]) < now - LEAST_AGE:
        _HELD[path] = (seen, data)
    return data
