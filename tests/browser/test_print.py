"""A procedure on paper: made by Chromium as a PDF, read back by pdftotext."""

from __future__ import annotations

import re
import subprocess
from datetime import date, timedelta
from pathlib import Path

import pytest
import yaml
from playwright.sync_api import Browser

from tests.books.laying import TINY
from tests.browser.watched import DESK, Watched
from tests.site.building import CONTENT, seambook_here, write

pytestmark = pytest.mark.slow
PATH = "procedures/renew-rocker-outer.html"


@pytest.fixture(scope="module")
def record() -> dict[str, object]:
    text = (CONTENT / "procedures/renew-rocker-outer.yaml").read_text("utf-8")
    found: dict[str, object] = yaml.load(text, yaml.CSafeLoader)
    return found


def pages_of(pdf: Path) -> list[str]:
    run = subprocess.run(("pdftotext", "-layout", str(pdf), "-"), capture_output=True, check=True)
    return run.stdout.decode("utf-8").rstrip("\f").split("\f")


def words(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize("dark", [pytest.param(False, marks=pytest.mark.soak), True], ids=["light", "dark"])
def test_a_procedure_on_paper(book: Watched, tmp_path: Path, record: dict[str, object], dark: bool) -> None:
    page = book.open(PATH, DESK, dark=dark)
    page.locator("button[data-tick]").first.click()
    ways = page.locator("nav.ways a").all_inner_texts()
    steps = page.locator("article.step").count()
    page.emulate_media(media="print", color_scheme="dark" if dark else "light")
    hidden = page.locator("header.head, a.skip, .switches, .ticking, .tick, #tick_onward")
    assert hidden.count() > steps
    assert [one for one in hidden.all() if one.is_visible()] == []
    assert page.evaluate("() => getComputedStyle(document.body).backgroundColor") in (
        "rgb(255, 255, 255)", "rgba(0, 0, 0, 0)",
    )  # fmt: skip
    pdf = tmp_path / "sheet.pdf"
    page.pdf(path=pdf, format="A4", prefer_css_page_size=True)
    sheets = pages_of(pdf)
    assert 4 <= len(sheets) <= steps * 2 / 3, "a sheet holds a step and a half at least"
    every = words(" ".join(sheets))
    for way in ways:
        assert not [sheet for sheet in sheets if re.search(rf"^\s*{re.escape(way)}\s*$", sheet, re.MULTILINE)], way
    for control in ("Skip to the content", "Clear the ticks", "Night sheet", "Next: step", "Find a panel"):
        assert control not in every, control
    # Every sheet says what it belongs to, since sheets part company in a bay; none is empty below that.
    for sheet in sheets:
        assert str(record["title"]) in words(sheet)
        assert len(words(sheet)) > 120
    for step in (step for phase in record["phases"] for step in phase["steps"]):  # type: ignore[attr-defined]
        plain = re.sub(r"\[([^\]]*)\]\([^)]*\)", r"\1", step["do"])
        assert re.sub(r"\W", "", plain) in re.sub(r"\W", "", every), step["key"]


def test_every_page_number_is_printed(book: Watched, tmp_path: Path) -> None:
    pdf = tmp_path / "sheet.pdf"
    book.open(PATH).pdf(path=pdf, prefer_css_page_size=True)
    sheets = pages_of(pdf)
    assert [f"{at} of {len(sheets)}" in sheet for at, sheet in enumerate(sheets, 1)] == [True] * len(sheets)


def test_an_overdue_review_is_told_by_the_devices_clock_and_the_address_on_paper_alone(
    chromium: Browser, tmp_path: Path
) -> None:
    write(tmp_path, {"shop.yaml": f"format: 1\nlayers: [{TINY}]\nbase_address: https://book.example.org\n"
                                  "review: {issued: 12}\n"})  # fmt: skip
    made = seambook_here("make", folder=tmp_path)
    assert made.code == 0, made.err
    watched = Watched(chromium, tmp_path / "site")
    tiny = yaml.load((TINY / "procedures/weld-cover.yaml").read_text("utf-8"), yaml.CSafeLoader)
    revised = date.fromisoformat(tiny["revision"]["date"])
    due = revised.replace(year=revised.year + 1)
    late = f"The review of this page was due on {due}."
    # By the day of the device's own zone.
    for clock, told in ((f"{due}T23:00:00+13:00", []), (f"{due + timedelta(days=1)}T01:00:00+13:00", [late])):
        page = watched.blank(DESK)
        page.clock.set_fixed_time(clock)
        page.goto(watched.url("procedures/weld-cover.html"))
        assert page.locator(".banner").all_inner_texts() == told
        assert not page.locator(".paper-address").is_visible()
        page.emulate_media(media="print")
        assert page.locator(".paper-address").is_visible()
        box = page.locator(".code").bounding_box()
        assert box is not None
        assert box["width"] == box["height"] > 90
    watched.close()
    assert watched.troubles == []
