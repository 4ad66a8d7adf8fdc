"""No word of a seam's drawing meets another, and nothing leaves the drawing, by the boxes that Chromium measures."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from builder.model.said import Said
from builder.render.drawings import layout, section, strip
from tests.browser import gallery
from tests.browser.gallery import Shown
from tests.browser.watched import PHONE, PHONE_FIRST, WIDTHS, Watched
from tests.sweeps import share

pytestmark = pytest.mark.slow
WORDS = Said("In words")
MET = """() => [...document.querySelectorAll('svg.drawing, svg.strip-sheet')].flatMap((svg) => {
  const name = svg.closest('[data-name]')?.dataset.name || svg.getAttribute('aria-labelledby');
  const { width, height } = svg.viewBox.baseVal;
  const slack = width / 340;  // of one user unit on a phone's drawing
  const boxes = [...svg.querySelectorAll('text, path, rect, circle')].filter((one) => !one.closest('defs'))
    .map((one) => ({ one, box: one.getBBox() })).filter(({ box }) => box.width || box.height);
  const out = boxes.filter(({ box }) => box.x < -slack || box.y < -slack || box.x + box.width > width + slack
    || box.y + box.height > height + slack);
  const texts = boxes.filter(({ one }) => one.tagName === 'text');
  const met = texts.flatMap((a, at) => texts.slice(at + 1).filter((b) =>
    Math.min(a.box.x + a.box.width, b.box.x + b.box.width) - Math.max(a.box.x, b.box.x) > slack / 2
    && Math.min(a.box.y + a.box.height, b.box.y + b.box.height) - Math.max(a.box.y, b.box.y) > a.box.height / 4)
    .map((b) => `${name}: ${a.one.textContent} / ${b.one.textContent}`));
  return [...met, ...out.map(({ one }) => `${name}: outside: ${one.textContent || one.outerHTML.slice(0, 90)}`)];
})"""
SWAP = """() => document.querySelectorAll('svg [data-q]').forEach((one) => {
  const other = one.getAttribute('data-q');
  one.setAttribute('data-q', one.textContent);
  one.textContent = other;
})"""


def drawings() -> Iterator[Shown]:
    for name, cut in gallery.sections():
        yield Shown(name, section.draw(cut, name, WORDS))
    for name, laid in gallery.layouts():
        yield Shown(f"layout: {name}", layout.draw(laid, name, WORDS))
    for name, one in gallery.strips():
        yield from (Shown(f"strip: {name}", sheet) for sheet in strip.sheets(one))


@pytest.fixture(scope="module")
def shown(chromium: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Page]:
    file = gallery.page(tmp_path_factory.mktemp("opened") / "gallery", drawings())
    watched = Watched(chromium, file.parent)
    yield watched.open(file.name, PHONE)
    watched.close()
    assert watched.troubles == []


def test_the_gallery_holds_every_sort(shown: Page) -> None:
    names = shown.locator("[data-name]").evaluate_all("(all) => all.map((one) => one.dataset.name)")
    for count in (2, 3, 4):
        for form in gallery.WELDS:
            for thick in gallery.THICK:
                found = [name for name in names if name.startswith(f"{count} {form} {thick} ")]
                assert len(found) == 3, (count, form, thick)
    assert len([name for name in names if name.startswith("layout")]) == len(gallery.SEAMS)


def test_no_word_meets_another_and_nothing_leaves_its_drawing(shown: Page) -> None:
    assert shown.evaluate(MET) == []
    shown.evaluate(SWAP)  # into inches
    assert shown.evaluate(MET) == []
    shown.emulate_media(media="print")
    assert shown.evaluate(MET) == []


def test_a_phone_shows_words_as_large_as_it_can_read(shown: Page) -> None:
    sizes = """() => [...document.querySelectorAll('svg.drawing')].map((svg) => svg.getBoundingClientRect().width
      / svg.viewBox.baseVal.width * Math.min(...[...svg.querySelectorAll('text')].map((one) =>
        Number(one.getAttribute('font-size')))))"""
    shown.emulate_media(media="screen")
    assert min(shown.evaluate(sizes)) >= 11


@pytest.mark.parametrize("width", PHONE_FIRST)
def test_so_do_those_of_every_seam_of_the_book(book: Watched, site: Path, width: int) -> None:
    paths = [path.relative_to(site).as_posix() for path in sorted((site / "seams").glob("*.html"))]
    paths += [path.relative_to(site).as_posix() for path in sorted((site / "strips").glob("*.html"))]
    assert len(paths) > 20
    page = book.blank(width)
    met = {}
    for path in share(paths, 40, WIDTHS.index(width)):
        page.goto(book.url(path))
        for system in ("metric", "us"):
            found = page.evaluate(MET)
            if found:
                met[path, system] = found
            page.locator("#page_units").click()
    assert met == {}


def test_the_measure_finds_what_is_wrong(shown: Page) -> None:
    # Were it blind, the tests above would pass on any drawing.
    shown.evaluate("""() => {
      const svg = document.querySelector('svg.drawing');
      const [one, other] = svg.querySelectorAll('text');
      other.setAttribute('y', one.getAttribute('y'));
      other.setAttribute('x', one.getAttribute('x'));
      svg.querySelector('path.outline').setAttribute('transform', 'translate(-400 0)');
      svg.querySelector('rect, path.solid').setAttribute('d', 'M0 0L900 5');
    }""")
    found = shown.evaluate(MET)
    assert any(" / " in one for one in found)
    assert any("outside" in one for one in found)
