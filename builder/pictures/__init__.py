"""A figure's record and its picture file -> how it will stand on pages; and, when it is drawn -> its files for the web.

`look` is cheap and is asked of every figure before anything is drawn, since other pages say its size; `make` decodes.
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping

from builder.formula import Fault
from builder.model.files import SourceFile
from builder.model.pictures import WebFile, WebPicture
from builder.model.records.figure import Figure
from builder.pictures import codes
from builder.pictures.codes import CODES
from builder.pictures.files import Kept, kept
from builder.pictures.svg import read_drawing

FOLDER = "assets/pictures"
FULL, SMALL = 1600, 640
"""The longest side of a published picture and of its small one, in pixels."""


def look(file: SourceFile, figure: Figure) -> tuple[WebPicture | None, tuple[Fault, ...]]:
    """Find a figure's picture and say how it will be published, without decoding it."""
    found = kept(file.path.parent, file.ref.id, figure.file)
    if isinstance(found, Fault):
        return None, (found,)
    size = _size(found)
    if isinstance(size, Fault):
        return None, (size,)
    name, digest = f"{FOLDER}/{file.ref.id}", hashlib.sha256(found.data).digest()
    if found.format == "SVG":
        return WebPicture(WebFile(f"{name}.svg", *_within(*size, FULL)), None, digest), ()
    ending = "jpg" if _as_jpeg(found, figure) else "png"
    longest = max(size)
    full, small = (WebFile(f"{name}-{side}.{ending}", *_within(*size, min(longest, side))) for side in (FULL, SMALL))
    return WebPicture(full, small if longest > SMALL else None, digest), ()


def make(file: SourceFile, figure: Figure, picture: WebPicture) -> tuple[Mapping[str, bytes], tuple[Fault, ...]]:
    """Make the files of a picture that has been looked at, by their path from the book's root."""
    found = kept(file.path.parent, file.ref.id, figure.file)
    if isinstance(found, Fault):
        return {}, (found,)
    if hashlib.sha256(found.data).digest() != picture.digest:
        return {}, (Fault(codes.BROKEN, f"{found.name} changed while the book was made", "make it again"),)
    if found.format == "SVG":
        drawing = read_drawing(found.data, found.name)
        if isinstance(drawing, Fault):
            return {}, (drawing,)
        return {picture.full.path: drawing.written(picture.full.width, picture.full.height)}, ()
    from builder.pictures import raster

    files = [picture.full, *([picture.small] if picture.small else [])]
    sizes = [raster.Upright(one.width, one.height) for one in files]
    made = raster.web_pictures(found.data, found.name, sizes, as_jpeg=_as_jpeg(found, figure))
    if isinstance(made, Fault):
        return {}, (made,)
    return dict(zip([one.path for one in files], made, strict=True)), ()


def _as_jpeg(found: Kept, figure: Figure) -> bool:
    """A JPEG stays one and a PNG drawing too; else what it shows decides, since photos would be heavy as PNG."""
    return found.format == "JPEG" or figure.sort == "photo"


def _size(found: Kept) -> tuple[float, float] | Fault:
    if found.format == "SVG":
        drawing = read_drawing(found.data, found.name)
        return drawing if isinstance(drawing, Fault) else (drawing.width, drawing.height)
    from builder.pictures import raster  # late: most runs see no photo, and its library is large

    return raster.size_of(found.data, found.name)


def _within(width: float, height: float, side: float) -> tuple[int, int]:
    """Scale so that the longer side is as long as this."""
    scale = side / max(width, height)
    return max(1, round(width * scale)), max(1, round(height * scale))


__all__ = ["CODES", "look", "make"]
