"""A path and bytes in, one file there or the old one untouched out."""

import os
from contextlib import suppress
from pathlib import Path

from builder.publish import disk, siblings
from builder.publish.trouble import PublishError, explaining


def require_file(target: Path, folder: Path) -> None:
    """Raise PublishError if a file cannot stand at `target`, beside a book published to `folder`."""
    if target.is_dir():
        raise PublishError(f"{target} is a folder", "name a file, ending in .html")
    place, published = target.resolve(), folder.resolve()
    if published in place.parents:
        raise PublishError(
            f"{target} lies in the folder of the book, which the next build replaces", "name a file outside of it"
        )


class Beside:
    """A file written whole beside its target, to be put in its place in one step; without that it leaves no trace."""

    def __init__(self, target: Path, data: bytes) -> None:
        self.target = target
        self.folder = target.resolve().parent
        with explaining(f"write {target}"):
            _clear_rubbish(self.folder / target.name)
            self.draft = siblings.free_beside(self.folder / target.name, "new", os.getpid())
            self._write(data)

    def _write(self, data: bytes) -> None:
        file = disk.create(self.draft)
        try:
            rest = memoryview(data)
            while rest:
                rest = rest[disk.write(file, rest):]
        except OSError:
            self.clear()
            raise
        finally:
            os.close(file)

    def place(self) -> None:
        """Put it where it belongs."""
        with explaining(f"write {self.target}"):
            disk.sync(self.folder)
            disk.replace(self.draft, self.folder / self.target.name)

    def clear(self) -> None:
        """Take it away, if it has not been put in place; where that is refused, the next build does."""
        with suppress(OSError):
            disk.unlink(self.draft)


def _clear_rubbish(target: Path) -> None:
    """Take away what killed builds left beside the target; that of a build that still runs stays."""
    for draft in siblings.all_new(target):
        if not _is_running(siblings.number_of(draft)):
            with suppress(FileNotFoundError):
                disk.unlink(draft)


def _is_running(process: int) -> bool:
    try:
        os.kill(process, 0)
    except (ProcessLookupError, OverflowError):
        return False
    except PermissionError:
        return True
    return True
