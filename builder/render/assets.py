"""The templates folder in, the files every page shares out: style sheets, scripts and the icon, by their path.

What `order.txt` beside them names is put together to a few: over a network each sheet of its own would keep the first
paint waiting, and each script the page from being ready. A line at the margin names the file that is made, each below
it what goes into it: with `print` behind a sheet that is for paper alone, with `kept` behind what other pages load by
itself. All are written without what is only for those who read them here.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path, PurePosixPath

from builder.model.held import bytes_in
from builder.render.lean import lean_script, lean_sheet

FOLDERS, ORDER = ("assets/css/", "assets/js/"), "order.txt"


def sources(templates: Path) -> Mapping[str, bytes]:
    """Bytes of what the shared files are made from, by its path, in sorted order; hidden files are left out."""
    found = bytes_in(templates / "assets")
    return {f"assets/{path}": data for path, data in found.items() if not PurePosixPath(path).name.startswith(".")}


def assets(made_from: Mapping[str, bytes]) -> Mapping[str, bytes]:
    """Bytes of every shared file, by its path from the book's root, in sorted order."""
    found = {path: _lean(path, data) for path, data in made_from.items()}
    made: dict[str, bytes] = {}  # apart, since a file that is made may have the name of one that goes into it
    for folder in FOLDERS:
        into = ""
        for line in found.pop(folder + ORDER, b"").decode().splitlines():
            if line.strip() and not line.startswith(" "):
                into = folder + line.strip()
                made[into] = b""
            elif line.strip():
                made[into] += _part(found, folder, *line.split())
    return dict(sorted({**found, **made}.items()))


@lru_cache(maxsize=512)
def _lean(path: str, data: bytes) -> bytes:
    """Write one file lean; a process that makes a second book writes the same ones."""
    if path.endswith(".js"):
        return lean_script(data.decode()).encode()
    return lean_sheet(data.decode()).encode() if path.endswith(".css") else data


def _part(found: dict[str, bytes], folder: str, name: str, how: str = "") -> bytes:
    """Return a sheet or a script as it stands in the file that holds several; it is there by itself no more."""
    if how == "kept":
        return found[folder + name]
    text = found.pop(folder + name)
    return b"@media %s{%s}\n" % (how.encode(), text.strip()) if how else text

