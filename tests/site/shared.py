"""Books that many tests open and none changes: each made once for all that run beside one another.

`python -m tests.site.shared` makes them where SEAMBOOK_MADE says, while a machine with several cores reads sources.
"""

from __future__ import annotations

import fcntl
import json
import os
from collections.abc import Callable
from pathlib import Path

from tests.books.laying import TINY, edit
from tests.browser.copied import Copies, copied
from tests.site.building import build
from tests.site.control_books import COVER, look, published, revise, tiny

SAID = "Lay the film on every bare face of the flange"
SAID_NOW = f"{SAID}, and on the rim of each hole"


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


def editions(base: Path) -> tuple[Path, Path]:
    """The tiny book before and after revision 3 of its procedure; both keep what they know under the book's own id."""
    folder = made_once(base, "editions", _editions) / "book"
    return folder / "before", folder / "after"


def _editions(folder: Path) -> None:
    folder.mkdir()
    content = tiny(folder)
    published(content, folder / "before")
    revise(content)
    edit(content, COVER, (f"do: {SAID}.", f"do: {SAID_NOW}."))
    look(content, "look-again", "Look at the hatch again", "draft", approver="none")
    look(content, "look-by-eye", "Look at the hatch by eye", "withdrawn", more="replaced_by: weld-cover\n")
    published(content, folder / "after")


def _copied(site: Path, folder: Path) -> None:
    folder.mkdir()
    (folder / "paths.json").write_text(json.dumps(copied(site, kept_of(site), folder).paths))


if __name__ == "__main__":
    made = Path(os.environ["SEAMBOOK_MADE"])
    tiny_site(made)
    copies(made)
    editions(made)
