"""A calculator on paper: one sheet that says what was given, what came out, and what it is worth."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import yaml
from playwright.sync_api import Page, PdfMargins

from builder.render.drawings import code
from tests.browser.conftest import BASE
from tests.browser.test_calculators import NAMES
from tests.browser.test_print import pages_of, words
from tests.browser.watched import DESK, Watched
from tests.site.building import CONTENT

pytestmark = pytest.mark.slow
LEAST_CODE = 15 / 25.4 * 96
"""What a phone reads off paper with ease, in px of a sheet."""
PREPEND = "(place, html) => place.insertAdjacentHTML('afterbegin', html)"
MARGIN: PdfMargins = {"top": "12mm", "bottom": "14mm", "left": "18mm", "right": "14mm"}
BOOK = yaml.load((CONTENT / "book.yaml").read_text("utf-8"), yaml.CSafeLoader)


def sheets(page: Page, path: Path, size: str = "A4") -> list[str]:
    """The text of each sheet; the page's own size is A4."""
    if size == "A4":
        page.pdf(path=path, prefer_css_page_size=True)
    else:
        page.pdf(path=path, format=size, margin=MARGIN)
    return pages_of(path)


def record(name: str) -> dict[str, object]:
    found: dict[str, object] = yaml.load((CONTENT / f"calculators/{name}.yaml").read_text("utf-8"), yaml.CSafeLoader)
    return found


@pytest.mark.sweep(20)
@pytest.mark.parametrize("name", NAMES)
def test_one_sheet_says_all_of_it(book: Watched, tmp_path: Path, name: str) -> None:
    own = record(name)
    page = book.open(f"calculators/{name}.html", DESK)
    # With its code, as a shop prints it that has put the book on a server.
    own_code = code(f"{BASE}/calculators/{name}.html")
    page.locator(".on-slip").evaluate(PREPEND, f'<div class="paper-address">{own_code}</div>')
    answers = page.locator(".answers dd[id]").all_inner_texts()
    page.emulate_media(media="print")
    box = page.locator(".code").bounding_box()
    assert box is not None
    assert box["width"] == box["height"] >= LEAST_CODE
    for size in ("A4", "Letter"):
        found = sheets(page, tmp_path / f"{size}.pdf", size)
        # A table of points takes as many sheets as it has points for.
        assert len(found) == 1 or "points" in own, (size, found[1:])
        text = words(" ".join(found)).replace("\u00a0", " ")
        for part in (own["title"], BOOK["title"], "fingerprint", "Car", "Date", "Name", "Reading", "Sources:"):
            assert str(part) in text, part
        assert squeezed(str(own["asks"])) in squeezed(text)
        for ask in own["inputs"].values():  # type: ignore[attr-defined]
            assert all(word in text for word in ask["ask"].split()), ask
        for answer in answers:
            assert answer.split()[0] in text, answer
        assert "The way to the answers" not in text


def squeezed(text: str) -> str:
    return re.sub(r"\W", "", text)


def test_it_shows_what_was_typed_and_every_warning_with_its_word(book: Watched, tmp_path: Path) -> None:
    page = book.open("calculators/dew-point.html", DESK)
    page.locator("#page_units").click()
    page.locator("#ask_air").fill("86")
    page.locator("#ask_humidity").fill("90")
    page.locator("#ask_surface").fill("70 degF")
    text = words(sheets(page, tmp_path / "slip.pdf")[0]).replace("\u00a0", " ")
    # 86 degF is 30 degC; PsychroLib 2.5.0 gives 28.16 degC at 90 percent, 82.7 degF.
    dew_point = re.search(r"Dew point (\d+\.\d) °F", text)
    assert dew_point is not None, text
    assert float(dew_point[1]) == pytest.approx(82.7, abs=0.15)
    for part in ("86 °F", "90 %", "70 degF"):
        assert part in text, text
    warned = record("dew-point")["warnings"]
    said = {one["level"]: one["say"] for one in warned if one["if"] in ("margin < least_margin", "humidity > damp")}  # type: ignore[attr-defined]
    assert f"Stop {said['stop']}" in text
    assert squeezed(f"Take care {said['care']}") in squeezed(text)


def test_the_most_that_can_be_said_of_four_noises_fits_on_one_sheet(book: Watched, tmp_path: Path) -> None:
    values = "level_1:120,time_1:20,level_2:100,time_2:8,level_3:90,time_3:4,level_4:90,time_4:3"
    page = book.open(f"calculators/noise-dose.html#in={values}", DESK)
    assert page.locator("#answer_cautions li").count() == 4
    for size in ("A4", "Letter"):
        assert len(sheets(page, tmp_path / f"{size}.pdf", size)) == 1, size


def test_the_rest_follows_on_other_sheets_where_it_is_asked_for(book: Watched, tmp_path: Path) -> None:
    page = book.open("calculators/dew-point.html", DESK)
    page.locator("#slip_more").check()
    first, *others = sheets(page, tmp_path / "all.pdf")
    assert others
    assert "Proofs" not in first
    assert "Reading" in first
    rest = words(" ".join(others))
    for title in ("The way to the answers", "Fixed values", "It warns", "Proofs", "Sources"):
        assert title in rest, title
    assert "This one holds." in rest


def test_without_scripts_it_is_the_slip_of_the_values_it_begins_with(book: Watched, tmp_path: Path) -> None:
    page = book.open("calculators/bead.html", DESK, scripts=False)
    found = sheets(page, tmp_path / "plain.pdf")
    assert len(found) == 1
    assert "59.4" in found[0]


def test_the_lines_to_fill_in_are_for_paper_alone(book: Watched) -> None:
    page = book.open("calculators/bead.html", DESK)
    assert not page.locator(".on-slip").is_visible()
    assert page.locator("#slip_more").is_visible()
    page.emulate_media(media="print")
    assert page.locator(".on-slip").is_visible()
    assert not page.locator("#slip_more").is_visible()
