"""Every page opens from disk without a word on the console, and none is wider than the phone."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page

from tests.browser.watched import HEIGHT, PHONE, SCHEMES, WIDTHS, Scheme, Watched, every_path, kinds_of
from tests.sweeps import share

pytestmark = pytest.mark.slow

PARTS = 4
"""So many tests open every page of the book between them, since one would take minutes."""
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


def looks(page: Page) -> Iterator[str]:
    """The page by day and by night, on a phone and on a desk; it is not loaded again between."""
    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": HEIGHT[width]})
        for scheme in SCHEMES:
            page.emulate_media(color_scheme=scheme)
            yield f"{width} {scheme}"


@pytest.mark.sweep(2)
@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "none"])
def test_each_kind_of_page_is_quiet_and_fits(book: Watched, site: Path, tiny_site: Path, scripts: bool) -> None:
    kinds = list(kinds_of(site, tiny_site))
    assert len(kinds) > 30
    page = book.blank(PHONE, scripts=scripts)
    wide = {}
    for path, address in share(kinds, 4):
        page.goto(address)
        assert page.locator("main h1").count() == 1, path
        for look in looks(page):
            if found := too_wide(page):
                wide[path, look] = found
    assert wide == {}


@pytest.mark.parametrize("scheme", ["light", pytest.param("dark", marks=pytest.mark.soak)])
@pytest.mark.parametrize("width", WIDTHS)
def test_it_opens_quietly_in_each_look(book: Watched, width: int, scheme: Scheme) -> None:
    # What a page does while it loads may differ from what it does when it is resized.
    page = book.blank(width, dark=scheme == "dark")
    for path in ("index", "procedures/renew-rocker-outer", "calculators/dew-point", "seams/rocker-lower"):
        page.goto(book.url(f"{path}.html"))
        assert too_wide(page) == []


@pytest.mark.parametrize("part", range(PARTS))
def test_every_page_is_quiet_and_fits_a_phone(book: Watched, site: Path, part: int) -> None:
    page = book.blank(PHONE)
    wide = {}
    for path in share([*every_path(site)][part::PARTS], 100, part):
        page.goto(book.url(path), wait_until="domcontentloaded")  # scripts have run, and styles are there, by then
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
