"""A folder -> how each of its files is seen on the disk, without opening one; and one mark of them all."""

from __future__ import annotations

import os
import stat
from array import array
from collections.abc import Container, Mapping
from functools import cached_property
from hashlib import blake2b
from pathlib import Path
from typing import NamedTuple

from builder.model.files import Seen, seen_in


class Look:
    """How the files of folders were seen at one moment, by their paths."""

    def __init__(self, files: Mapping[str, Seen], *, is_plain: bool) -> None:
        self.files = files
        self.is_plain = is_plain
        """Whether there was nothing beside plain files and folders: where a link leads to is not looked at."""

    @cached_property
    def mark(self) -> bytes:
        """Return what differs as soon as one file does, or there is one more or less."""
        paths = sorted(self.files)
        numbers = array("Q", (number & _64_BITS for path in paths for number in self.files[path]))
        names = "\0".join(paths).encode("utf-8", "surrogateescape")
        return blake2b(names + b"\0\0" + numbers.tobytes(), digest_size=16).digest()

    @cached_property
    def newest(self) -> int:
        """Return when one of them was last touched, in nanoseconds."""
        return max((max(written, changed) for _, _, written, changed in self.files.values()), default=0)


_64_BITS = (1 << 64) - 1


class _Way(NamedTuple):
    folder: str
    shown: str


def look(folder: Path, hidden: Container[str] | None = None) -> Look:
    """Look at all files in a folder, by their paths in it; of hidden names only those in `hidden`, where it is given.

    A folder that cannot be read is as good as empty: whoever reads its files says so.
    """
    files: dict[str, Seen] = {}
    is_plain = True
    ways = [_Way(str(folder), "")]
    while ways:
        way = ways.pop()
        try:
            entries = list(os.scandir(way.folder))
        except OSError:
            is_plain = False
            continue
        for entry in entries:
            if hidden is not None and entry.name.startswith(".") and entry.name not in hidden:
                continue
            try:
                found = entry.stat(follow_symlinks=False)
            except OSError:
                is_plain = False
                continue
            if stat.S_ISDIR(found.st_mode):
                ways.append(_Way(entry.path, f"{way.shown}{entry.name}/"))
            elif stat.S_ISREG(found.st_mode):
                files[way.shown + entry.name] = seen_in(found)
            else:
                is_plain = False
    return Look(files, is_plain=is_plain)
