"""What a browser keeps of people who learn is cleared under a lesson, or the tab is killed: nothing of it is lost."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.test_store_lost import clear, kill
from tests.browser.test_training import LESSON, answer, begun, people, practise_as
from tests.browser.watched import PHONE, Watched, watching
from tests.sweeps import is_soak

pytestmark = pytest.mark.slow
KILLS = 12 if is_soak() else 2
"""Answers after which the tab is killed, as far as there are questions."""


@pytest.fixture
def school(chromium: Browser, tiny_site: Path) -> Iterator[Watched]:
    with watching(chromium, tiny_site, may_crash=True) as watched:
        yield watched


def go_on(page: Page, sheet: list[dict[str, Any]], *, after: int = 0) -> None:
    for question in sheet[after:]:
        answer(page, question, right=True)
        page.locator("#train_next").click()


def test_a_store_that_is_cleared_under_a_round_keeps_what_the_round_comes_to(school: Watched) -> None:
    page = school.open(LESSON, PHONE)
    practise_as(page, "Ida")
    sheet = begun(page)
    go_on(page, sheet[:1])
    clear(page)
    assert people(page) == {}
    notice = page.locator("#job_notice-cleared")
    expect(notice).to_contain_text("What Ida did still stands on this page")
    notice.get_by_role("button", name="Keep it again").click()
    expect(notice).to_have_count(0)
    assert len(people(page)["Ida"]["lessons"]["first-cover"]["rounds"][0]["answers"]) == 1
    clear(page)
    go_on(page, sheet, after=1)
    expect(page.locator("#train_result")).to_contain_text(f"{len(sheet)} of {len(sheet)} right")
    whole = people(page)["Ida"]
    page.reload()
    expect(page.locator("#train_desk")).to_contain_text("Ida")
    assert people(page)["Ida"] == whole
    clear(page)
    page.locator("#job_notice-cleared").get_by_role("button", name="Let it go").click()
    expect(page.locator("#train_name")).to_be_visible()
    assert people(page) == {}


def test_a_tab_that_is_killed_leaves_a_round_where_it_was(school: Watched) -> None:
    """Killed after each answer: those that were given are there, and the round goes on with the next question."""
    page = school.open(LESSON, PHONE)
    practise_as(page, "Ida")
    sheet = begun(page)
    for at, question in enumerate(sheet[:KILLS], 1):
        answer(page, question, right=True)
        context, address = page.context, page.url
        kill(page)
        page = context.new_page()
        page.goto(address)
        expect(page.locator("#train_desk .train-who-line")).to_contain_text("Ida practises on this device.")
        (a_round,) = people(page)["Ida"]["lessons"]["first-cover"]["rounds"]
        assert len(a_round["answers"]) == at
        page.locator("#train_begin").click()
        if at < len(sheet):
            expect(page.locator("#train_ask")).to_have_text(sheet[at]["ask"])
