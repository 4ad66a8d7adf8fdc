"""A folder's name and a shop's -> a book of the shop's own in it, which builds without errors at once.

What is laid down stands in the supplied content's hidden folder `.start`, where a technician can read and correct it.
"""

from __future__ import annotations

import json
import os
import re
import unicodedata
from collections.abc import Iterator
from pathlib import Path

from builder import pipeline
from builder.authoring.placing import AuthoringError, place
from builder.authoring.schemas import FOLDER, editor_line, write_schemas
from builder.layers import SHOP_FILE
from builder.model.files import TAKEN_FROM, Layer
from builder.model.records import KIND, KIND_OF_FOLDER
from builder.supplied import WORD, layer

SKELETON = ".start"
OWN = "content"
"""The folder of the shop's own records."""
WORTH_HAVING = (
    "panel", "seam", "cavity", "opening", "procedure", "vehicle", "supply", "tool", "hazard", "term", "source",
)  # fmt: skip
"""The kinds that shops have of their own; a folder of another kind comes with its first record."""
_RENAMED = {"gitignore": ".gitignore"}
"""A name that would do something where it lies here."""
LONGEST_NAME = 120


def start(folder: Path, name: str | None) -> tuple[Path, ...]:
    """Lay a shop's book down in a folder that holds nothing but dot-files, if it is there at all."""
    _refuse_full(folder)
    supplied = layer(WORD, folder)
    schemas = write_schemas(folder / FOLDER, pipeline.scales((supplied,)))
    files = _files(folder, supplied, name or _name_of(folder))
    made = [place(folder, to, text) for to, text in files if not _is_kept(folder / to)]
    place(folder, f"{OWN}/{TAKEN_FROM}/.gitkeep", "")  # so that an override written by hand is asked about, too
    for kind in WORTH_HAVING:
        (folder / OWN / KIND[kind].folder).mkdir(exist_ok=True)
    return (*made, *schemas)


def _is_kept(path: Path) -> bool:
    """A dot-file that somebody has put there stays."""
    return path.name.startswith(".") and os.path.lexists(path)


def _refuse_full(folder: Path) -> None:
    if folder.is_symlink() or (folder.exists() and not folder.is_dir()):
        raise AuthoringError(f"{folder} is no folder", "name a new folder")
    try:
        held = sorted(one.name for one in folder.iterdir() if not one.name.startswith(".")) if folder.exists() else []
    except OSError as error:
        raise AuthoringError(f"cannot look into {folder}: {error.strerror}", "name another folder") from error
    if held:
        said = f"{folder} holds something already: {', '.join(held[:3])}"
        raise AuthoringError(said, "name a new or an empty folder")


def _files(folder: Path, supplied: Layer, name: str) -> Iterator[tuple[str, str]]:
    skeleton = supplied.path / SKELETON
    for path in sorted(path for path in skeleton.rglob("*") if path.is_file()):
        text = path.read_text("utf-8")
        to = _RENAMED.get(path.name, path.relative_to(skeleton).as_posix())
        if to == SHOP_FILE:
            text = editor_line(folder, folder / to, "shop") + _named(text, name)
        elif (kind := KIND_OF_FOLDER.get(path.parent.name)) is not None:
            text = editor_line(folder, folder / to, kind.name) + text
        yield to, text


def _named(text: str, name: str) -> str:
    """Put the shop's name in its place; as JSON writes a text, YAML reads it."""
    said = {"name": json.dumps(name, ensure_ascii=False), "id": _id_of(name)}
    return re.sub(r"(?m)^(name|id): .*$", lambda found: f"{found[1]}: {said[found[1]]}", text)


def _name_of(folder: Path) -> str:
    """Return a shop's name made of the folder's, for as long as nobody writes a better one."""
    words = re.sub(r"[\s_-]+", " ", folder.resolve().name).strip()
    printable = "".join(letter for letter in words if letter.isprintable())[:LONGEST_NAME].strip()
    return printable[:1].upper() + printable[1:] if printable else "Our shop"


def _id_of(name: str) -> str:
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    return "-".join(re.findall(r"[a-z0-9]+", plain))[:60].strip("-") or "our-shop"
