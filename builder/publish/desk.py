"""A relative path and bytes in, one file in the draft out; any process may hold a desk."""

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from builder.publish import disk, trees
from builder.publish.paths import require_plain
from builder.publish.trouble import PublishError, explaining


@dataclass(frozen=True, slots=True)
class Desk:
    """Where pages of one draft are put; small, and picklable for workers started by fork or spawn."""

    folder: Path
    """The draft."""
    published: Path
    """The folder it will replace, whose equal files are linked."""

    def put(self, path: str, data: bytes) -> None:
        """Put one file; raises PublishError if the path is unsafe or taken, or the disk refuses."""
        require_plain(path)
        with explaining(f"write {path} beside {self.published}"):
            try:
                self._place(path, data)
            except FileExistsError as error:
                raise PublishError(
                    f"{path!r} is taken: two pages have this path, or paths that differ in case only",
                    "rename one of the two records",
                ) from error

    def keep(self, paths: Iterable[str]) -> bool:
        """Put published files as they are; where one of them cannot be had, none is put."""
        placed: list[str] = []
        try:
            for path in paths:
                self._carry(path)
                placed.append(path)
        except OSError:
            for path in placed:
                disk.unlink(self.folder / path)
            return False
        return True

    def _carry(self, path: str) -> None:
        try:
            trees.carry(self.published / path, self.folder / path)
        except FileNotFoundError:
            if not (self.published / path).is_file():
                raise
            self._make_folders(path)
            trees.carry(self.published / path, self.folder / path)

    def _place(self, path: str, data: bytes) -> None:
        """Try first and make folders when one is missing: most pages find theirs there."""
        try:
            trees.place(self.folder / path, data, self.published / path)
        except FileNotFoundError:
            self._make_folders(path)
            trees.place(self.folder / path, data, self.published / path)

    def _make_folders(self, path: str) -> None:
        """Make the folders on the way, never the draft itself: with its build gone, a late page must fail."""
        for folder in reversed(PurePosixPath(path).parents[:-1]):
            try:
                disk.mkdir(self.folder / folder)
            except FileExistsError:
                if not (self.folder / folder).is_dir():
                    raise
