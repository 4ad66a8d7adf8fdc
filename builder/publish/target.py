"""The folder a person named in; where it really is, and whether it is this book's to replace, out."""

import json
import os
from pathlib import Path

from builder.publish.trouble import PublishError

MARK = ".seambook"
"""The hidden file that says whose a published folder is."""

_FORMAT = 1
_SHOWN = 3


def is_ours(path: str) -> bool:
    """Of what is hidden in a published folder: whether it is the book's; at the top only the mark is."""
    return "/" in path or path == MARK


def real_place(target: Path) -> Path:
    """The absolute folder behind a target, symbolic links followed: links stay, the folder is exchanged."""
    try:
        place = target.resolve()
    except (OSError, RuntimeError) as error:  # a circle of links is a RuntimeError before Python 3.13
        raise PublishError(f"{target} leads nowhere: {error}", "name another folder with --out") from error
    if not place.name or os.path.ismount(place):
        raise PublishError(
            f"{place} is the top of a file system, which cannot be exchanged",
            "name a folder inside it with --out",
        )
    return place


def mark_text(book_id: str) -> bytes:
    """The bytes of the mark of a book."""
    return json.dumps({"book": book_id, "format": _FORMAT}, sort_keys=True).encode() + b"\n"


def is_marked(target: Path) -> bool:
    """Whether a published book, whichever, stands there."""
    return (target / MARK).is_file()


def require_ours(target: Path, book_id: str) -> None:
    """Raise PublishError unless the target is absent, empty, bare but for dot-files, or marked as this book's."""
    if not os.path.lexists(target):
        return
    if not target.is_dir():
        raise PublishError(f"{target} is not a folder", "name another folder with --out, or move that file away")
    names = sorted(held.name for held in target.iterdir())
    if MARK in names:
        _require_mark_of(target, book_id)
        return
    strange = [name for name in names if not name.startswith(".")]
    if strange:
        shown = ", ".join(strange[:_SHOWN]) + (" ..." if len(strange) > _SHOWN else "")
        raise PublishError(
            f"{target} holds files that Seambook did not write: {shown}",
            "name an empty or a new folder with --out, or move those files away",
        )


def _require_mark_of(target: Path, book_id: str) -> None:
    owner = _owner(target / MARK)
    if owner is None:
        raise PublishError(
            f"{target / MARK} is not a mark that this Seambook can read, so whose folder it is stays unknown",
            f"name another folder with --out, or delete {target} if nothing in it is wanted",
        )
    if owner != book_id:
        raise PublishError(
            f'{target} holds another book, "{owner}"; this one is "{book_id}"',
            f"name another folder with --out, or delete {target} if that book is no longer wanted",
        )


def _owner(mark: Path) -> str | None:
    try:
        said = json.loads(mark.read_bytes())
    except (ValueError, RecursionError):
        return None
    if not isinstance(said, dict) or said.get("format") != _FORMAT:
        return None
    owner = said.get("book")
    return owner if isinstance(owner, str) else None
