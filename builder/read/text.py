"""A record's file -> its text, or the problem that keeps it from being read; any file of a layer -> its bytes."""

from __future__ import annotations

import stat
from pathlib import Path

from builder.model.files import SourceFile
from builder.model.place import Span
from builder.model.problem import Problem
from builder.read import codes
from builder.read.tree import MAX_BYTES


def read_text(file: SourceFile) -> tuple[str | None, tuple[Problem, ...]]:
    """Return the file's text with line ends as `\\n` and no byte-order mark."""
    place = Span(file.shown, 1, 1, 2)
    try:
        data = bytes_of(file.path)
    except OSError as error:
        said = error.strerror or str(error)
        return None, (Problem(codes.UNREADABLE, place, f"this file cannot be read: {said}", "make it readable"),)
    if data is None:
        return None, (Problem(codes.UNREADABLE, place, "this is no ordinary file", "replace it by one"),)
    if len(data) > MAX_BYTES:
        return None, (Problem(
            codes.TOO_LARGE, place, f"this file is larger than {MAX_BYTES // 1_000_000} MB", "split the record",
        ),)  # fmt: skip
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        return None, (Problem(
            codes.NOT_TEXT, Span(file.shown, line, 1, 2), "this line is not UTF-8 text", "save the file as UTF-8",
        ),)  # fmt: skip
    return text.replace("\r\n", "\n").replace("\r", "\n"), ()


def bytes_of(path: Path) -> bytes | None:
    """Return a file's bytes, up to one more than a file may have; None of what is no file: it could go on for ever.

    OSError where the system refuses it.
    """
    known = path.stat()
    if not stat.S_ISREG(known.st_mode):
        return None
    with path.open("rb") as stream:
        # What the file has first: room is taken for all that is asked for.
        data = stream.read(min(known.st_size, MAX_BYTES) + 1)
        return data + stream.read(MAX_BYTES + 1 - len(data)) if len(data) > known.st_size else data
