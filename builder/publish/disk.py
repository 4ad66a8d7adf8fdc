"""A path in, one change on the disk out: every system call of this stage that changes the disk.

Others call these as `disk.name(...)`, never by an imported name, so that a test can stop the process before,
in and after each one. A function here makes one system call and decides nothing.
"""

import os
import stat
import time
from pathlib import Path

from builder.publish import system


def mkdir(path: Path) -> None:
    """Make one folder, mode 0755 less the umask."""
    path.mkdir(0o755)


def create(path: Path) -> int:
    """Make a file that did not exist, mode 0644 less the umask, and open it for writing."""
    return os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL | system.OPEN_FLAGS, 0o644)


def open_lock(path: Path) -> int:
    """Open a lock file for reading and writing, made if absent and never emptied."""
    return os.open(path, os.O_RDWR | os.O_CREAT | system.OPEN_FLAGS, 0o644)


def empty(file: int) -> None:
    """Cut an open file to no bytes."""
    os.ftruncate(file, 0)


def write(file: int, data: bytes | memoryview) -> int:
    """Write as much as the system takes at once; returns how many bytes that was."""
    return os.write(file, data)


def link(source: Path, path: Path) -> None:
    """Give a file a second name."""
    os.link(source, path)


def symlink(text: str, path: Path, is_folder: bool) -> None:
    """Make a symbolic link that says `text`."""
    path.symlink_to(text, is_folder)


def unlink(path: Path) -> None:
    """Remove one name of a file."""
    try:
        path.unlink()
    except PermissionError:
        if not system.HAS_READ_ONLY_FILES:
            raise
        path.chmod(stat.S_IWRITE)
        path.unlink()


def rmdir(path: Path) -> None:
    """Remove an empty folder."""
    path.rmdir()


def rename(source: Path, path: Path) -> None:
    """Move a folder to a name that is free."""
    for pause in system.RENAME_PAUSES:
        try:
            return os.rename(source, path)  # noqa: PTH104 - tests watch this call by name
        except PermissionError:
            time.sleep(pause)
    return os.rename(source, path)  # noqa: PTH104


def replace(source: Path, path: Path) -> None:
    """Put a file in the place of another, or of none, in one step."""
    os.replace(source, path)  # noqa: PTH105 - as above


def exchange(one: Path, other: Path) -> bool:
    """Swap two folders in one step; False, and nothing done, where the system cannot."""
    return system.exchange(one, other)


def sync(folder: Path) -> None:
    """Wait until all that was written to this folder's file system is on the disk."""
    system.sync(folder)
