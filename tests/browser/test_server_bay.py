"""Work in the bay from what a phone keeps of a server: carried on with the server gone, and across a new edition."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from tests.browser import example
from tests.browser.hand import Hand
from tests.browser.served import Served, copied
from tests.browser.test_bay import kept, stored
from tests.browser.test_server import LONG, Serve, keep
from tests.browser.test_server import profile as profile
from tests.browser.test_server import serve as serve
from tests.browser.timer_states import rows
from tests.site.control_books import REVISED
from tests.site.shared import SAID, SAID_NOW

pytestmark = pytest.mark.slow
MAREN, DOV = "Maren Vos", "Dov Pellam"
FOLLOWED = "localStorage.getItem('seambook:little-bench:followed:weld-cover')"
WAITING = "async () => !!(await navigator.serviceWorker.getRegistration()).waiting"
STEPS = 9
NEXT = "<p>The next edition.</p>"
IN_THE_WAY = """() => {
  const [x, y] = [innerWidth / 2, innerHeight - 4];
  return !document.elementFromPoint(x, y).closest(".bay");
}"""
"""Whether something that is none of the bay's lies over its foot."""


def test_work_goes_on_without_the_server_and_across_a_new_edition(
    serve: Serve, profile: BrowserContext, editions: tuple[Path, Path]
) -> None:
    profile.clock.install(time="2026-11-30T08:00:00")
    served = serve(editions[0])
    page = keep(profile, served)
    gone(profile, served)
    hand = Hand(page, MAREN, served.url("bay.html"))
    page.goto(f"{hand.home}#procedure=weld-cover&side=right")
    hand.sign_in()
    a_bad_reading(hand)
    reloaded(hand)
    two_people(hand)
    a_timer_over_a_reload(hand)
    a_hold(hand)
    assert hand.walk()["end"] == "done"
    whole = stored(page)
    assert len(whole["done"]) == STEPS
    assert {tick["by"] for tick in whole["done"].values()} == {MAREN, DOV}
    assert json.loads(page.evaluate(FOLLOWED))["revision"] == 2

    begun = another_job(hand)
    comes_back(profile, served, page, editions[1])
    goes_on_undisturbed(hand, begun)
    before, address = stored(page), page.url
    page.close()
    hand.page = started_anew(profile, served)
    gone(profile, served)
    the_changed_step_is_marked(hand, address, before)


def gone(profile: BrowserContext, served: Served) -> None:
    """The server is stopped, and the phone has no network."""
    served.stop()
    profile.set_offline(True)


def comes_back(profile: BrowserContext, served: Served, page: Page, edition: Path) -> None:
    """There is a network again and the server has another edition, which the phone gets by itself."""
    served.root = edition
    served.start()
    profile.set_offline(False)
    for _ in range(100):
        if page.evaluate(WAITING):
            return
        page.wait_for_timeout(100)
    raise AssertionError("the new edition never came")


def a_bad_reading(hand: Hand) -> None:
    page = hand.page
    assert hand.at == (1, STEPS)
    assert hand.label.startswith("Measure:")
    hand.next()
    hand.type("507")
    expect(page.locator(".bay-measure.is-out")).to_contain_text("too high by 5 mm")
    assert hand.label == "Out: measure or release"
    hand.next()
    assert kept(page)["done"] == {}
    page.locator("#bay_out-0-by").fill(DOV)
    page.locator("#bay_out-0-why").fill("The cover covers it.")
    page.locator("#bay_out-0-take").tap()
    expect(page.get_by_text(f"Released by {DOV}: The cover covers it.")).to_be_visible()


def reloaded(hand: Hand) -> None:
    """The page is loaded again in the middle of a step."""
    page = hand.page
    while hand.label.startswith("Measure:"):
        hand.obey()
    hand.obey()
    before = (hand.at, hand.step, stored(page)["done"])
    assert len(before[2]) == 1
    answer = page.reload()
    assert answer is not None
    assert answer.from_service_worker
    expect(page.locator("#bay_do")).to_be_visible()
    assert (hand.at, hand.step, kept(page)["done"]) == before
    assert page.locator("#bay_who").count() == 0, "who works is known yet"


def two_people(hand: Hand) -> None:
    page = hand.page
    page.locator("#bay_person").tap()
    hand.sign_in(DOV)
    hand.obey()
    page.locator("#bay_person").tap()
    hand.sign_in(MAREN)
    assert [tick["by"] for tick in stored(page)["done"].values()] == [MAREN, DOV]


def a_timer_over_a_reload(hand: Hand) -> None:
    page = hand.page
    while not hand.label.startswith("Wait until"):
        hand.obey()
    [before] = rows(page)
    assert re.match(r"(20|19):\d\d \| ", before), before
    ends = hand.label.removeprefix("Wait until ")
    assert ends in before
    stored(page)
    page.reload()
    expect(page.locator("#bay_next")).to_have_text(f"Wait until {ends}")
    page.clock.fast_forward("10:00")
    assert re.match(r"(10|9):\d\d \| ", rows(page)[0])
    page.clock.fast_forward("10:02")
    expect(page.locator("#bay_timers")).to_contain_text("may go on now")
    page.get_by_role("button", name="Heard").tap()
    expect(page.locator("#bay_next")).not_to_contain_text("Wait")


def a_hold(hand: Hand) -> None:
    page = hand.page
    while hand.label != "Photograph first":
        hand.obey()
    hand.photograph()
    assert hand.label == "Done, then release"
    at = hand.at
    hand.next()
    hand.next()
    expect(page.get_by_text("Say who releases it.")).to_be_visible()
    assert hand.at == at, "the work stops until somebody releases it"
    hand.release(DOV)
    assert hand.at[0] == at[0] + 1
    [release] = [one for key, one in stored(page)["releases"].items() if key.endswith("#weld-edge")]
    assert release["by"] == DOV


def another_job(hand: Hand) -> dict[str, Any]:
    """The same work begun on the other side."""
    page = hand.page
    page.goto("about:blank")
    page.goto(f"{hand.home}#procedure=weld-cover&side=left")
    expect(page.locator("#bay_count")).to_have_text(f"1 of {STEPS}")
    assert len(hand.walk(2)["said"]) == 2
    assert page.locator(".changed").count() == 0
    job = stored(page)
    assert len(job["done"]) == 1
    return job


def goes_on_undisturbed(hand: Hand, begun: dict[str, Any]) -> None:
    """The new edition waits: nothing is said over the step, and the old one is read, also after a reload."""
    page = hand.page
    assert page.locator("#page_edition").count() == 0
    assert page.evaluate(IN_THE_WAY) is False
    for _ in range(2):
        while SAID not in hand.step:
            hand.obey()
        assert SAID_NOW not in hand.step
        assert page.locator(".changed").count() == 0
        page.reload()
        expect(page.locator("#bay_do")).to_be_visible()
    assert page.locator("#page_edition").count() == 0
    assert set(begun["done"]) < set(kept(page)["done"])


def started_anew(profile: BrowserContext, served: Served) -> Page:
    """All pages of the old edition are closed, and one is opened."""
    page = profile.new_page()
    for _ in range(20):  # the browser takes a moment to see that nobody uses the old one
        page.wait_for_timeout(250)
        page.goto(served.url("procedures/weld-cover.html"))
        if SAID_NOW in page.locator("#prime-edge .do").first.inner_text():
            return page
        page.goto("about:blank")
    raise AssertionError("the new edition is never used")


def the_changed_step_is_marked(hand: Hand, address: str, before: dict[str, Any]) -> None:
    page = hand.page
    marked = page.locator("article.step:has(.changed)").evaluate_all("(all) => all.map((one) => one.id)")
    assert sorted(marked) == sorted(REVISED)
    page.goto(address)
    expect(page.locator("#bay_do")).to_contain_text(SAID_NOW)
    assert kept(page)["done"] == before["done"]
    assert kept(page)["readings"] == before["readings"]
    told = page.locator("#job_notice-book")
    expect(told).to_contain_text("is now at revision 3; the job was planned with revision 2")
    mark = page.locator(".changed")
    expect(mark).to_contain_text("Changed in revision 3")
    expect(mark).to_contain_text("The prime-edge is done in another way.")
    told.get_by_role("button", name="Go on with the book as it is now").tap()
    expect(told).to_have_count(0)
    assert [run["revision"] for run in stored(page)["runs"]] == [3]
    hand.obey()
    assert len(stored(page)["done"]) == len(before["done"]) + 1
    assert page.locator(".changed").count() == 0, "the next step is as it was"

@pytest.mark.soak

def test_the_worked_example_without_the_server_and_across_a_new_edition(
    serve: Serve, profile: BrowserContext, site: Path, tmp_path: Path
) -> None:
    profile.clock.install(time=example.NOW)
    served = serve(site)
    page = keep(profile, served, LONG)
    gone(profile, served)
    page.goto(served.url(f"bay.html#example={example.EXAMPLE}"))
    hand = Hand(page, "")

    def where(found: str) -> Page:
        expect(hand.page.locator(found)).to_be_visible()
        return hand.page

    example.begin(hand, where)
    example.a_reading_out_of_tolerance(hand)
    example.goes_on_as_it_was(hand, page.reload, where)
    comes_back(profile, served, page, copied(site, tmp_path / "next", {"index.html": ("</main>", f"{NEXT}</main>")}))
    assert hand.walk(20)["end"] in {"most", "wait"}, "the new edition waits, and the work goes on"
    address = page.url

    def anew() -> None:
        page.close()
        hand.page = of_the_next_edition(profile, served)
        gone(profile, served)
        hand.page.goto(address)

    example.goes_on_as_it_was(hand, anew, where)
    example.finish(hand)
    example.ended(hand)


def of_the_next_edition(profile: BrowserContext, served: Served) -> Page:
    """All pages of the old edition are closed, and one is opened."""
    page = profile.new_page()
    for _ in range(20):  # the browser takes a moment to see that nobody uses the old one
        page.wait_for_timeout(250)
        page.goto(served.url("index.html"))
        if NEXT in page.content():
            return page
        page.goto("about:blank")
    raise AssertionError("the new edition is never used")
