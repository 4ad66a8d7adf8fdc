"""Marking strips on paper, made by Chromium as a PDF and measured as a picture at 600 dots an inch.

The pieces are put together as they are taped: each begins where the one before it ended. What is measured is held
against the rule (100 mm), against the numbers printed beside the marks, and against the plan.
"""

from __future__ import annotations

import json
import re
import subprocess
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image
from playwright.sync_api import Page

from tests.browser.watched import DESK, Watched

pytestmark = pytest.mark.slow
DPI = 600
DOT = 25.4 / DPI
MARGIN = 10.0
CHECK_LINE, FIRST, PIECE, BAND = 29.0, 35.0, 37.0, 19.0
"""Where on a sheet to look, in mm; what is found there is measured, not taken from here."""
WHOLE, NEAR = 0.1, 0.2
"""How far the check line may be off, and a mark over 200 mm."""
SHORT, LONG, THREE = "rocker-to-quarter_mag-plug", "rocker-lower_resistance-spot", "floor-patch-lap_mag-seam"
SIZES = {"A4": (297.0, 210.0), "Letter": (279.4, 215.9)}
Grey = NDArray[np.uint8]


class Stroke(NamedTuple):
    """An upright stroke, in mm from the sheet's left edge."""

    x: float
    width: float


class Weld(NamedTuple):
    """A cross as it is found on the taped strip."""

    place: float
    """From the front end, in mm."""
    told: float
    """What the number beside it says, from its segment's front end."""


class Taped(NamedTuple):
    """A strip put together from its sheets."""

    welds: list[Weld]
    borders: list[float]
    length: float


def printed(page: Page, folder: Path, size: str) -> list[Grey]:
    """The sheets as pictures, in the size that the paper has."""
    pdf = folder / "strip.pdf"
    page.pdf(path=pdf, format=size, prefer_css_page_size=True)
    subprocess.run(("pdftoppm", "-r", str(DPI), "-gray", str(pdf), str(folder / "sheet")), check=True)
    return [np.asarray(Image.open(path)) for path in sorted(folder.glob("sheet*.pgm"))]


def strokes(sheet: Grey, top: float, foot: float) -> list[Stroke]:
    """Upright strokes that reach from one height to another, in mm from the top of the sheet's drawing."""
    rows = sheet[round((MARGIN + top) / DOT) : round((MARGIN + foot) / DOT)]
    dark = np.concatenate(([False], (rows < 128).mean(axis=0) > 0.95, [False]))
    edges = np.flatnonzero(dark[1:] != dark[:-1])
    return [Stroke((left + right) / 2 * DOT, (right - left) * DOT)
            for left, right in zip(edges[::2], edges[1::2], strict=True)]  # fmt: skip


def words(pdf: Path, sheet: int) -> list[tuple[float, float, str]]:
    """Middle and foot of each word on a sheet, in mm, with the word."""
    run = subprocess.run(("pdftotext", "-bbox", "-f", str(sheet), "-l", str(sheet), str(pdf), "-"), capture_output=True,
                         check=True)  # fmt: skip
    found = re.findall(r'xMin="([\d.]+)" yMin="[\d.]+" xMax="([\d.]+)" yMax="([\d.]+)">([^<]*)<', run.stdout.decode())
    point = 25.4 / 72
    return [((float(a) + float(b)) / 2 * point, float(foot) * point, text) for a, b, foot, text in found]


def taped(sheets: list[Grey], pdf: Path) -> Taped:
    """Put the pieces of all sheets together."""
    welds: list[Weld] = []
    borders: list[float] = []
    reached = 0.0
    for number, sheet in enumerate(sheets, 1):
        told = words(pdf, number)
        for at in range(4):
            top = FIRST + PIECE * at
            band = strokes(sheet, top + BAND + 1, top + BAND + 3)
            if not band:
                continue
            thick = [one.x for one in band if one.width > 0.4]  # the ends of the piece, and where segments begin
            start, end = thick[0], thick[-1]
            borders += [reached + x - start for x in thick[:-1] if is_border(sheet, x, top)]
            for one in band:
                if 0.18 < one.width < 0.4:  # a cross; a line to cut along is finer
                    beside = min((word for word in told if is_label(word, top)), key=lambda word: abs(word[0] - one.x))
                    assert abs(beside[0] - one.x) < 0.5, "the number stands above its cross"
                    welds.append(Weld(reached + one.x - start, float(beside[2])))
            reached += end - start
    return Taped(welds, borders, reached)


def is_label(word: tuple[float, float, str], top: float) -> bool:
    """Whether it is the place of a weld: the line of numbers right above the band."""
    return MARGIN + top + 16 < word[1] < MARGIN + top + 20 and re.fullmatch(r"\d+(\.\d)?", word[2]) is not None


def is_border(sheet: Grey, x: float, top: float) -> bool:
    """Whether the stroke stands out below the band and does not go on to the foot of the piece."""
    ways = [strokes(sheet, top + 29.5, top + 32), strokes(sheet, top + 33, top + 36)]
    below, foot = (any(abs(one.x - x) < 0.2 for one in way if one.width > 0.4) for way in ways)
    return below and not foot


def plan_of(page: Page) -> list[dict[str, Any]]:
    data = json.loads(page.locator("[data-strip]").get_attribute("data-strip") or "")
    segments: list[dict[str, Any]] = data["segments"]
    return segments


@pytest.mark.sweep(3)
@pytest.mark.parametrize("name", [SHORT, LONG, THREE])
@pytest.mark.parametrize("size", SIZES)
def test_a_strip_measures_what_it_says(book: Watched, tmp_path: Path, name: str, size: str) -> None:
    page = book.open(f"strips/{name}.html", DESK)
    segments = plan_of(page)
    sheets = printed(page, tmp_path, size)
    assert len(sheets) == page.locator(".strip-sheet").count()
    for sheet in sheets:
        assert (sheet.shape[1] * DOT, sheet.shape[0] * DOT) == pytest.approx(SIZES[size], abs=0.5)
        ends = strokes(sheet, CHECK_LINE - 2.2, CHECK_LINE + 2.2)
        assert ends[1].x - ends[0].x == pytest.approx(100, abs=WHOLE)
        every = strokes(sheet, CHECK_LINE - 1, CHECK_LINE - 0.3)[:11]
        assert [one.x - ends[0].x for one in every] == pytest.approx([10.0 * at for at in range(11)], abs=WHOLE)
    found = taped(sheets, tmp_path / "strip.pdf")
    starts = [sum(one["length"] for one in segments[:at]) for at in range(len(segments))]
    wanted = [
        (start, row["first"] + row["spacing"] * at)
        for start, row in zip(starts, (one["row"] for one in segments), strict=True) for at in range(row["count"])
    ]  # fmt: skip
    assert len(found.welds) == len(wanted) == sum(one["row"]["count"] for one in segments)
    assert found.length == pytest.approx(sum(one["length"] for one in segments), abs=allowed(found.length))
    assert found.borders == pytest.approx(starts, abs=allowed(found.length))
    for weld, (start, place) in zip(found.welds, wanted, strict=True):
        assert weld.place == pytest.approx(start + place, abs=allowed(start + place))
        assert weld.told == pytest.approx(place, abs=0.0501)
    near = [(one, other) for one in found.welds for other in found.welds if 0 < other.place - one.place <= 200]
    planned = {one: start + place for one, (start, place) in zip(found.welds, wanted, strict=True)}
    assert max(abs((other.place - one.place) - (planned[other] - planned[one])) for one, other in near) <= NEAR


def allowed(length: float) -> float:
    """0.2 mm over 200 mm, and for what is shorter no less than it."""
    return NEAR * max(1.0, length / 200)


def test_a_measured_strip_prints_its_own_lengths(book: Watched, tmp_path: Path) -> None:
    spacing = (1083.5 - 20) / 37
    page = book.open(f"strips/{LONG}.html#rows=1083.5~38~10~{spacing},355~13~10~{335 / 12}", DESK)
    found = taped(printed(page, tmp_path, "A4"), tmp_path / "strip.pdf")
    assert found.length == pytest.approx(1438.5, abs=allowed(1438.5))
    assert len(found.welds) == 51
    assert found.welds[37].place == pytest.approx(1073.5, abs=allowed(1073.5))
    assert found.welds[38].place == pytest.approx(1093.5, abs=allowed(1093.5))


@pytest.mark.sweep(2)
@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
def test_paper_holds_the_sheets_and_nothing_else(book: Watched, tmp_path: Path, dark: bool) -> None:
    page = book.open(f"strips/{LONG}.html", DESK, dark=dark)
    pdf = tmp_path / "strip.pdf"
    page.pdf(path=pdf, format="A4", prefer_css_page_size=True)
    for number in (1, 2):
        text = " ".join(word for _, _, word in words(pdf, number))
        assert f"Sheet {number} of 2" in text
        assert "Print at 100 percent, not fitted to the page." in text
        assert "Rocker lower flange: Resistance spot" in text
        assert "fingerprint" in text
        for other in ("Everything in this book", "The seam", "Night sheet", "Measure the flange on the car"):
            assert other not in text
    sheets = printed(page, tmp_path, "A4")
    assert len(sheets) == 2
    assert all(np.median(sheet) == 255 for sheet in sheets), "ink on white by night too"


def test_a_scaled_print_would_be_found(book: Watched, tmp_path: Path) -> None:
    # Were the measure blind to scale, the tests above would pass on a sheet fitted to its page.
    page = book.open(f"strips/{SHORT}.html", DESK)
    pdf = tmp_path / "strip.pdf"
    page.pdf(path=pdf, format="A4", landscape=True, scale=0.97)
    subprocess.run(("pdftoppm", "-r", str(DPI), "-gray", str(pdf), str(tmp_path / "small")), check=True)
    sheet = np.asarray(Image.open(next(iter(sorted(tmp_path.glob("small*.pgm"))))))
    ends = strokes(sheet, CHECK_LINE - 3, CHECK_LINE)
    assert all(abs(other.x - ends[0].x - 100) > WHOLE for other in ends[1:])
