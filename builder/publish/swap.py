"""A finished draft and its target in; the two exchanged, or an exchange cut short put right, out.

After an exchange in one step the old folder stands under the draft's name. In two renames, for systems that have
no exchange, there is a moment in which the target is absent and the old folder whole under its `old` name;
the next build finds that name and puts the folder back. A target in a lower layer of a container image cannot even
be renamed: a copy takes the `old` name and the target is removed file by file, its mark first, so that a target
being removed is known by its missing mark.
"""

import errno
import os
from contextlib import suppress
from pathlib import Path

from builder.publish import disk, siblings, system, trees
from builder.publish.target import MARK, is_marked


def swap(draft: Path, target: Path) -> Path | None:
    """Let the target be the draft; return where the old folder lies now. On OSError it stands where it stood."""
    if not os.path.lexists(target):
        disk.rename(draft, target)
        return None
    if disk.exchange(draft, target):
        return draft
    return _swap_by_renames(draft, target)


def recover(target: Path) -> None:
    """Put the old folder back if a build ended while it was away."""
    away = siblings.all_old(target)
    if not away or is_marked(target):
        return
    if os.path.lexists(target):
        if not trees.is_part_of(target, away[0]):
            return  # someone has put other things there since
        trees.remove_tree(target)
    disk.rename(away[0], target)


def clear(target: Path) -> None:
    """Remove what ended builds left beside the target; to be called with its lock held.

    An old folder goes only when a book stands at the target, and first takes a draft's name, so that
    a folder called `old` is always whole. What cannot be removed waits for the next build.
    """
    for draft in siblings.all_new(target):
        _remove(draft)
    if is_marked(target):
        for old in siblings.all_old(target):
            rubbish = siblings.free_beside(target, "new", os.getpid())
            with suppress(OSError):
                disk.rename(old, rubbish)
            _remove(rubbish)


def set_aside(old: Path, target: Path) -> None:
    """Let the old folder be the spare; where that is refused, it is cleared away as ever.

    It has a draft's name until it is bare of what belongs to the owner of the target: a build that ends meanwhile
    leaves rubbish, never a spare that is none.
    """
    with suppress(OSError):
        bare = siblings.free_beside(target, "new", os.getpid())
        disk.rename(old, bare)
        for held in sorted(bare.iterdir()):
            if held.name.startswith("."):
                trees.remove_tree(held)
        disk.rename(bare, siblings.spare_of(target))


def take_spare(target: Path) -> Path | None:
    """Give the spare a draft's name, so that it is rubbish if this build ends early; None where there is none."""
    spare = siblings.spare_of(target)
    if not os.path.lexists(spare):
        return None
    taken = siblings.free_beside(target, "new", os.getpid())
    disk.rename(spare, taken)
    return taken if system.is_real_folder(taken) else None


def _swap_by_renames(draft: Path, target: Path) -> Path:
    old = siblings.free_beside(target, "old", os.getpid())
    try:
        _move_away(target, old)
        disk.rename(draft, target)
    except BaseException:
        recover(target)
        raise
    return old


def _move_away(target: Path, old: Path) -> None:
    try:
        disk.rename(target, old)
    except OSError as error:
        if error.errno != errno.EXDEV:
            raise
        copy = siblings.free_beside(target, "new", os.getpid())
        trees.carry(target, copy)
        disk.sync(copy)
        disk.rename(copy, old)
        if is_marked(target):
            disk.unlink(target / MARK)
        trees.remove_tree(target)


def _remove(path: Path) -> None:
    with suppress(OSError):
        trees.remove_tree(path)
