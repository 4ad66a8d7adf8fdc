"""What stays on the device: ticks and the sheet by night. What stands in storage is never trusted."""

from __future__ import annotations

import json

import pytest
from playwright.sync_api import Page, expect

from tests.browser.watched import PHONE, Watched

PATH = "procedures/clamp-and-check-fit.html"
HOSTILE = (
    "", "{", "null", "0", '"lay-clamps"', '{"length": 3}', '[["lay-clamps"]]', "[null, 1, {}]", '["gone"]',
    '["__proto__", "constructor"]', '["<img src=x onerror=alert(1)>"]', "[" * 5000, json.dumps(["x"] * 20000),
)  # fmt: skip


@pytest.fixture
def page(book: Watched) -> Page:
    return book.open(PATH, PHONE)


def done(page: Page) -> list[str]:
    """Keys of the steps shown as done."""
    found: list[str] = page.locator('article.step[data-state="done"]').evaluate_all("all => all.map((one) => one.id)")
    return found


def stored(page: Page) -> list[str]:
    found: list[str] = page.evaluate("() => Object.keys(localStorage).sort()")
    return found


def tick(page: Page, at: int) -> str:
    button = page.locator("button[data-tick]").nth(at)
    button.click()
    return button.get_attribute("data-tick") or ""


def test_ticks_survive_a_reload_and_are_cleared(page: Page) -> None:
    total = page.locator("article.step").count()
    assert done(page) == []
    ticked = [tick(page, at) for at in (0, 1, 4)]
    assert done(page) == ticked
    expect(page.locator("#tick_count")).to_have_text(f"3 of {total} steps done")
    page.reload()
    assert done(page) == ticked
    assert page.locator('button[data-tick][aria-pressed="true"]').count() == 3
    tick(page, 4)
    page.reload()
    assert done(page) == ticked[:2]
    page.locator("#tick_clear").click()
    assert done(page) == []
    assert stored(page) == []
    expect(page.locator("#tick_clear")).to_be_hidden()
    expect(page.locator("button[data-tick]").first).to_be_focused()
    page.reload()
    assert done(page) == []


def test_the_next_step_is_marked_and_led_to(page: Page) -> None:
    keys = page.locator("article.step").evaluate_all("all => all.map((one) => one.id)")
    marked = page.locator('article.step[data-state="next"]')
    assert marked.get_attribute("id") == keys[0]
    onward = page.locator("#tick_onward a")
    assert onward.is_hidden()
    tick(page, 0)
    assert marked.get_attribute("id") == keys[1]
    expect(onward).to_have_text("Next: step 2")
    page.evaluate("() => window.scrollTo(0, document.body.scrollHeight)")
    onward.click()
    expect(page.locator(f"#{keys[1]} .do")).to_be_in_viewport()
    for at in range(1, len(keys)):
        tick(page, at)
    assert marked.count() == 0
    assert onward.is_hidden()


def test_keys_carry_the_book_and_the_page(book: Watched, page: Page) -> None:
    # Storage is one for every file on the disk, in whatever folder.
    tick(page, 0)
    page.locator("#page_theme").click()
    assert all(key.startswith("seambook:wexmarrow:") for key in stored(page))
    assert [key for key in stored(page) if key.endswith(PATH)] == [f"seambook:wexmarrow:ticks:{PATH}"]


def test_hostile_storage_is_survived(page: Page) -> None:
    keys = [f"seambook:wexmarrow:ticks:{PATH}", "seambook:wexmarrow:theme"]
    for text in HOSTILE:
        page.evaluate("([keys, text]) => keys.forEach((key) => localStorage.setItem(key, text))", [keys, text])
        page.reload()
        assert done(page) == [], text[:40]
        assert page.locator("html").get_attribute("data-theme") is None, text[:40]
        assert page.locator("main img[src=x]").count() == 0, text[:40]
    ticked = tick(page, 0)
    page.reload()
    assert done(page) == [ticked]


def test_a_known_key_among_strange_ones_counts_once(page: Page) -> None:
    known = page.locator("article.step").nth(2).get_attribute("id")
    page.evaluate("([key, text]) => localStorage.setItem(key, text)",
                  [f"seambook:wexmarrow:ticks:{PATH}", json.dumps(["gone", known, known, 7])])  # fmt: skip
    page.reload()
    assert done(page) == [known]
    assert (page.locator("#tick_count").text_content() or "").startswith("1 of ")


def test_refused_storage_is_survived(book: Watched) -> None:
    page = book.blank(PHONE)
    page.add_init_script("Object.defineProperty(window, 'localStorage', {get() { throw new DOMException('no'); }})")
    page.goto(book.url(PATH))
    assert done(page) == []
    assert [tick(page, 0)] == done(page)
    page.locator("#page_theme").click()
    assert page.locator("html").get_attribute("data-theme") == "night"


def test_another_tab_sees_the_ticks(book: Watched, page: Page) -> None:
    other = page.context.new_page()
    other.goto(book.url(PATH))
    ticked = tick(page, 3)
    expect(other.locator(f"#{ticked}")).to_have_attribute("data-state", "done")


PAPER = "() => getComputedStyle(document.body).backgroundColor.match(/\\d+/g).map(Number)"


def is_dark(page: Page) -> bool:
    return sum(int(part) for part in page.evaluate(PAPER)[:3]) < 3 * 64


@pytest.mark.parametrize("dark", [False, True], ids=["light device", "dark device"])
def test_the_night_sheet_by_a_button(book: Watched, dark: bool) -> None:
    page = book.open("index.html", PHONE, dark=dark)
    button = page.locator("#page_theme")
    assert (is_dark(page), button.get_attribute("aria-pressed")) == (dark, str(dark).lower())
    button.click()
    assert (is_dark(page), button.get_attribute("aria-pressed")) == (not dark, str(not dark).lower())
    page.goto(book.url("calculators/dew-point.html"))
    assert is_dark(page) is not dark  # the choice holds for the book
    page.locator("#page_theme").click()
    assert is_dark(page) is dark
