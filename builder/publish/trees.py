"""Files and folders in; listed, written new, linked, carried along or removed, out.

Nothing here opens a file that has a name already for writing: a linked file is the published one.
"""

import os
import stat
from pathlib import Path, PurePosixPath

from builder.model.files import Seen, seen_in
from builder.publish import disk, system


def listed(folder: Path) -> list[str]:
    """Relative posix paths of everything in a folder that is not a folder, sorted; none if it is absent."""
    if not system.is_real_folder(folder):
        return []
    found: list[str] = []
    for held in folder.iterdir():
        if system.is_real_folder(held):
            found += [f"{held.name}/{path}" for path in listed(held)]
        else:
            found.append(held.name)
    return sorted(found)


def seen(path: Path) -> Seen | None:
    """Look at a plain file; None where there is none."""
    try:
        found = path.lstat()
    except OSError:
        return None
    return seen_in(found) if stat.S_ISREG(found.st_mode) else None


def holds(path: Path, data: bytes) -> bool:
    """Whether a plain file stands at `path`, not behind a link, with exactly these bytes."""
    try:
        found = path.lstat()
        return stat.S_ISREG(found.st_mode) and found.st_size == len(data) and path.read_bytes() == data
    except OSError:
        return False


def are_equal(one: Path, other: Path) -> bool:
    """Whether two files hold the same bytes, or two symbolic links say the same; linked ones need no reading."""
    try:
        if os.path.samestat(one.lstat(), other.lstat()):
            return True
        if one.is_symlink() and other.is_symlink():
            return one.readlink() == other.readlink()
        return not one.is_symlink() and one.stat().st_size == other.lstat().st_size and holds(other, one.read_bytes())
    except OSError:
        return False


def is_part_of(part: Path, whole: Path) -> bool:
    """Whether every file of one folder stands, with equal bytes, in the other."""
    return system.is_real_folder(part) and all(are_equal(part / path, whole / path) for path in listed(part))


def place(path: Path, data: bytes, published: Path) -> None:
    """Make the file `path` hold `data`: as a second name of the published file if that is equal, else new."""
    if not (holds(published, data) and linked(published, path)):
        write_new(path, data)


def make_folders(folder: Path, path: str) -> None:
    """Make the folders on the way to a path, never `folder` itself: with its build gone, a late page must fail."""
    for between in reversed(PurePosixPath(path).parents[:-1]):
        try:
            disk.mkdir(folder / between)
        except FileExistsError:
            if not (folder / between).is_dir():
                raise


def linked(source: Path, path: Path) -> bool:
    """Link, or say that it cannot be done: no hard links here, another device, too many links, not allowed."""
    try:
        disk.link(source, path)
    except OSError:  # if the path itself is at fault, writing the file says so
        return False
    return True


def write_new(path: Path, data: bytes) -> None:
    """Write a file that did not exist; a file that could not be written whole is taken away again."""
    file = disk.create(path)
    try:
        write_all(file, data)
    except BaseException:
        os.close(file)
        disk.unlink(path)
        raise
    os.close(file)


def write_all(file: int, data: bytes) -> None:
    """Write all bytes to an open file, in as many calls as the system wants."""
    rest = memoryview(data)
    while rest:
        rest = rest[disk.write(file, rest) :]


def carry_deep(source: Path, folder: Path, path: str) -> None:
    """Carry one file to a path in a folder, making the folders on the way that are missing."""
    try:
        carry(source, folder / path)
    except FileNotFoundError:
        if not os.path.lexists(source):
            raise
        make_folders(folder, path)
        carry(source, folder / path)


def carry(source: Path, path: Path) -> None:
    """Give `path` what stands at `source`: files linked or copied, symbolic links remade, folders in full."""
    if system.is_real_folder(source):
        disk.mkdir(path)
        for held in sorted(source.iterdir()):
            carry(held, path / held.name)
    elif source.is_symlink():
        disk.symlink(str(source.readlink()), path, source.is_dir())
    elif not linked(source, path):
        write_new(path, source.read_bytes())


def remove_tree(path: Path) -> None:
    """Remove a folder and all in it, following no link; nothing to do if it is gone."""
    if system.is_real_folder(path):
        for held in sorted(path.iterdir()):
            remove_tree(held)
        disk.rmdir(path)
    elif os.path.lexists(path):
        disk.unlink(path)
