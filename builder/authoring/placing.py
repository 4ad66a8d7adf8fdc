"""A folder and a text -> a file in it: nothing outside the folder, nothing that is there already.

Whatever is written for a shop is written here. The folder is the one the person named; a link inside it that leads out
of it is refused, and so is a file that stands there.
"""

from __future__ import annotations

import os
from pathlib import Path


class AuthoringError(Exception):
    """Something on disk or on the network keeps a command from its work."""

    def __init__(self, message: str, do: str) -> None:
        super().__init__(message, do)
        self.message = message
        self.do = do

    def __str__(self) -> str:
        return self.message


def place(folder: Path, name: str, text: str, *, over: bool = False) -> Path:
    """Write `text` as `folder/name`; with `over` an ordinary file that stands there is replaced."""
    path = folder / name
    try:
        _refuse_leading_out(folder, path)  # before a folder is made where a link leads
        path.parent.mkdir(parents=True, exist_ok=True)
        flags = os.O_WRONLY | os.O_CREAT | getattr(os, "O_NOFOLLOW", 0) | (os.O_TRUNC if over else os.O_EXCL)
        with os.fdopen(os.open(path, flags, 0o666), "w", encoding="utf-8", newline="\n") as stream:
            stream.write(text)
    except FileExistsError as error:
        said = f"{error.filename} is there already"
        raise AuthoringError(said, "change that file, or choose another name") from error
    except OSError as error:
        raise AuthoringError(
            f"cannot write {path}: {error.strerror or error}", "make the folder writable, or name another",
        ) from error  # fmt: skip
    return path


def _refuse_leading_out(folder: Path, path: Path) -> None:
    if path.is_symlink() or not path.parent.resolve().is_relative_to(folder.resolve()):
        raise AuthoringError(f"{path} is a link that leads elsewhere", "put a folder or a file of its own there")
