"""What a browser keeps is cleared under an open page, or a tab is killed: what is shown is whole, old or new."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Error, Page, expect

from tests.browser.test_jobs import begin, jobs_in
from tests.browser.watched import DESK, Watched, watching
from tests.sweeps import is_soak

pytestmark = pytest.mark.slow
KILLS = 40 if is_soak() else 4
WORDS = [f"The crate makers of house {at}" for at in range(KILLS + 1)]


@pytest.fixture
def shop(chromium: Browser, tiny_site: Path) -> Iterator[Watched]:
    with watching(chromium, tiny_site, may_crash=True) as watched:
        yield watched


def clear(page: Page) -> None:
    """Clear all that the browser keeps, as its own settings do, with the page open."""
    page.context.new_cdp_session(page).send("Storage.clearDataForOrigin", {"origin": "file://", "storageTypes": "all"})


def test_a_store_that_is_cleared_under_an_open_job_loses_nothing_of_it(shop: Watched) -> None:
    page = shop.open("jobs.html", DESK)
    begin(page, "26-041")
    clear(page)
    page.get_by_label("Customer").fill("The crate makers")
    notice = page.locator("#job_notice-conflict")
    expect(notice).to_contain_text("deleted this job")
    notice.get_by_role("button", name="Keep mine as a copy").click()
    expect(page.get_by_label("Job number")).to_have_value("26-041 copy")  # kept, and the address leads to it
    page.reload()
    expect(page.get_by_label("Job number")).to_have_value("26-041 copy")
    expect(page.get_by_label("Customer")).to_have_value("The crate makers")
    assert [job["customer"] for job in jobs_in(page)] == ["The crate makers"]


def test_a_store_that_is_cleared_between_two_visits_is_an_empty_one(shop: Watched) -> None:
    page = shop.open("jobs.html", DESK)
    begin(page, "26-041")
    address = page.url
    page.goto("about:blank")
    clear(page)
    page.goto(address)
    expect(page.get_by_role("button", name="New job")).to_be_visible()
    expect(page.locator("#job_said")).not_to_have_text("")  # the job that the address names is not there
    begin(page, "26-042")
    assert [job["number"] for job in jobs_in(page)] == ["26-042"]


def test_a_tab_that_is_killed_leaves_the_job_old_or_new(shop: Watched) -> None:
    """Killed at another moment each time: while it is typed in, written, or long saved."""
    page = shop.open("jobs.html", DESK)
    begin(page, "26-041")
    before = ""
    for at in range(KILLS):
        page.get_by_label("Customer").fill(WORDS[at])
        page.wait_for_timeout(at * 400 / KILLS)
        address, context = page.url, page.context
        kill(page)
        page = context.new_page()
        page.goto(address)
        expect(page.get_by_label("Job number")).to_have_value("26-041")
        (job,) = jobs_in(page)
        assert job["customer"] in (before, WORDS[at])
        assert len(job["runs"]) == 1
        expect(page.get_by_label("Customer")).to_have_value(job["customer"])
        before = job["customer"]
    assert before != ""


def kill(page: Page) -> None:
    """Kill the process that shows a page."""
    with page.expect_event("crash"), suppress(Error):  # the call itself dies with the page
        page.goto("chrome://crash", timeout=3_000)
