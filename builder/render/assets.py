"""The templates folder in, the files every page shares out: style sheets, scripts and the icon, by their path."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path


def assets(templates: Path) -> Mapping[str, bytes]:
    """Bytes of every shared file, by its path from the book's root, in sorted order; hidden files are left out."""
    root = templates / "assets"
    files = sorted(path for path in root.rglob("*") if path.is_file() and not path.name.startswith("."))
    return {path.relative_to(templates).as_posix(): path.read_bytes() for path in files}
