"""What the policy of the pages forbids stands in none of them."""

from __future__ import annotations

import re
from pathlib import Path

from bs4 import BeautifulSoup, Tag

from tests.render.test_pages import POLICY
from tests.site.building import tags, word

Pages = dict[str, BeautifulSoup]


def test_each_page_carries_the_policy_before_all_it_governs(pages: Pages) -> None:
    for page, soup in pages.items():
        assert isinstance(soup.head, Tag), page
        inside = [tag for tag in soup.head.find_all(True) if isinstance(tag, Tag)]
        assert word(inside[0], "charset") == "utf-8", page
        assert word(inside[1], "http-equiv") == "Content-Security-Policy", page
        assert word(inside[1], "content") == POLICY, page
        assert len(soup.find_all("meta", {"http-equiv": True})) == 1, page


def test_no_page_has_a_script_or_style_of_its_own(pages: Pages) -> None:
    for page, soup in pages.items():
        assert not soup.find_all("style"), page
        for script in soup.find_all("script"):
            assert isinstance(script, Tag)
            assert word(script, "src"), page
            assert not script.get_text().strip(), page
            assert "defer" in script.attrs, page
            assert not {"type", "integrity", "crossorigin", "async", "nomodule"} & set(script.attrs), page


def test_no_element_has_a_style_or_a_handler(pages: Pages) -> None:
    guilty = [
        (page, tag.name, name)
        for page, soup in pages.items()
        for tag in tags(soup)
        for name in tag.attrs
        if name == "style" or name.lower().startswith("on")
    ]
    assert guilty == []


def test_nothing_embeds_another_document(pages: Pages) -> None:
    for page, soup in pages.items():
        assert not soup.find_all(["base", "iframe", "frame", "object", "embed", "applet", "portal"]), page
        assert not soup.select('link[rel="manifest"], use[href], use[xlink\\:href], meta[http-equiv="refresh"]'), page


def test_no_style_sheet_fetches_anything(site: Path) -> None:
    sheets = sorted(site.rglob("*.css"))
    assert sheets
    for sheet in sheets:
        text = sheet.read_text("utf-8")
        assert "@import" not in text, sheet
        assert re.findall(r"url\((?!['\"]?data:)[^)]*\)", text) == [], sheet


def test_no_script_makes_code_from_text_or_asks_the_network(site: Path) -> None:
    scripts = sorted(site.rglob("*.js"))
    assert scripts
    forbidden = re.compile(
        r"\beval\s*\(|new Function\b|\bFunction\s*\(|\bfetch\s*\(|XMLHttpRequest|WebSocket|EventSource|sendBeacon"
        r"|innerHTML|outerHTML|insertAdjacentHTML|document\.write|\bimport\s*\(|^\s*(?:im|ex)port\b",
        re.MULTILINE,
    )
    guilty = [(script, found[0]) for script in scripts for found in forbidden.finditer(script.read_text("utf-8"))]
    # The worker that keeps a book from a server asks that server; it runs nowhere else, and nothing else may.
    asks = [(path, word) for path, word in guilty if path != site / "worker.js" or "fetch" not in word]
    assert asks == []
    assert len(guilty) == 2, "in the worker, for files of the list and for files that no list names"
