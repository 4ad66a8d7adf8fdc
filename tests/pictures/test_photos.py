"""Photos and painted drawings on their way to the web: upright, small, in plain colours, and bare of every note."""

from __future__ import annotations

import hashlib
import os
import struct
import subprocess
import sys
from pathlib import Path

import pytest
from PIL import Image

from tests.pictures.making import (
    BLUE,
    GREEN,
    PLACE,
    RED,
    WHITE,
    chunks,
    corners,
    encoded,
    near,
    notes,
    opened,
    png,
    profile,
    published,
    refused,
    segments,
    with_notes,
)
from tests.site.building import ROOT

# Exif 2.32, tag 0112 (Orientation): where the 0th row and the 0th column of the file are on the upright picture.
SIDES = {
    1: ("top", "left"), 2: ("top", "right"), 3: ("bottom", "right"), 4: ("bottom", "left"), 5: ("left", "top"),
    6: ("right", "top"), 7: ("right", "bottom"), 8: ("left", "bottom"),
}  # fmt: skip
OPPOSITE = {"top": "bottom", "bottom": "top", "left": "right", "right": "left"}


def at(image: Image.Image, *sides: str) -> object:
    """The pixel in a corner, given by the two sides that meet there."""
    x = 4 if "left" in sides else image.width - 5
    y = 4 if "top" in sides else image.height - 5
    return image.getpixel((x, y))


@pytest.mark.parametrize("orientation", SIDES)
@pytest.mark.parametrize("format_", ["JPEG", "WEBP"])
def test_a_photo_is_turned_as_its_camera_noted(orientation: int, format_: str, tmp_path: Path) -> None:
    data = with_notes(corners(1500, 900), format_, orientation)
    picture, files = published(tmp_path, "turned.jpg" if format_ == "JPEG" else "turned.webp", data)
    row, column = SIDES[orientation]
    for file in (picture.full, picture.small):
        assert file is not None
        image = opened(files[file.path])
        assert image.size == (file.width, file.height)
        assert (image.width < image.height) == (row in ("left", "right"))
        assert near(at(image, row, column), RED)
        assert near(at(image, row, OPPOSITE[column]), GREEN)
        assert near(at(image, OPPOSITE[row], column), BLUE)
        assert near(at(image, OPPOSITE[row], OPPOSITE[column]), WHITE)


def test_no_note_of_a_photo_is_published(tmp_path: Path) -> None:
    data = with_notes(corners(800, 600), "JPEG")
    assert data.count(PLACE.encode()) == 3
    assert dict(opened(data).getexif().get_ifd(0x8825))
    _, files = published(tmp_path, "noted.jpg", data)
    for made in files.values():
        # JFIF, tables, one progressive frame and its pixels: no APP1 (Exif, XMP), no APP2 (profile), no comment.
        assert set(segments(made)) == {0xE0, 0xDB, 0xC2, 0xC4, 0xDA}
        assert PLACE.encode() not in made
        assert b"Exif" not in made
        assert not opened(made).getexif()


@pytest.mark.parametrize(("name", "format_"), [("noted.png", "PNG"), ("noted.webp", "WEBP")])
def test_no_note_of_a_drawing_is_published(name: str, format_: str, tmp_path: Path) -> None:
    data = with_notes(corners(800, 600), format_)
    assert PLACE.encode() in data
    _, files = published(tmp_path, name, data, "drawing")
    for made in files.values():
        assert set(chunks(made)) == {b"IHDR", b"IDAT", b"IEND"}


def test_what_follows_a_photo_in_its_file_is_left_behind(tmp_path: Path) -> None:
    data = encoded(corners(300, 200), "JPEG") + encoded(corners(80, 60), "JPEG", comment=PLACE)
    _, files = published(tmp_path, "two-in-one.jpg", data)
    assert PLACE.encode() not in b"".join(files.values())


def test_of_several_photos_in_one_file_the_first_is_taken(tmp_path: Path) -> None:
    """As phones keep a depth map behind the photo (CIPA DC-007, multi-picture format)."""
    data = encoded(corners(300, 200), "MPO", save_all=True, append_images=[Image.new("RGB", (300, 200), BLUE)])
    _, files = published(tmp_path, "depth.jpg", data)
    (made,) = files.values()
    assert near(at(opened(made), "top", "left"), RED)


@pytest.mark.parametrize(
    ("size", "full", "small"),
    [
        ((4000, 3000), (1600, 1200), (640, 480)), ((700, 2100), (533, 1600), (213, 640)),
        ((900, 30), (900, 30), (640, 21)), ((640, 640), (640, 640), None), ((3, 2), (3, 2), None),
        ((3000, 1), (1600, 1), (640, 1)),
    ],
)  # fmt: skip
def test_sizes_are_bounded_and_nothing_grows(
    size: tuple[int, int], full: tuple[int, int], small: tuple[int, int] | None, tmp_path: Path
) -> None:
    picture, files = published(tmp_path, "sized.jpg", encoded(Image.new("L", size, 90), "JPEG"))
    assert (picture.full.width, picture.full.height) == full
    assert (picture.small and (picture.small.width, picture.small.height)) == small
    assert list(files) == ["assets/pictures/sized-1600.jpg", "assets/pictures/sized-640.jpg"][: 2 if small else 1]
    assert [opened(made).size for made in files.values()] == ([full, small] if small else [full])


@pytest.mark.parametrize(
    ("name", "sort", "ending"),
    [("a.jpg", "photo", "jpg"), ("a.jpeg", "drawing", "jpg"), ("a.png", "drawing", "png"), ("a.png", "photo", "jpg"),
     ("a.webp", "photo", "jpg"), ("a.webp", "drawing", "png")],
)  # fmt: skip
def test_photos_become_jpeg_and_drawings_png(name: str, sort: str, ending: str, tmp_path: Path) -> None:
    format_ = {"jpg": "JPEG", "jpeg": "JPEG", "png": "PNG", "webp": "WEBP"}[name.rpartition(".")[2]]
    picture, files = published(tmp_path, name, encoded(corners(60, 40), format_), sort)
    assert picture.full.path == f"assets/pictures/a-1600.{ending}"
    assert opened(files[picture.full.path]).format == {"jpg": "JPEG", "png": "PNG"}[ending]


@pytest.mark.parametrize("mode", ["1", "L", "P", "RGB", "CMYK"])
def test_any_mode_comes_out_in_plain_colours(mode: str, tmp_path: Path) -> None:
    image = corners(90, 60).quantize(8) if mode == "P" else corners(90, 60, mode)
    jpeg = mode == "CMYK"
    _, files = published(tmp_path, "m.jpg" if jpeg else "m.png", encoded(image, "JPEG" if jpeg else "PNG"), "drawing")
    made = opened(next(iter(files.values())))
    assert made.mode == ("L" if mode in ("1", "L") else "RGB")
    assert near(made.convert("RGB").getpixel((85, 55)), WHITE)
    if made.mode == "RGB":
        assert near(made.getpixel((4, 4)), RED, 40)
        assert near(made.getpixel((85, 4)), GREEN, 40)


def test_sixteen_bits_become_eight(tmp_path: Path) -> None:
    """Grey at 0, 1/4, 1/2, 3/4 and the whole of 65535, put together by hand."""
    row = struct.pack(">5H", 0, 0x4000, 0x8000, 0xC000, 0xFFFF)
    _, files = published(tmp_path, "deep.png", png(5, 1, 16, 0, [row]), "drawing")
    made = opened(next(iter(files.values())))
    assert made.mode == "L"
    assert [made.getpixel((x, 0)) for x in range(5)] == pytest.approx([0, 64, 128, 192, 255], abs=1)
    colours = struct.pack(">6H", 0xFFFF, 0x8000, 0, 0, 0x4000, 0xFFFF)
    _, files = published(tmp_path, "deeper.png", png(2, 1, 16, 2, [colours]), "drawing")
    made = opened(next(iter(files.values())))
    assert near(made.getpixel((0, 0)), (255, 128, 0), 1)
    assert near(made.getpixel((1, 0)), (0, 64, 255), 1)


def test_what_is_clear_becomes_paper(tmp_path: Path) -> None:
    grey_and_clear = bytes([0, 255, 0, 128, 0, 0])  # ink, half ink, nothing: grey with alpha, 8 bits
    for name, data in {
        "clear.png": png(3, 1, 8, 4, [grey_and_clear]),
        "palette.png": encoded(Image.new("P", (3, 1)), "PNG", transparency=0),
    }.items():
        _, files = published(tmp_path, name, data, "drawing")
        made = opened(next(iter(files.values())))
        assert made.mode == "RGB"
        assert made.getpixel((2, 0)) == WHITE
    made = opened(published(tmp_path, "clear.png", png(3, 1, 8, 4, [grey_and_clear]), "drawing")[1].popitem()[1])
    assert near(made.getpixel((0, 0)), (0, 0, 0), 1)
    assert near(made.getpixel((1, 0)), (127, 127, 127), 1)


def test_colours_of_a_wide_screen_are_brought_to_those_of_every_screen(tmp_path: Path) -> None:
    """A profile that swaps red and blue, so that a picture in which it is left aside is seen at once."""
    swapped = bytearray(profile())
    red, blue = swapped.index(b"rXYZ"), swapped.index(b"bXYZ")
    swapped[red : red + 4], swapped[blue : blue + 4] = b"bXYZ", b"rXYZ"
    image = Image.new("RGB", (40, 30), (255, 0, 0))
    _, files = published(tmp_path, "p.png", encoded(image, "PNG", icc_profile=bytes(swapped)), "drawing")
    assert near(opened(files["assets/pictures/p-1600.png"]).getpixel((20, 15)), (0, 0, 255), 3)


@pytest.mark.parametrize("mode", ["RGB", "CMYK"])
def test_a_profile_that_is_no_use_is_left_aside(mode: str, tmp_path: Path) -> None:
    data = encoded(corners(60, 60, mode), "JPEG", icc_profile=b"no profile")
    _, files = published(tmp_path, "odd.jpg", data)
    assert near(opened(next(iter(files.values()))).getpixel((5, 5)), RED, 40)


def test_a_damaged_note_does_not_hinder(tmp_path: Path) -> None:
    data = encoded(corners(60, 40), "JPEG", exif=b"Exif\0\0" + notes(6).tobytes()[6:30])
    picture, files = published(tmp_path, "damaged-note.jpg", data)
    assert opened(files[picture.full.path]).size == (60, 40)


MAKE = """
import hashlib, sys
from pathlib import Path
from tests.pictures.making import published
files = published(Path(sys.argv[1]), "p.jpg", Path(sys.argv[2]).read_bytes())[1]
print(hashlib.sha256(b"".join(files.values())).hexdigest())
"""


def test_the_same_photo_gives_the_same_bytes_in_every_process(tmp_path: Path) -> None:
    data = with_notes(Image.effect_noise((900, 700), 80).convert("RGB"), "JPEG", 6)
    (tmp_path / "kept").write_bytes(data)
    here = hashlib.sha256(b"".join(published(tmp_path, "p.jpg", data)[1].values())).hexdigest()
    for seed in ("1", "77"):
        run = subprocess.run(
            (sys.executable, "-c", MAKE, str(tmp_path), str(tmp_path / "kept")), cwd=ROOT, capture_output=True,
            check=True, text=True, env={**os.environ, "PYTHONHASHSEED": seed, "TZ": "Pacific/Auckland"},
        )  # fmt: skip
        assert run.stdout.strip() == here


@pytest.mark.parametrize(
    ("name", "data", "code", "said"),
    [
        ("cut.jpg", encoded(corners(300, 200), "JPEG")[:1500], "P605", "cut.jpg is damaged or ends too early"),
        ("head.jpg", encoded(corners(300, 200), "JPEG")[:40], "P605", "head.jpg is damaged or ends too early"),
        ("cut.png", encoded(corners(300, 200), "PNG")[:300], "P605", "cut.png is damaged or ends too early"),
        ("cut.webp", encoded(corners(300, 200), "WEBP")[:60], "P605", "cut.webp is damaged or ends too early"),
        ("bomb.png", png(30000, 30000, 8, 2, [b"\0"]), "P603", "bomb.png has more than 60 million pixels"),
        ("large.png", png(9000, 9000, 1, 0, [b"\0"]), "P603", "large.png has more than 60 million pixels"),
        ("long.png", png(2**31 - 1, 1, 1, 0, [b"\0"]), "P603", "long.png has more than 60 million pixels"),
        ("none.jpg", b"", "P604", "none.jpg holds no picture that every phone can show"),
        ("text.jpg", b"version https://...", "P604", "text.jpg holds no picture that every phone can show"),
        ("heic.jpg", b"\0\0\0\x18ftypheic", "P604", "heic.jpg holds no picture that every phone can show"),
        ("gif.png", b"GIF89a\1\0\1\0", "P604", "gif.png holds no picture that every phone can show"),
        ("other.png", encoded(corners(30, 20), "JPEG"), "P604", "other.png holds JPEG, not PNG"),
        ("other.jpg", b"<svg xmlns='http://www.w3.org/2000/svg'/>", "P604", "other.jpg holds SVG, not JPEG"),
    ],
)  # fmt: skip
def test_what_cannot_be_shown_is_refused(name: str, data: bytes, code: str, said: str, tmp_path: Path) -> None:
    fault = refused(tmp_path, name, data)
    assert (fault.code.id, fault.message) == (code, said)
    assert fault.do


@pytest.mark.parametrize(("name", "format_"), [("cut.jpg", "JPEG"), ("cut.png", "PNG"), ("cut.webp", "WEBP")])
def test_a_picture_cut_anywhere_is_refused_and_never_a_fault_of_the_builder(
    name: str, format_: str, tmp_path: Path
) -> None:
    noise = Image.effect_noise((70, 50), 90).convert("RGB")
    whole = with_notes(noise, format_)
    end = len(whole)
    if format_ == "PNG":  # notes come behind the pixels, and nothing is lost with them
        last = whole.rindex(b"IDAT")
        end = last + 4 + int.from_bytes(whole[last - 4 : last], "big")
    for cut in range(0, end - 20, end // 40):
        assert refused(tmp_path, name, whole[:cut]).code.id in ("P604", "P605"), cut


def test_a_large_photo_cut_near_its_end_is_refused(tmp_path: Path) -> None:
    """It is decoded at half its size, and must be read to its end all the same."""
    whole = encoded(Image.effect_noise((3400, 300), 90).convert("RGB"), "JPEG")
    assert refused(tmp_path, "cut.jpg", whole[: len(whole) * 95 // 100]).code.id == "P605"


@pytest.mark.parametrize(("name", "format_"), [("moving.png", "PNG"), ("moving.webp", "WEBP")])
def test_what_moves_is_refused(name: str, format_: str, tmp_path: Path) -> None:
    frames = [Image.new("RGB", (20, 20), colour) for colour in (RED, GREEN)]
    fault = refused(tmp_path, name, encoded(frames[0], format_, save_all=True, append_images=frames[1:], duration=90))
    assert (fault.code.id, fault.message) == ("P606", f"{name} holds several frames")
