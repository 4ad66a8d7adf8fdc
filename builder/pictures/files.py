"""A figure's record and its place -> the bytes of its picture file, and what they are; or the fault that hinders it."""

from __future__ import annotations

import re
import stat
from pathlib import Path
from typing import NamedTuple

from builder.formula import Fault
from builder.model.near import listed
from builder.model.pictures import PICTURE_ENDINGS
from builder.pictures import codes

MAX_BYTES = 40_000_000
_SVG = re.compile(rb"\s*<(?:\?xml|!--|!DOCTYPE|(?:\w+:)?svg\b)", re.IGNORECASE)


class Kept(NamedTuple):
    """A picture file as its author keeps it."""

    name: str
    format: str
    """JPEG, PNG, WebP or SVG, by what is in it."""
    data: bytes


def kept(folder: Path, id_: str, named: str | None) -> Kept | Fault:
    """Find a record's picture beside it and read it whole."""
    name = _name(folder, id_, named)
    if isinstance(name, Fault):
        return name
    data = _bytes(folder / name, name)
    if isinstance(data, Fault):
        return data
    found, said = format_of(data), PICTURE_ENDINGS[Path(name).suffix]
    if found is None:
        return Fault(
            codes.MISLABELLED, f"{name} holds no picture that every phone can show",
            f"save it as one of: {listed(dict.fromkeys(PICTURE_ENDINGS.values()))}", path=("file",),
        )  # fmt: skip
    if found != said:
        right = next(ending for ending, format_ in PICTURE_ENDINGS.items() if format_ == found)
        return Fault(
            codes.MISLABELLED, f"{name} holds {found}, not {said}", f"let its name end in {right}",
            path=("file",),
        )  # fmt: skip
    return Kept(name, found, data)


def _name(folder: Path, id_: str, named: str | None) -> str | Fault:
    endings = ", ".join(PICTURE_ENDINGS)
    if named is not None:
        # What is hidden is not listed with the files of a layer, so nobody has looked where it leads.
        if Path(named).suffix not in PICTURE_ENDINGS or Path(named).name != named or named.startswith("."):
            return Fault(codes.MISSING, f'"{named}" is no name of a picture file',
                         f"write the name of a file beside this record that ends in one of {endings}",
                         path=("file",))  # fmt: skip
        return named
    there = [f"{id_}{ending}" for ending in PICTURE_ENDINGS if (folder / f"{id_}{ending}").exists()]
    if len(there) > 1:
        return Fault(codes.TWO_PICTURES, f"there are several pictures of that name: {', '.join(there)}",
                     "keep one, or say its name under file")  # fmt: skip
    if not there:
        return Fault(codes.MISSING, "there is no picture beside this record",
                     f"put {id_}.jpg into the same folder, or another ending of {endings}")  # fmt: skip
    return there[0]


def _bytes(path: Path, name: str) -> bytes | Fault:
    try:
        if not stat.S_ISREG(path.stat().st_mode):
            return Fault(codes.MISSING, f"{name} is no ordinary file", "replace it by one", path=("file",))
        with path.open("rb") as stream:
            data = stream.read(MAX_BYTES + 1)
    except FileNotFoundError:
        return Fault(codes.MISSING, f"{name} is not beside this record", "put it into the same folder", path=("file",))
    except OSError as error:
        said = error.strerror or str(error)
        return Fault(codes.MISSING, f"{name} cannot be read: {said}", "make it readable", path=("file",))
    if len(data) > MAX_BYTES:
        return Fault(codes.TOO_LARGE, f"{name} is larger than {MAX_BYTES // 1_000_000} MB", "save it smaller",
                     path=("file",))  # fmt: skip
    return data


def format_of(data: bytes) -> str | None:
    """Tell a picture's format by how it begins; None where it is none of those that are taken."""
    if data.startswith(b"\xff\xd8\xff"):
        return "JPEG"
    if data.startswith(b"\x89PNG\r\n\x1a\n"):
        return "PNG"
    if data[:4] == b"RIFF" and data[8:12] == b"WEBP":
        return "WebP"
    return "SVG" if _SVG.match(data.removeprefix(b"\xef\xbb\xbf")[:200]) else None
