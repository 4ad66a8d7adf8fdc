"""A lock file's path in; while the block runs, no other build of that target out.

The lock is the system's own on the open file, so it ends with its process, killed or not. The file is removed
at the end; a build that locked a file removed meanwhile sees that and tries again.
"""

import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from builder.publish import disk, system, trees
from builder.publish.trouble import PublishError, explaining

_TRIES = 100
_LONGEST_PID = 20

_held: set[int] = set()


def _let_go_in_child() -> None:
    """Close a worker's copies of held locks: a worker that outlives a killed build must not keep its lock."""
    for file in _held:
        os.close(file)
    _held.clear()


if hasattr(os, "register_at_fork"):
    os.register_at_fork(after_in_child=_let_go_in_child)


@contextmanager
def hold_lock(path: Path) -> Iterator[None]:
    """Hold the lock; raises PublishError with the number of the process that has it."""
    with explaining(f"lock {path}"):
        file = _take(path)
    holder = os.getpid()
    _held.add(file)
    try:
        yield
    finally:
        if os.getpid() == holder:
            _held.discard(file)
            _release(file, path)


def _take(path: Path) -> int:
    for _ in range(_TRIES):
        file = disk.open_lock(path)
        if not system.try_lock(file):
            raise _busy(file)
        if _is_still_there(file, path):
            _sign(file, path)
            return file
        os.close(file)
    raise PublishError(f"other builds keep taking {path}", "wait until they have ended and build again")


def _busy(file: int) -> PublishError:
    """The refusal, naming the holder; one that was met before it signed is only called another."""
    try:
        os.lseek(file, 0, os.SEEK_SET)
        pid = os.read(file, _LONGEST_PID).decode("ascii", "replace").strip()
    finally:
        os.close(file)
    who = f"process {pid}" if pid else "another process"
    return PublishError(
        f"another build of this folder is running: {who}", "wait until it has ended, or end it, and build again"
    )


def _is_still_there(file: int, path: Path) -> bool:
    try:
        return os.path.samestat(os.fstat(file), path.stat())
    except FileNotFoundError:
        return False


def _sign(file: int, path: Path) -> None:
    try:
        disk.empty(file)
        os.lseek(file, 0, os.SEEK_SET)
        trees.write_all(file, f"{os.getpid()}\n".encode())
    except BaseException:
        _release(file, path)
        raise


def _release(file: int, path: Path) -> None:
    """Remove the file while it is still locked, where the system allows that, and unlock it."""
    if not system.CAN_UNLINK_OPEN_FILES:
        os.close(file)
    try:
        with suppress(OSError):  # what stays is an unlocked file, which the next build takes over
            disk.unlink(path)
    finally:
        if system.CAN_UNLINK_OPEN_FILES:
            os.close(file)
