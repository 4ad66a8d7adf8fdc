"""Seambook's own files and libraries -> a mark that changes with any of them: no other edition's work is taken."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from hashlib import blake2b
from pathlib import Path

from builder.model.held import bytes_in

NO_PAGES = ("assets", "pocket", "worker")
"""Folders of the templates that no page is made from."""


def code_mark() -> bytes:
    """Return a mark of the program."""
    folder = Path(__file__).parents[1]
    files = sorted(folder.rglob("*.py"))
    told = [sys.version, *_installed()]
    told += (f"{path.relative_to(folder)} {at.st_size} {at.st_mtime_ns}" for path in files for at in (path.stat(),))
    return blake2b("\n".join(told).encode(), digest_size=16).digest()


def _installed() -> list[str]:
    """Return the names of all that is installed, which tell their versions."""
    folders = (Path(entry) for entry in sys.path if Path(entry).is_dir())
    return sorted(path.name for folder in folders for path in folder.glob("*.dist-info"))


def templates_mark(templates: Path) -> bytes:
    """Return a mark of the templates that pages are made from."""
    found = bytes_in(templates)
    return _of_contents((path, data) for path, data in found.items() if path.split("/")[0] not in NO_PAGES)


def every_template_mark(templates: Path) -> bytes:
    """Return a mark of all that lies beside the templates, too: what is published as it is."""
    return _of_contents(bytes_in(templates).items())


def _of_contents(files: Iterable[tuple[str, bytes]]) -> bytes:
    mark = blake2b(digest_size=16)
    for path, data in files:
        mark.update(f"{path} {len(data)}\n".encode("utf-8", "surrogateescape"))
        mark.update(data)
    return mark.digest()
