"""Picture files made by code, some with everything a phone notes in them, some damaged; and figures that show them."""

from __future__ import annotations

import io
import struct
import zlib
from collections.abc import Iterable
from functools import cache
from pathlib import Path
from typing import Any

from PIL import Image, ImageCms

from builder.formula import Fault
from builder.model.files import SourceFile
from builder.model.pictures import WebPicture
from builder.model.records.figure import Figure
from builder.model.reference import Ref
from builder.pictures import look, make

PLACE = "North of nowhere"
"""Stands in every note of `with_notes`; published pictures hold it nowhere."""
RED, GREEN, BLUE, WHITE = (220, 30, 30), (30, 200, 40), (30, 40, 210), (255, 255, 255)
_GPS, _ORIENTATION, _DESCRIPTION = 0x8825, 0x0112, 0x010E


def encoded(image: Image.Image, format_: str, **options: Any) -> bytes:
    stream = io.BytesIO()
    image.save(stream, format_, **options)
    return stream.getvalue()


def corners(width: int, height: int, mode: str = "RGB") -> Image.Image:
    """White, with a red corner first in the file, a green one at the end of its first row, a blue one at the bottom."""
    image = Image.new("RGB", (width, height), WHITE)
    side = min(width, height) // 3
    image.paste(RED, (0, 0, side, side))
    image.paste(GREEN, (width - side, 0, width, side))
    image.paste(BLUE, (0, height - side, side, height))
    return image.convert(mode)


def notes(orientation: int = 1) -> Image.Exif:
    """What a phone notes: the place on the globe, and words."""
    exif = Image.Exif()
    exif[_ORIENTATION] = orientation
    exif[_DESCRIPTION] = PLACE
    exif.get_ifd(_GPS).update({1: "N", 2: (51.0, 30.0, 12.0), 3: "W", 4: (0.0, 7.0, 39.0)})
    return exif


@cache
def profile() -> bytes:
    """A colour profile; it holds the time at which it was made, so it is made once."""
    return ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()


def with_notes(image: Image.Image, format_: str, orientation: int = 1) -> bytes:
    """The picture with EXIF, XMP, a comment and a colour profile."""
    said = f"<x:xmpmeta xmlns:x='adobe:ns:meta/'>{PLACE}</x:xmpmeta>".encode()
    more: dict[str, Any] = {"comment": PLACE, "xmp": said} if format_ == "JPEG" else {}
    if format_ == "PNG":
        from PIL.PngImagePlugin import PngInfo

        text = PngInfo()
        text.add_text("Comment", PLACE)
        text.add_itxt("XML:com.adobe.xmp", said.decode())
        more = {"pnginfo": text}
    if format_ == "WEBP":
        more = {"xmp": said, "lossless": True}
    return encoded(image, format_, exif=notes(orientation).tobytes(), icc_profile=profile(), **more)


def png(width: int, height: int, depth: int, colour: int, rows: Iterable[bytes]) -> bytes:
    """A PNG put together by hand from its standard (W3C PNG, sections 5 and 11): no filter in any row."""
    head = struct.pack(">IIBBBBB", width, height, depth, colour, 0, 0, 0)
    data = zlib.compress(b"".join(b"\0" + row for row in rows))
    return b"\x89PNG\r\n\x1a\n" + _chunk(b"IHDR", head) + _chunk(b"IDAT", data) + _chunk(b"IEND", b"")


def _chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def segments(jpeg: bytes) -> list[int]:
    """The markers of a JPEG up to its pixels (ITU-T T.81, annex B)."""
    found, at = [], 2
    while True:
        marker, length = jpeg[at + 1], struct.unpack(">H", jpeg[at + 2 : at + 4])[0]
        assert jpeg[at] == 0xFF
        found.append(marker)
        if marker == 0xDA:
            return found
        at += 2 + length


def chunks(data: bytes) -> list[bytes]:
    """The kinds of a PNG's chunks, in order."""
    found, at = [], 8
    while at < len(data):
        length = struct.unpack(">I", data[at : at + 4])[0]
        found.append(data[at + 4 : at + 8])
        at += 12 + length
    return found


def put(
    folder: Path, name: str, data: bytes, sort: str = "photo", file: str | None = None
) -> tuple[SourceFile, Figure]:
    """Put a picture down and return the record that would lie beside it."""
    path = folder / name
    path.write_bytes(data)
    figure = Figure(title="T", sort=sort, alt="A", file=file, by="B", sources=())  # type: ignore[arg-type]
    return SourceFile(path.with_suffix(".yaml"), f"figures/{path.stem}.yaml", Ref("figure", path.stem)), figure


def published(folder: Path, name: str, data: bytes, sort: str = "photo") -> tuple[WebPicture, dict[str, bytes]]:
    """Look at a picture and make its files; nothing is wrong with it."""
    file, figure = put(folder, name, data, sort)
    picture, faults = look(file, figure)
    assert picture is not None
    assert faults == ()
    files, faults = make(file, figure, picture)
    assert faults == ()
    return picture, dict(files)


def refused(folder: Path, name: str, data: bytes, sort: str = "photo") -> Fault:
    """Return the one fault of a picture, found when it is looked at or at the latest when it is made."""
    file, figure = put(folder, name, data, sort)
    picture, faults = look(file, figure)
    if picture is not None:
        assert faults == ()
        files, faults = make(file, figure, picture)
        assert files == {}
    (fault,) = faults
    return fault


def opened(data: bytes) -> Image.Image:
    image = Image.open(io.BytesIO(data))
    image.load()
    return image


def near(found: object, wanted: tuple[int, ...], within: int = 24) -> bool:
    """Whether a pixel is as wanted, but for what JPEG makes of it."""
    assert isinstance(found, tuple)
    return len(found) == len(wanted) and all(abs(a - b) <= within for a, b in zip(found, wanted, strict=True))
