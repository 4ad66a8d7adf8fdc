"""The search box: what it finds, where its links land, and what it says where it finds nothing."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
import yaml
from playwright.sync_api import Page, expect

from tests.browser.watched import DESK, Watched
from tests.site.building import CONTENT

FOLDERS = ("calculators", "panels", "procedures", "seams")
TITLED = [path.relative_to(CONTENT) for folder in FOLDERS for path in sorted((CONTENT / folder).glob("*.yaml"))]


@pytest.fixture
def page(kept: Watched) -> Iterator[Page]:
    yield kept.again("index.html")
    assert kept.troubles == []


def seek(page: Page, words: str) -> list[str]:
    """Type words and return the paths found, best first."""
    page.locator("#page_search-words").fill(words)
    expect(page.locator("#page_search-said")).not_to_be_empty()
    return [str(href) for href in page.locator("#page_search-found ol a").evaluate_all(
        "all => all.map((one) => one.getAttribute('href'))"
    )]  # fmt: skip


def test_the_index_is_loaded_when_the_box_is_first_used(page: Page) -> None:
    loaded = "() => performance.getEntriesByType('resource').map((one) => one.name.split('/').pop())"
    assert "dictionary.js" not in page.evaluate(loaded)
    assert page.evaluate("() => !(window.seambook && window.seambook.index)")
    page.locator("#page_search-words").focus()
    page.wait_for_function("() => window.seambook && window.seambook.index")
    assert page.locator("#page_search-found").is_hidden()


@pytest.mark.sweep(60)
@pytest.mark.parametrize("path", TITLED, ids=str)
def test_a_title_finds_its_page_first(page: Page, path: Path) -> None:
    record = yaml.load((CONTENT / path).read_text("utf-8"), yaml.CSafeLoader)
    found = [one.partition("#")[0] for one in seek(page, record["title"])]
    page_of_it = path.with_suffix(".html").as_posix()
    if record.get("status", "issued") == "issued":
        assert found[0] == page_of_it
    else:  # what is not to be worked from comes behind what is, and is still found
        assert page_of_it in found[1:]


def test_words_in_any_order_and_case(page: Page) -> None:
    first = seek(page, "renew outer rocker")[0]
    assert first.startswith("procedures/renew-rocker-outer.html")
    for words in ("ROCKER renew OUTER", "  outer,renew  rocker ", "rénew oüter rocker"):
        assert seek(page, words)[0] == first, words


def test_every_page_found_holds_the_words_or_comes_after_those_that_do(book: Watched, site: Path) -> None:
    page = book.open("index.html")
    found = seek(page, "weld-through primer ")
    assert len(found) >= 3
    texts = [(site / path.partition("#")[0]).read_text("utf-8").lower() for path in found]
    term = yaml.load((CONTENT / "terms/weld-through-primer.yaml").read_text("utf-8"), yaml.CSafeLoader)
    names = [name.lower().split() for name in (term["title"], *term["synonyms"])]
    held = [any(all(word in text for word in name) for name in names) for text in texts]
    assert held == sorted(held, reverse=True)
    assert held[0]


def test_a_word_is_found_by_its_beginning(page: Page) -> None:
    assert "calculators/dew-point.html" in [path.partition("#")[0] for path in seek(page, "humid")]
    assert "terms/joggle.html" in seek(page, "jogg")
    assert page.locator("#page_search-found .none").count() == 0
    # A word that is finished, by a space, is a whole word.
    assert "terms/joggle.html" not in seek(page, "jogg ")


def test_a_word_of_a_step_leads_to_that_step(page: Page) -> None:
    steps: dict[str, set[str]] = {}  # procedures share steps word by word, and then any of them is right
    for path in sorted((CONTENT / "procedures").glob("*.yaml")):
        record = yaml.load(path.read_text("utf-8"), yaml.CSafeLoader)
        for step in (step for phase in record["phases"] for step in phase["steps"]):
            steps.setdefault(step["do"], set()).add(f"procedures/{path.stem}.html#{step['key']}")
    asked, right = next((do, ways) for do, ways in steps.items() if any(way.endswith("#brace-opening") for way in ways))
    found = seek(page, asked)
    assert found[0] in right
    page.locator("#page_search-found ol a").first.click()
    page.wait_for_url(f"**/{found[0]}")
    step = found[0].partition("#")[2]
    assert page.locator(f"#{step}").evaluate("one => one.matches(':target')")
    expect(page.locator(f"#{step} .do")).to_be_in_viewport()


def test_from_a_page_in_a_folder_links_lead_there_too(book: Watched) -> None:
    page = book.open("panels/rocker-outer.html", DESK)
    assert seek(page, "dew point")[0].startswith("../calculators/dew-point.html")
    page.locator("#page_search-found ol a").first.click()
    page.wait_for_url("**/calculators/dew-point.html*")


NONSENSE = ["zzyzx", "!!!", "<img onerror>", "constructor", "valueOf", "toString"]
"""What no page has."""


def test_nonsense_says_what_to_try(page: Page) -> None:
    way = page.locator("#page_search-found .none a")
    for words in NONSENSE:
        assert seek(page, words) == []
        assert page.locator("#page_search-said").inner_text() == "No pages found"
        assert "Nothing found" in page.locator("#page_search-found").inner_text()
        assert way.get_attribute("href") == "a-z.html"
        seek(page, "rocker")
        assert way.count() == 0
    seek(page, words)
    way.click()
    page.wait_for_url("**/a-z.html")


def test_keys_go_down_the_list_and_back(page: Page) -> None:
    seek(page, "rocker")
    box, links = page.locator("#page_search-words"), page.locator("#page_search-found ol a")
    box.press("ArrowDown")
    expect(links.first).to_be_focused()
    page.keyboard.press("ArrowDown")
    expect(links.nth(1)).to_be_focused()
    page.keyboard.press("ArrowUp")
    page.keyboard.press("ArrowUp")
    expect(box).to_be_focused()
    page.keyboard.press("Escape")
    expect(page.locator("#page_search-found")).to_be_hidden()
    seek(page, "dew point")
    box.press("Enter")
    page.wait_for_url("**/calculators/dew-point.html*")


def test_how_many_are_found_is_said(page: Page) -> None:
    seek(page, "rocker")
    said = page.locator("#page_search-said")
    assert said.get_attribute("role") == "status"
    assert said.inner_text().split(" ", 1)[1] == "pages found"
    page.locator("#page_search-words").fill("")
    expect(page.locator("#page_search-found")).to_be_hidden()
    expect(said).to_be_empty()
