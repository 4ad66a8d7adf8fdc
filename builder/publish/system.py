"""What differs between operating systems in, one plain call for each out.

Nothing else in this stage asks which system it runs on. The Windows branches follow the documented behaviour
of that system; the tests here can only type-check them.
"""

import errno
import os
import stat
import sys
from pathlib import Path

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl

if sys.platform == "linux":
    import ctypes

    _LIBC = ctypes.CDLL(None, use_errno=True)

CAN_UNLINK_OPEN_FILES = sys.platform != "win32"

HAS_READ_ONLY_FILES = sys.platform == "win32"
"""Whether a file's own mode, not its folder's, can forbid removing it."""

RENAME_PAUSES: tuple[float, ...] = (0.05, 0.1, 0.2, 0.4, 0.8) if sys.platform == "win32" else ()
"""Seconds to wait before each new try of a refused rename: on Windows a virus scanner or an indexer holds
files of a fresh folder open for a moment, and no folder with an open file can be renamed."""

OPEN_FLAGS = getattr(os, "O_BINARY", 0) | getattr(os, "O_NOINHERIT", 0)

_AT_FDCWD = -100
_RENAME_EXCHANGE = 2
# From the manual page renameat2(2): an old kernel, a file system without exchange, and (EPERM) a container
# that forbids calls it does not know. The renames tried next give the true error if it was another.
_NO_EXCHANGE = {errno.ENOSYS, errno.EINVAL, errno.EPERM, errno.ENOTSUP, errno.EXDEV}
_LOCK_BYTE = 1 << 30
"""Windows locks bytes against reading too, so the locked one lies far behind the text of the file."""


def exchange(one: Path, other: Path) -> bool:
    """Swap two folders of one file system in a single step; False, and nothing done, where none can."""
    if sys.platform == "linux" and hasattr(_LIBC, "renameat2"):
        call = _LIBC.renameat2
        call.argtypes = [ctypes.c_int, ctypes.c_char_p, ctypes.c_int, ctypes.c_char_p, ctypes.c_uint]
        if call(_AT_FDCWD, os.fsencode(one), _AT_FDCWD, os.fsencode(other), _RENAME_EXCHANGE) == 0:
            return True
        code = ctypes.get_errno()
        if code not in _NO_EXCHANGE:
            raise OSError(code, os.strerror(code), str(other))
    return False


def sync(folder: Path) -> None:
    """Wait until all that was written to this folder's file system is on the disk.

    Windows lets only an administrator ask for that, and asking file by file takes minutes for a big book: there a
    power cut in the seconds after a build can cost pages, which building again brings back.
    """
    if sys.platform == "linux" and hasattr(_LIBC, "syncfs"):
        file = os.open(folder, os.O_RDONLY)
        try:
            if _LIBC.syncfs(ctypes.c_int(file)) != 0:
                code = ctypes.get_errno()
                raise OSError(code, os.strerror(code), str(folder))
        finally:
            os.close(file)
    elif sys.platform != "win32":
        os.sync()


def try_lock(file: int) -> bool:
    """Lock an open file without waiting; the system frees it when its process ends, however that happens."""
    try:
        if sys.platform == "win32":
            os.lseek(file, _LOCK_BYTE, os.SEEK_SET)
            msvcrt.locking(file, msvcrt.LK_NBLCK, 1)
        else:
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError as error:
        if error.errno in (errno.EAGAIN, errno.EACCES, errno.EDEADLK):
            return False
        raise
    return True


def is_real_folder(path: Path) -> bool:
    """Whether a path is a folder itself: neither a symbolic link nor a Windows junction to one."""
    try:
        found = path.lstat()
    except OSError:
        return False
    if sys.platform == "win32" and found.st_reparse_tag == stat.IO_REPARSE_TAG_MOUNT_POINT:
        return False
    return stat.S_ISDIR(found.st_mode)
