"""Every page opens from disk without a word on the console, and none is wider than the phone."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Page

from tests.browser.watched import PHONE, WIDTHS, Watched, every_path, one_of_each_kind

pytestmark = pytest.mark.slow

TOO_WIDE = """() => {
  const root = document.documentElement;
  const limit = window.innerWidth;
  if (root.scrollWidth <= limit && document.body.scrollWidth <= limit) return [];
  return [...document.body.querySelectorAll("*")]
    .filter((element) => element.getBoundingClientRect().right > limit + 0.5 && !element.closest(".scroll"))
    .map((element) => element.tagName + "." + element.getAttribute("class")).slice(0, 5).concat(root.scrollWidth);
}"""


def too_wide(page: Page) -> list[str]:
    """What reaches past the right edge of the window; nothing where the page cannot be scrolled sideways."""
    found: list[str] = page.evaluate(TOO_WIDE)
    return found


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "none"])
@pytest.mark.parametrize("width", WIDTHS)
def test_each_kind_of_page_is_quiet_and_fits(book: Watched, site: Path, width: int, scripts: bool, dark: bool) -> None:
    page = book.blank(width, scripts=scripts, dark=dark)
    kinds = list(one_of_each_kind(site))
    assert len(kinds) > 15
    wide = {}
    for path in kinds:
        page.goto(book.url(path))
        assert page.locator("main h1").count() == 1, path
        if found := too_wide(page):
            wide[path] = found
    assert wide == {}


def test_every_page_is_quiet_and_fits_a_phone(book: Watched, site: Path) -> None:
    page = book.blank(PHONE)
    wide = {}
    for path in every_path(site):
        page.goto(book.url(path))
        if found := too_wide(page):
            wide[path] = found
    assert wide == {}


def test_the_watch_hears_what_goes_wrong(book: Watched, tmp_path: Path) -> None:
    # Were the watch deaf, every other test here would pass on a broken book.
    page = book.blank(PHONE)
    bad = tmp_path / "bad.html"
    bad.write_text(
        "<!DOCTYPE html><title>x</title><img src=gone.png><script>console.log('said'); unknown()</script>"
        "<img src='https://outside.example/x.png'><p style='width:900px;height:9px'>wide</p>", "utf-8"
    )  # fmt: skip
    page.goto(bad.as_uri())
    assert too_wide(page)
    heard = "\n".join(book.troubles)
    for word in ("console: said", "unknown", "failed: file:", "asked for https://outside.example/x.png"):
        assert word in heard, word
    book.troubles.clear()
