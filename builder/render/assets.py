"""The templates folder in, the files every page shares out: style sheets, scripts and the icon, by their path.

The sheets that `css/order.txt` names are put together to a few: over a network each sheet of its own would keep the
first paint waiting. A line at the margin names the file that is made, each below it a sheet that goes into it, with
`print` behind it where it is for paper alone. All are written without what is only for those who read them here.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from builder.render.lean import lean_script, lean_sheet

CSS, ORDER = "assets/css/", "assets/css/order.txt"


def assets(templates: Path) -> Mapping[str, bytes]:
    """Bytes of every shared file, by its path from the book's root, in sorted order; hidden files are left out."""
    root = templates / "assets"
    files = sorted(path for path in root.rglob("*") if path.is_file() and not path.name.startswith("."))
    found = {path.relative_to(templates).as_posix(): _read(path) for path in files}
    into = ""
    for line in found.pop(ORDER, b"").decode().splitlines():
        if line.strip() and not line.startswith(" "):
            into = CSS + line.strip()
            found[into] = b""
        elif line.strip():
            found[into] += _sheet(found, *line.split())
    return dict(sorted(found.items()))


def _read(path: Path) -> bytes:
    if path.suffix == ".js":
        return lean_script(path.read_text("utf-8")).encode()
    return lean_sheet(path.read_text("utf-8")).encode() if path.suffix == ".css" else path.read_bytes()


def _sheet(found: dict[str, bytes], name: str, medium: str = "") -> bytes:
    """Take a sheet out of the files, as it stands in the one that holds several."""
    text = found.pop(CSS + name)
    return b"@media %s{%s}\n" % (medium.encode(), text.strip()) if medium else text


def bound(files: Mapping[str, bytes], name: str, parts: Sequence[str]) -> Mapping[str, bytes]:
    """Put scripts together to one, in their order; those that begin with its name are nowhere else and go into it."""
    own = name.removesuffix(".js") + "_"
    kept = {path: data for path, data in files.items() if not (path in parts and path.startswith(own))}
    return {**kept, name: b"".join(files[path] for path in parts)}
