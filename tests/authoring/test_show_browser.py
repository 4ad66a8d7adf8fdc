"""A served page in Chromium: it reloads when a record changes, and says what is wrong meanwhile."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.authoring.served import Shown, showing
from tests.site.building import write
from tests.site.records import BROKEN, LAP, MOVED, OUR_LAP

pytestmark = pytest.mark.slow
BANNER = "#seambook-preview"
PATIENT = 20_000


@pytest.fixture
def shown(tmp_path: Path) -> Iterator[Shown]:
    write(tmp_path / "mine", OUR_LAP)
    with showing(tmp_path, "--content", "mine", "--port", "0") as found:
        yield found


@pytest.fixture
def page(chromium: Browser) -> Iterator[tuple[Page, list[str]]]:
    context = chromium.new_context(viewport={"width": 360, "height": 740})
    opened = context.new_page()
    troubles: list[str] = []
    opened.on("console", lambda message: troubles.append(message.text))
    opened.on("pageerror", lambda error: troubles.append(str(error)))
    yield opened, troubles
    context.close()


def test_a_page_follows_its_record(shown: Shown, page: tuple[Page, list[str]], tmp_path: Path) -> None:
    opened, troubles = page
    shown.wait_for("^built: ")
    opened.goto(f"http://127.0.0.1:{shown.port}/terms/lap.html")
    expect(opened.locator("main")).to_contain_text("zanzibarite")
    expect(opened.locator(BANNER)).to_have_count(0)

    write(tmp_path / "mine", {LAP: OUR_LAP[LAP].replace("zanzibarite", "quadrophene")})
    expect(opened.locator("main")).to_contain_text("quadrophene", timeout=PATIENT)

    write(tmp_path / "mine", BROKEN)
    expect(opened.locator(f"{BANNER}[open] pre")).to_contain_text(f"mine/{LAP}:4:7: error", timeout=PATIENT)
    expect(opened.locator("main")).to_contain_text("quadrophene")
    said = opened.locator(f"{BANNER} summary")
    expect(said).to_contain_text("the book below is the last good one")
    box = said.bounding_box()
    assert box is not None
    assert box["height"] >= 60
    assert opened.evaluate("document.documentElement.scrollWidth") <= 360

    opened.reload()  # the news are there for whoever comes later
    expect(opened.locator(f"{BANNER}[open]")).to_have_count(1, timeout=PATIENT)

    write(tmp_path / "mine", OUR_LAP)
    expect(opened.locator("main")).to_contain_text("zanzibarite", timeout=PATIENT)
    expect(opened.locator(BANNER)).to_have_count(0)
    assert troubles == [], "the policy of the page lets the script do its work"


def test_a_warning_stands_folded_and_does_not_stop_the_book(
    shown: Shown, page: tuple[Page, list[str]], tmp_path: Path
) -> None:
    opened, _ = page
    shown.wait_for("^built: ")
    opened.goto(f"http://127.0.0.1:{shown.port}/terms/lap.html")
    write(tmp_path / "mine", MOVED)
    expect(opened.locator("main")).to_contain_text("One sheet on the next", timeout=PATIENT)
    banner = opened.locator(BANNER)
    expect(banner).to_have_count(1, timeout=PATIENT)
    assert banner.get_attribute("open") is None
    expect(banner.locator("pre")).to_contain_text("warning:")


def test_mark_up_in_a_record_is_shown_as_text(shown: Shown, page: tuple[Page, list[str]], tmp_path: Path) -> None:
    opened, troubles = page
    shown.wait_for("^built: ")
    opened.goto(f"http://127.0.0.1:{shown.port}/")
    write(tmp_path / "mine", {LAP: "title: Lap\n<img src=x onerror=alert(1)>: </script>\n"})
    expect(opened.locator(f"{BANNER} pre")).to_contain_text("<img src=x onerror=alert(1)>", timeout=PATIENT)
    assert opened.locator(f"{BANNER} img").count() == 0
    assert troubles == []


def test_before_the_first_book_the_page_waits_for_it(
    page: tuple[Page, list[str]], tmp_path: Path
) -> None:
    opened, _ = page
    write(tmp_path / "mine", BROKEN)
    with showing(tmp_path, "--content", "mine", "--port", "0") as shown:
        shown.wait_for("^not built: ")
        opened.goto(f"http://127.0.0.1:{shown.port}/")
        expect(opened.locator(f"{BANNER} pre")).to_contain_text(f"mine/{LAP}:4:7", timeout=PATIENT)
        write(tmp_path / "mine", OUR_LAP)
        expect(opened.locator("a.shop")).to_have_count(1, timeout=PATIENT)
