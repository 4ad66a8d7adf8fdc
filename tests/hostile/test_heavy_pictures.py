"""Small files of the largest pictures that are taken, and of larger ones: made in half a gigabyte, or refused."""

from __future__ import annotations

import subprocess
import sys
import zlib
from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from builder.pictures.raster import MOST_HEAVY_PIXELS, MOST_PIXELS

ROOT = Path(__file__).parents[2]
MOST = 500 * 1024 * 1024
RUN = """
import resource, sys
from pathlib import Path
from builder import pictures
from builder.model.files import SourceFile
from builder.model.records.figure import Figure
from builder.model.reference import Ref
from builder.pictures import raster
resource.setrlimit(resource.RLIMIT_DATA, (int(sys.argv[2]), int(sys.argv[2])))
figure = Figure(title="X", sort="drawing", alt="X", by="X", sources=())
source = SourceFile(Path(sys.argv[1]) / "x.yaml", "x.yaml", Ref("figure", "x"))
picture, faults = pictures.look(source, figure)
made = {}
if picture is not None:
    made, faults = pictures.make(source, figure, picture)
print([fault.message for fault in faults], len(made))
"""


def square(pixels: int) -> tuple[int, int]:
    return int(pixels**0.5) - 1, int(pixels**0.5) - 1


def picture(mode: str, format_: str, pixels: int, **more: object) -> bytes:
    stream = BytesIO()
    Image.new(mode, square(pixels)).save(stream, format_, **more)
    return stream.getvalue()


def swollen(name: bytes) -> bytes:
    """A picture whose note of this sort unfolds to a gigabyte."""
    machine = zlib.compressobj(9, zlib.DEFLATED, -zlib.MAX_WBITS)
    megabyte = machine.compress(bytes(1_000_000)) + machine.flush(zlib.Z_FULL_FLUSH)
    sum_of_zeros = (1_000_000_000 % 65521 << 16) + 1  # Adler-32
    note = b"x\0\0\x78\xda" + megabyte * 1000 + machine.flush() + sum_of_zeros.to_bytes(4, "big")
    chunk = len(note).to_bytes(4, "big") + name + note + zlib.crc32(name + note).to_bytes(4, "big")
    whole = picture("RGB", "PNG", 400)
    return whole[:33] + chunk + whole[33:]


DAMAGED = "['x.{} is damaged or ends too early'] 0"
FILES: dict[str, tuple[str, Callable[[], bytes], str]] = {
    "many pixels": ("png", lambda: picture("RGB", "PNG", MOST_PIXELS), "[] 2"),
    "many pixels of a photo": ("jpg", lambda: picture("RGB", "JPEG", MOST_PIXELS, progressive=True), "[] 2"),
    "four inks": ("jpg", lambda: picture("CMYK", "JPEG", MOST_HEAVY_PIXELS, progressive=True), "[] 2"),
    "clear parts": ("png", lambda: picture("RGBA", "PNG", MOST_HEAVY_PIXELS), "[] 2"),
    "a clear colour": ("png", lambda: picture("P", "PNG", MOST_HEAVY_PIXELS, transparency=0), "[] 2"),
    "16 bits": ("png", lambda: picture("I;16", "PNG", MOST_HEAVY_PIXELS), "[] 2"),
    "WebP": ("webp", lambda: picture("RGBA", "WEBP", MOST_HEAVY_PIXELS, lossless=True, method=0), "[] 2"),
    "too many with clear parts": (
        "png", lambda: picture("RGBA", "PNG", 2 * MOST_HEAVY_PIXELS), "['x.png has more than 16 million pixels'] 0",
    ),
    "a profile of a gigabyte": ("png", lambda: swollen(b"iCCP"), DAMAGED.format("png")),
    "a note of a gigabyte": ("png", lambda: swollen(b"zTXt"), DAMAGED.format("png")),
}  # fmt: skip


@pytest.mark.slow
@pytest.mark.sweep(3)
@pytest.mark.parametrize("name", FILES)
def test_no_picture_takes_half_a_gigabyte(tmp_path: Path, name: str) -> None:
    ending, make, said = FILES[name]
    data = make()
    assert len(data) < 4_000_000
    (tmp_path / f"x.{ending}").write_bytes(data)
    run = subprocess.run((sys.executable, "-c", RUN, str(tmp_path), str(MOST)), cwd=ROOT, capture_output=True,
                         text=True, timeout=100, check=False, stdin=subprocess.DEVNULL)  # fmt: skip
    assert (run.stdout.strip(), run.stderr) == (said, "")
