"""Books that many tests open and none changes: each made once for all that run beside one another.

`python -m tests.site.shared` makes them where SEAMBOOK_MADE says, while a machine with several cores reads sources.
"""

from __future__ import annotations

import fcntl
import json
import os
from collections.abc import Callable
from pathlib import Path

from tests.books.laying import TINY
from tests.browser.copied import Copies, copied
from tests.site.building import build


def made_once(base: Path, name: str, make: Callable[[Path], object]) -> Path:
    """Make something once in a folder below `base`, and return that folder: what was made is `book` in it."""
    folder = base / f"made-{name}"
    folder.mkdir(parents=True, exist_ok=True)
    with (folder / "lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not (folder / "made").exists():
            make(folder / "book")
            (folder / "made").touch()
    return folder


def supplied_site(base: Path) -> Path:
    """The supplied library, built."""
    return made_once(base, "opened", lambda target: build(target, kept=kept_of(target))) / "book"


def kept_of(target: Path) -> Path:
    """What was kept of making the supplied library: who makes it again, in another form, need not draw it anew."""
    return target.parent / "kept"


def tiny_site(base: Path) -> Path:
    """The tiny book, built."""
    return made_once(base, "tiny", lambda target: build(target, str(TINY))) / "book"


def copies(base: Path) -> Copies:
    """The supplied library, and one procedure of it, each in one file."""
    site = supplied_site(base)
    folder = made_once(base, "copies", lambda folder: _copied(site, folder)) / "book"
    return Copies(folder / "whole.html", folder / "part.html", tuple(json.loads((folder / "paths.json").read_text())))


def _copied(site: Path, folder: Path) -> None:
    folder.mkdir()
    (folder / "paths.json").write_text(json.dumps(copied(site, kept_of(site), folder).paths))


if __name__ == "__main__":
    made = Path(os.environ["SEAMBOOK_MADE"])
    tiny_site(made)
    copies(made)
