"""The book by the keys alone: where Tab leads, in what order, and that one sees where one is."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.browser.watched import DESK, PHONE, WIDTHS, Watched

HERE = """() => {
  const one = document.activeElement;
  return one === document.body ? "" : one.id || one.className || one.getAttribute("href") || one.localName;
}"""
RING = """() => {
  const look = getComputedStyle(document.activeElement);
  return look.outlineStyle !== "none" && parseFloat(look.outlineWidth) >= 2;
}"""


def tabbed(page: Page, times: int) -> list[str]:
    stops = []
    for _ in range(times):
        page.keyboard.press("Tab")
        stops.append(page.evaluate(HERE))
    return stops


@pytest.mark.parametrize("width", WIDTHS)
def test_tab_goes_from_the_skip_link_through_search_and_ways_to_the_content(book: Watched, width: int) -> None:
    page = book.open("calculators/dew-point.html", width)
    ways = page.locator("nav.ways a:visible").evaluate_all("all => all.map((one) => one.getAttribute('href'))")
    assert len(ways) >= 2
    stops = tabbed(page, 4 + len(ways))
    assert stops[:3] == ["skip", "shop", "page_search-words"]
    assert stops[3:-1] == ways
    assert page.evaluate("() => document.activeElement.closest('main') !== null")


def test_the_skip_link_is_seen_when_reached_and_skips(book: Watched) -> None:
    page = book.open("procedures/renew-rocker-outer.html", PHONE)
    skip = page.locator("a.skip")
    expect(skip).not_to_be_in_viewport()
    page.keyboard.press("Tab")
    expect(skip).to_be_focused()
    expect(skip).to_be_in_viewport()
    page.keyboard.press("Enter")
    expect(page.locator("main")).to_be_focused()
    page.keyboard.press("Tab")
    assert page.evaluate("() => document.activeElement.closest('main') !== null")


@pytest.mark.parametrize("path", ["index.html", "calculators/sheet-gauge.html", "procedures/renew-rocker-outer.html"])
@pytest.mark.parametrize("dark", [pytest.param(False, marks=pytest.mark.soak), True], ids=["light", "dark"])
def test_one_sees_where_one_is(book: Watched, path: str, dark: bool) -> None:
    page = book.open(path, DESK, dark=dark)
    unseen = []
    for _ in range(30):
        page.keyboard.press("Tab")
        if not (here := page.evaluate(HERE)):
            break  # past the last stop
        if not page.evaluate(RING):
            unseen.append(here)
    assert unseen == []


def test_nothing_holds_the_keys(book: Watched) -> None:
    page = book.open("calculators/bead.html", PHONE)
    inside = page.locator("a:visible, button:visible, input:visible, select:visible, summary:visible, .scroll:visible")
    total = inside.count()
    first = tabbed(page, 1)[0]
    seen = 1
    while page.evaluate(HERE) and seen <= total + 5:
        page.keyboard.press("Tab")
        seen += 1
    assert first == "skip"
    assert seen - 1 >= total - 2  # Tab leaves the page at its end
    page.keyboard.press("Shift+Tab")
    assert page.evaluate(HERE)


def test_a_step_is_ticked_by_the_keys(book: Watched) -> None:
    page = book.open("procedures/renew-rocker-outer.html", PHONE)
    button = page.locator("button[data-tick]").first
    button.focus()
    page.keyboard.press("Space")
    expect(button).to_have_attribute("aria-pressed", "true")
    page.keyboard.press("Enter")
    expect(button).to_have_attribute("aria-pressed", "false")
    assert button.get_attribute("aria-label") == "Done: step 1"


SMALL = """(least) => [...document.querySelectorAll(
  "button, input, select, a.primary, .to-open a, nav.ways a")].filter((one) => one.checkVisibility())
  .filter((one) => one.getBoundingClientRect().height < least).map((one) => one.outerHTML.slice(0, 90))"""


@pytest.mark.parametrize(
    "path", ["index.html", "lists.html", "calculators/dew-point.html", "procedures/renew-rocker-outer.html"]
)
def test_controls_are_made_for_a_glove(book: Watched, path: str) -> None:
    page = book.open(path, PHONE)
    # DESIGN, section 5: ordinary controls at least 60 px, the next step and a hold's release 76 to 96 px.
    assert page.evaluate(SMALL.replace(", .to-open a, nav.ways a", ""), 60) == []
    if page.locator("button[data-tick]").count():
        page.locator("button[data-tick]").first.click()
        box = page.locator("#tick_onward a").bounding_box()
        assert box is not None
        assert 76 <= box["height"] <= 96
