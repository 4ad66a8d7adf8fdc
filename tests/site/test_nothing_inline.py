"""What the policy of the pages forbids stands in none of them."""

from __future__ import annotations

import re
from pathlib import Path

from tests.render.test_pages import POLICY
from tests.site.flat import Element

Pages = dict[str, list[Element]]
EMBEDS = {"base", "iframe", "frame", "object", "embed", "applet", "portal"}


def test_each_page_carries_the_policy_before_all_it_governs(pages: Pages) -> None:
    for page, elements in pages.items():
        assert [one.name for one in elements[:2]] == ["html", "head"], page
        first, second = elements[2:4]
        assert first.is_in("head"), page
        assert second.is_in("head"), page
        assert first.attrs["charset"] == "utf-8", page
        assert second.attrs["http-equiv"] == "Content-Security-Policy", page
        assert second.attrs["content"] == POLICY, page
        assert sum(one.name == "meta" and "http-equiv" in one.attrs for one in elements) == 1, page


def test_no_page_has_a_script_or_style_of_its_own(pages: Pages) -> None:
    for page, elements in pages.items():
        assert "style" not in {one.name for one in elements}, page
        for script in (one for one in elements if one.name == "script"):
            assert script.attrs["src"], page
            assert not "".join(script.texts).strip(), page
            assert "defer" in script.attrs, page
            assert not {"type", "integrity", "crossorigin", "async", "nomodule"} & set(script.attrs), page


def test_no_element_has_a_style_or_a_handler(pages: Pages) -> None:
    guilty = [
        (page, one.name, name)
        for page, elements in pages.items()
        for one in elements
        for name in one.attrs
        if name == "style" or name.lower().startswith("on")
    ]
    assert guilty == []


def test_nothing_embeds_another_document(pages: Pages) -> None:
    for page, elements in pages.items():
        assert not EMBEDS & {one.name for one in elements}, page
        for one in elements:
            assert one.name != "use" or not {"href", "xlink:href"} & set(one.attrs), page
            assert one.name != "link" or "manifest" not in one.attrs.get("rel", "").split(), page
            assert one.name != "meta" or one.attrs.get("http-equiv", "").lower() != "refresh", page


def test_no_style_sheet_fetches_anything(site: Path) -> None:
    sheets = sorted(site.rglob("*.css"))
    assert sheets
    for sheet in sheets:
        text = sheet.read_text("utf-8")
        assert "@import" not in text, sheet
        # A drawing within the sheet may lead to a part of itself, whose "#" is written as %23 there.
        assert re.findall(r"url\((?!['\"]?data:|%23)[^)]*\)", text) == [], sheet


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
