"""A shop's own photograph, which the book keeps in two sizes, in the copy in one file: on a page and in the bay."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from builder import pipeline
from builder.model.files import Layer
from builder.supplied import templates
from tests.browser.copied import SHOWN
from tests.browser.watched import Watched
from tests.pictures.test_figures_in_book import with_photo

pytestmark = pytest.mark.slow
SMALLER = 320
"""Pixels across the smaller of the two sizes, which is the one that a copy holds for a page."""


@pytest.fixture
def watched(chromium: Browser, tmp_path: Path) -> Watched:
    layer = Layer(with_photo(tmp_path / "content"), "content")
    (tmp_path / "out").mkdir()
    pocket = tmp_path / "out" / "pocket.html"
    outcome = pipeline.make(pipeline.Order((layer,), templates(), tmp_path / "site", pocket=pocket))
    assert outcome.published is not None, outcome.problems
    return Watched(chromium, tmp_path / "out")


@pytest.mark.sweep(2)
@pytest.mark.parametrize("way", ["procedures/weld-cover.html", "bay.html#procedure=weld-cover"])
def test_a_photograph_is_seen(watched: Watched, way: str) -> None:
    page = watched.open("pocket.html")
    page.set_viewport_size({"width": 360, "height": 740})
    page.evaluate("(to) => { window.location.hash = to; }", f"#{way}")
    leaf = page.frame_locator(SHOWN)
    if way.startswith("bay"):
        leaf.get_by_role("link", name="Left").click()
        expect(leaf.locator("#bay_do")).to_be_visible()
        leaf.locator("body").evaluate("""(body) => {
          const { bayDesk } = body.ownerDocument.defaultView.seambook;
          const { rows } = bayDesk.context().stand;
          bayDesk.context().go(rows[rows.length - 1].id);
        }""")
    photo = leaf.locator("img[alt^='The edge of the cover from below']").last
    photo.scroll_into_view_if_needed()
    expect(photo).to_be_visible()
    expect(photo).to_have_js_property("naturalWidth", SMALLER)
    watched.close()
    assert watched.troubles == []
