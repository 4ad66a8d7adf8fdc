"""The templates folder in, the files every page shares out: style sheets, scripts and the icon, by their path.

The sheets that `css/order.txt` names are put together to one: over a network each sheet of its own would keep the first
paint waiting. A line is a sheet's name, with `print` behind it where it is for paper alone.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

ORDER, BOOK = "assets/css/order.txt", "assets/css/book.css"


def assets(templates: Path) -> Mapping[str, bytes]:
    """Bytes of every shared file, by its path from the book's root, in sorted order; hidden files are left out."""
    root = templates / "assets"
    files = sorted(path for path in root.rglob("*") if path.is_file() and not path.name.startswith("."))
    found = {path.relative_to(templates).as_posix(): path.read_bytes() for path in files}
    lines = found.pop(ORDER, b"").decode().splitlines()
    sheets = [_sheet(found, *line.split()) for line in lines if line.strip()]
    return dict(sorted({**found, BOOK: b"".join(sheets)}.items()))


def _sheet(found: dict[str, bytes], name: str, medium: str = "") -> bytes:
    """Take a sheet out of the files, as it stands in the one that holds all."""
    text = found.pop(f"assets/css/{name}")
    return b"@media %s {\n%s}\n" % (medium.encode(), text) if medium else text


def bound(files: Mapping[str, bytes], name: str, parts: Sequence[str]) -> Mapping[str, bytes]:
    """Put scripts together to one, in their order; those that begin with its name are nowhere else and go into it."""
    own = name.removesuffix(".js") + "_"
    kept = {path: data for path, data in files.items() if not (path in parts and path.startswith(own))}
    return {**kept, name: b"\n".join(files[path] for path in parts)}
