"""The bytes of a photo or a painted drawing -> its upright size; and -> the bytes of its web pictures, bare of notes.

What is written holds pixels alone: no place, date, camera, thumbnail, comment or colour profile of the file it was made
from. The same bytes give the same bytes, with the same release of the library.
"""

from __future__ import annotations

import warnings
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from io import BytesIO
from typing import NamedTuple

from PIL import Image, ImageCms, ImageFile

from builder.formula import Fault
from builder.pictures import codes

MOST_PIXELS, MOST_HEAVY_PIXELS = 60_000_000, 16_000_000
"""What a phone's largest photo has; and of what takes several times the room while it is decoded: 500 MB will do."""
_READ = ("JPEG", "PNG", "WEBP")
_ORIENTATION = 0x0112
_TURNS = {
    2: Image.Transpose.FLIP_LEFT_RIGHT, 3: Image.Transpose.ROTATE_180, 4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE, 6: Image.Transpose.ROTATE_270, 7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}  # fmt: skip
"""By the EXIF orientation (Exif 2.32, tag 0x0112): what brings the picture upright."""
_LYING = frozenset({5, 6, 7, 8})
_WHITE = (255, 255, 255, 255)


class Upright(NamedTuple):
    """How large a picture is when it is looked at."""

    width: int
    height: int


def size_of(data: bytes, name: str) -> Upright | Fault:
    """Read a picture's head: its upright size, or why it is not taken."""
    with _opened(data, name) as image:
        if isinstance(image, Fault):
            return image
        width, height = image.size
        return Upright(height, width) if _turn(image) in _LYING else Upright(width, height)


def web_pictures(data: bytes, name: str, sizes: Sequence[Upright], *, as_jpeg: bool) -> list[bytes] | Fault:
    """Decode a picture once and write it upright in each of these sizes, the largest first."""
    with _opened(data, name) as image:
        if isinstance(image, Fault):
            return image
        turn = _turn(image)
        image.draft(None, _as_kept(sizes[0], turn))
        try:
            image.load()
            made = _toned(image)
        except Exception:  # whatever the library raises of a damaged file
            return _broken(name)
        profile = image.info.get("icc_profile")
        pictures = []
        for size in sizes:
            made = made if made.size == _as_kept(size, turn) else made.resize(_as_kept(size, turn), _FINE)
            upright = made.transpose(_TURNS[turn]) if turn in _TURNS else made
            pictures.append(_written(_in_srgb(_on_paper(upright), profile), as_jpeg=as_jpeg))
        return pictures


_FINE = Image.Resampling.LANCZOS


@contextmanager
def _opened(data: bytes, name: str) -> Iterator[ImageFile.ImageFile | Fault]:
    """Open without decoding; what is too large, moves or is damaged is a fault."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # sizes are judged below, odd tags are nobody's business
        try:
            image = Image.open(BytesIO(data), formats=_READ)
        except Image.DecompressionBombError:
            yield _too_large(name, MOST_PIXELS)
            return
        except Exception:  # whatever the library raises of a damaged head
            yield _broken(name)
            return
        with image:
            yield _refused(image, name) or image


def _refused(image: ImageFile.ImageFile, name: str) -> Fault | None:
    most = MOST_HEAVY_PIXELS if _is_heavy(image) else MOST_PIXELS
    if image.width * image.height > most:
        return _too_large(name, most)
    # A phone's JPEG may carry further pictures, such as one for depth (MPO); the first is the photo.
    if image.format != "MPO" and getattr(image, "is_animated", False):
        return Fault(codes.MOVING, f"{name} holds several frames", "save the one frame that shows it", path=("file",))
    return None


def _is_heavy(image: ImageFile.ImageFile) -> bool:
    """Whether it is decoded into more than one picture of its full size: clear parts, 16 bits, four inks, any WebP."""
    return image.format == "WEBP" or image.mode not in ("1", "L", "P", "RGB") or image.has_transparency_data


def _too_large(name: str, most: int) -> Fault:
    return Fault(codes.TOO_LARGE, f"{name} has more than {most // 1_000_000} million pixels", "save it smaller",
                 path=("file",))  # fmt: skip


def _broken(name: str) -> Fault:
    return Fault(codes.BROKEN, f"{name} is damaged or ends too early", "copy it again from where it came from",
                 path=("file",))  # fmt: skip


def _turn(image: Image.Image) -> int:
    """Return the orientation its camera noted; 1 where there is none that can be read."""
    exif = Image.Exif()
    try:
        exif.load(image.info.get("exif") or b"")
        return int(exif.get(_ORIENTATION, 1))
    except Exception:  # whatever the library raises of a damaged note
        return 1


def _as_kept(upright: Upright, turn: int) -> tuple[int, int]:
    return (upright.height, upright.width) if turn in _LYING else (upright.width, upright.height)


def _toned(image: Image.Image) -> Image.Image:
    """Bring whatever the file holds to 8 bits a channel: grey, RGB, RGB with clear parts, or CMYK."""
    if image.mode.startswith("I"):
        return image.convert("I").point(lambda value: value * (1 / 256)).convert("L")
    if image.has_transparency_data:
        return image.convert("RGBA")
    return image if image.mode in ("L", "RGB", "CMYK") else image.convert("L" if image.mode == "1" else "RGB")


def _on_paper(image: Image.Image) -> Image.Image:
    """What is clear becomes white paper, so that dark lines stand on no dark page."""
    if image.mode != "RGBA":
        return image
    return Image.alpha_composite(Image.new("RGBA", image.size, _WHITE), image).convert("RGB")


def _in_srgb(image: Image.Image, profile: bytes | None) -> Image.Image:
    """Bring colours to those that every screen takes for granted; a profile that is no use is left aside."""
    if profile and image.mode in ("RGB", "CMYK"):
        try:
            given = ImageCms.ImageCmsProfile(BytesIO(profile))
            turned = ImageCms.profileToProfile(image, given, ImageCms.createProfile("sRGB"), outputMode="RGB")
        except Exception:  # whatever the library raises of a damaged profile
            turned = None
        if turned is not None:
            return turned
    return image.convert("RGB") if image.mode == "CMYK" else image


def _written(image: Image.Image, *, as_jpeg: bool) -> bytes:
    bare = Image.frombytes(image.mode, image.size, image.tobytes())  # pixels, and nothing the library carries along
    stream = BytesIO()
    _WRITERS[as_jpeg](bare, stream)
    return stream.getvalue()


def _jpeg(image: Image.Image, stream: BytesIO) -> None:
    image.save(stream, "JPEG", quality=82, optimize=True, progressive=True, subsampling="4:2:0")


def _png(image: Image.Image, stream: BytesIO) -> None:
    image.save(stream, "PNG", optimize=True)


_WRITERS: dict[bool, Callable[[Image.Image, BytesIO], None]] = {True: _jpeg, False: _png}
