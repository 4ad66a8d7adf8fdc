"""A page printed by Chromium -> its sheets as words with their places, as pictures, and the codes read off them."""

from __future__ import annotations

import re
import subprocess
from html import unescape
from pathlib import Path
from typing import NamedTuple

import numpy as np
import zxingcpp
from numpy.typing import NDArray
from PIL import Image
from playwright.sync_api import Page

POINT = 25.4 / 72
SIZES = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
Grey = NDArray[np.uint8]


class Word(NamedTuple):
    """A word and its box on the sheet, in mm from the top left."""

    text: str
    left: float
    top: float
    right: float
    foot: float


class Sheet(NamedTuple):
    """One sheet of a print."""

    width: float
    height: float
    words: tuple[Word, ...]

    @property
    def text(self) -> str:
        return " ".join(word.text for word in self.words)


def printed(page: Page, pdf: Path, size: str | None = None) -> list[Sheet]:
    """Print a page, on the paper that it asks for itself; `size` is what is in the printer where it asks for none."""
    page.pdf(path=pdf, prefer_css_page_size=True, format=size)
    run = subprocess.run(("pdftotext", "-bbox", str(pdf), "-"), capture_output=True, check=True)
    return [_sheet(part) for part in run.stdout.decode().split("<page ")[1:]]


def _sheet(part: str) -> Sheet:
    width, height = (float(one) * POINT for one in re.findall(r'(?:width|height)="([\d.]+)"', part)[:2])
    found = re.findall(r'xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">([^<]*)<', part)
    words = (Word(unescape(text), *(float(one) * POINT for one in box)) for *box, text in found)
    return Sheet(width, height, tuple(words))


def pictures(pdf: Path, dots: int, first: int = 1, last: int = 0) -> list[Grey]:
    """Sheets as pictures, so many dots an inch."""
    to = ("-l", str(last)) if last else ()
    name = pdf.with_suffix("")
    subprocess.run(("pdftoppm", "-r", str(dots), "-gray", "-f", str(first), *to, str(pdf), str(name)), check=True)
    paths = sorted(pdf.parent.glob(f"{name.name}-*.pgm"))
    found = [np.asarray(Image.open(path)) for path in paths]
    for path in paths:
        path.unlink()
    return found


def codes(picture: Grey) -> list[str]:
    """What the QR codes on a picture say, in no order."""
    sought = zxingcpp.BarcodeFormats(zxingcpp.BarcodeFormat.QRCode)
    return [one.text for one in zxingcpp.read_barcodes(picture, formats=sought)]
