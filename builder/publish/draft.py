"""A target folder and a book's id in; a draft to put pages in, then a published folder or no change, out."""

import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

from builder.model.files import Published
from builder.model.look import Look
from builder.publish import disk, siblings, swap, trees
from builder.publish.desk import Desk
from builder.publish.lock import hold_lock
from builder.publish.paths import require_distinct
from builder.publish.renewing import renewed
from builder.publish.target import MARK, mark_text, real_place, require_ours
from builder.publish.trouble import explaining


@dataclass(frozen=True, slots=True)
class Draft:
    """A book in the making, in a hidden sibling of its target."""

    target: Path
    book_id: str
    desk: Desk
    keeps_spare: bool = False
    """Whether the old folder stays, for the next build to bring it up to date: worth it where most pages stay."""

    def publish(self, paths: Sequence[str], there: Look | None = None) -> Published:
        """Replace the target by this draft; `paths` names every file put, in any order, `there` what was seen of the
        target since it was locked.

        Raises PublishError, with the published folder untouched, if paths clash, if the draft does not hold exactly
        these files, if the target has become someone else's meanwhile, or if the disk refuses.
        """
        require_distinct(paths)
        with explaining(f"publish {self.target}"):
            require_ours(self.target, self.book_id)
            folder, counts = renewed(self.desk, self.target, paths, there)
            trees.place(folder / MARK, mark_text(self.book_id), self.target / MARK)
            self._carry_dot_files(folder)
            # One sync for all files. The renames after it need none: journals keep their order, so a power cut
            # finds the old folder or the new one, and both are whole on the disk by now.
            disk.sync(folder)
            old = swap.swap(folder, self.target)
        if old is not None and self.keeps_spare:
            swap.set_aside(old, self.target)
        swap.clear(self.target)
        return counts

    def _carry_dot_files(self, folder: Path) -> None:
        for held in sorted(self.target.iterdir()) if self.target.is_dir() else ():
            if held.name.startswith(".") and held.name != MARK:
                trees.carry(held, folder / held.name)


@contextmanager
def open_draft(target: Path, book_id: str, *, keeps_spare: bool = False) -> Iterator[Draft]:
    """Lock the target, tidy up after dead builds and make a draft; without `publish` it leaves no trace.

    Raises PublishError if the target is not this book's, is being built, or cannot be written.
    """
    place = real_place(target)
    with _parents_of(place), _held(place, book_id):
        with explaining(f"make a draft beside {place}"):
            folder = siblings.free_beside(place, "new", os.getpid())
            disk.mkdir(folder)
        builder = os.getpid()
        try:
            yield Draft(place, book_id, Desk(folder, place), keeps_spare)
        finally:
            # A forked worker that leaves this block by accident must not clear away its parent's draft.
            if os.getpid() == builder:
                swap.clear(place)


@contextmanager
def hold(target: Path, book_id: str) -> Iterator[None]:
    """Lock the target and tidy up after dead builds, as `open_draft` does, where no draft is made."""
    with _held(real_place(target), book_id):
        yield


@contextmanager
def _held(place: Path, book_id: str) -> Iterator[None]:
    with hold_lock(siblings.lock_of(place)):
        with explaining(f"tidy up beside {place}"):
            swap.recover(place)
            require_ours(place, book_id)
            swap.clear(place)
        yield


@contextmanager
def _parents_of(place: Path) -> Iterator[None]:
    """Make the missing folders above a target; those still empty at the end go again."""
    missing = [folder for folder in place.parents if not os.path.lexists(folder)]
    try:
        with explaining(f"make {place.parent}"):
            for folder in reversed(missing):
                with suppress(FileExistsError):  # another build, of another target, was quicker
                    disk.mkdir(folder)
        yield
    finally:
        if not os.path.lexists(place):
            for folder in missing:
                with suppress(OSError):
                    disk.rmdir(folder)
