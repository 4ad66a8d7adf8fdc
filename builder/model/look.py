"""A folder -> how each of its files is seen on the disk, without opening one; and one mark of them all."""

from __future__ import annotations

import os
import stat
from array import array
from collections.abc import Callable, Mapping
from functools import cached_property
from hashlib import blake2b
from pathlib import Path

from builder.model.files import Seen, seen_in

LEAST_AGE = 2_000_000_000
"""Nanoseconds for which a file must have been left alone when who read it looked at it: within one tick of a disk's
clock two texts can bear the same time."""


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


def _no(_: str) -> bool:
    return False


def look(folder: Path, hidden: Callable[[str], bool] = _no) -> Look:
    """Look at all files in a folder, by their paths in it; of what is hidden at that for which `hidden` says so.

    A folder that cannot be read is as good as empty: whoever reads its files says so.
    """
    files: dict[str, Seen] = {}
    is_plain = True
    ways = [(str(folder), "")]
    while ways:
        at, shown = ways.pop()
        try:
            entries = list(os.scandir(at))
        except OSError:
            is_plain = False
            continue
        for entry in entries:
            path = shown + entry.name
            if entry.name[0] == "." and not hidden(path):
                continue
            try:
                found = entry.stat(follow_symlinks=False)
            except OSError:
                is_plain = False
                continue
            sort = stat.S_IFMT(found.st_mode)
            if sort == stat.S_IFREG:
                files[path] = seen_in(found)
            elif sort == stat.S_IFDIR:
                ways.append((entry.path, f"{path}/"))
            else:
                is_plain = False
    return Look(files, is_plain=is_plain)
