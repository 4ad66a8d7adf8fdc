"""A relative path and bytes in, one file in the draft out; any process may hold a desk."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path

from builder.publish import trees
from builder.publish.paths import require_plain
from builder.publish.trouble import PublishError, explaining


@dataclass(frozen=True, slots=True)
class Desk:
    """Where pages of one draft are put; small, and picklable for workers started by fork or spawn."""

    folder: Path
    """The draft."""
    published: Path
    """The folder it will replace, whose equal files are linked."""
    kept: set[str] = field(default_factory=set)
    """Paths of published files that are in the new book as they are."""

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

    def keep(self, paths: Iterable[str]) -> None:
        """Let published files be in the new book as they are; nothing is done about them before it is published.

        To be called by the process that publishes.
        """
        self.kept.update(paths)

    def where(self, path: str) -> Path:
        """Return where a file that was put or kept can be read."""
        return (self.published if path in self.kept else self.folder) / path

    def _place(self, path: str, data: bytes) -> None:
        """Try first and make folders when one is missing: most pages find theirs there."""
        try:
            trees.place(self.folder / path, data, self.published / path)
        except FileNotFoundError:
            trees.make_folders(self.folder, path)
            trees.place(self.folder / path, data, self.published / path)
