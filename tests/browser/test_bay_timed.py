"""Timers in the bay itself: begun by its own Done, there after a killed tab, and letting the next step go on."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.hand import Hand
from tests.browser.test_axe import AXE, violations
from tests.browser.test_quiet import too_wide
from tests.browser.timer_states import HEARD, rows
from tests.browser.watched import PHONE

pytestmark = pytest.mark.slow

MORNING = datetime(2026, 11, 30, 8, 0, 20, tzinfo=UTC)
AT = """key => {
  const { jobTicks, bayDesk } = window.seambook;
  const bay = bayDesk.context();
  const at = bay.stand.rows.findIndex(({ id }) => id.endsWith(`#${key}`));
  const said = { at: "2026-11-20T08:00", by: "Maren" };
  bay.change((job) => bay.stand.rows.slice(0, at).forEach((row) => {
    jobTicks.tick(job, row, { ...said, minutes: null });
    if (jobTicks.isHold(row.step)) jobTicks.release(job, row.id, { ...said, reason: "seen" });
  }));
  bay.go(bay.stand.rows[at].id);
}"""


@pytest.fixture
def bay(chromium: Browser) -> Iterator[Hand]:
    """Maren at a phone from disk, by a clock that stands once the test says so."""
    context = chromium.new_context(
        viewport={"width": PHONE, "height": 740}, timezone_id="UTC", locale="en-GB", has_touch=True
    )  # fmt: skip
    context.set_default_timeout(10_000)
    context.set_offline(True)
    context.add_init_script(HEARD)
    page = context.new_page()
    troubles: list[str] = []
    page.on("pageerror", lambda error: troubles.append(str(error)))
    page.on("console", lambda message: troubles.append(message.text))
    page.clock.install(time=MORNING)
    yield Hand(page, "Maren")
    context.close()
    assert troubles == []


def opened(hand: Hand, site: Path, procedure: str, key: str) -> None:
    """Open a procedure alone, at one of its steps, with all before it done long ago."""
    hand.page.goto(f"{(site / 'bay.html').as_uri()}#procedure={procedure}&side=left")
    hand.page.locator("#bay_who").wait_for()
    hand.sign_in()
    expect(hand.page.locator("#bay_next")).to_be_visible()
    for _ in range(100):
        if hand.page.evaluate("() => !!window.seambook.jobTasks && !!window.seambook.jobPlan"):
            break
        hand.page.clock.run_for(100)
        hand.page.wait_for_timeout(50)
    hand.page.evaluate(AT, key)
    expect(hand.page.locator("#bay_next")).to_have_text("Done, next")


def saved(page: Page) -> None:
    """Wait until the store has what was done."""
    for _ in range(100):
        if not page.evaluate("() => window.seambook.bayDesk.kept().isPending()"):
            return
        page.wait_for_timeout(20)
    raise AssertionError("never saved")


def killed(page: Page) -> None:
    """The tab goes without a word, and is opened again at the job."""
    address = page.url
    page.goto("about:blank")
    page.goto(address)
    expect(page.locator("#bay_next")).to_be_visible()


def test_done_begins_the_wait_which_outlives_the_tab_and_lets_the_next_step_go_on(bay: Hand, site: Path) -> None:
    page = bay.page
    opened(bay, site, "coat-underbody", "epoxy")
    page.clock.pause_at(datetime(2026, 11, 30, 8, 10, tzinfo=UTC))
    bay.next()
    assert rows(page)[0].split(" | ")[0] == "1 h 09"  # an hour at 20 degrees, at the shop's 18 by the ten-degree rule
    assert "may go on 09:19" in rows(page)[0]
    assert bay.label == "Wait until 09:19"
    page.locator(".bay-timer-head").tap()
    expect(page.locator(".bay-timer-more")).to_contain_text("Begun 08:10 by Maren.")
    worked_out = "Written: 1 h to 24 h at 20 °C. At this job's 18 °C: 1 h 9 min to 24 h."
    expect(page.locator(".bay-timer-more")).to_contain_text(worked_out)
    page.clock.run_for(3000)
    saved(page)
    killed(page)
    page.clock.fast_forward("01:00:00")
    assert "may go on 09:19" in rows(page)[0]
    assert bay.label == "Wait until 09:19"
    page.locator("#bay_do").tap()
    page.clock.fast_forward("09:02")
    page.clock.run_for(2000)
    assert "may go on now; window closes Tue 1 Dec, 08:10" in rows(page)[0]
    assert not bay.label.startswith("Wait")
    assert page.evaluate("() => window.tones.length >= 3 && window.shakes.length >= 1")
    expect(page.locator("#bay_timers_said")).to_contain_text("over, may go on")
    said = {page.title(), page.evaluate("() => document.title")}
    page.clock.run_for(1000)
    assert any(title.startswith("0:00 ") for title in said | {page.title()})
    assert too_wide(page) == []
    page.get_by_role("button", name="Heard").tap()
    page.clock.run_for(2000)
    saved(page)
    killed(page)
    assert page.locator(".is-calling").count() == 0
    assert "window closes Tue 1 Dec, 08:10" in rows(page)[0]


def test_a_watch_begun_at_its_step_is_over_when_it_is_ticked(bay: Hand, site: Path) -> None:
    page = bay.page
    opened(bay, site, "use-donor-panel", "watch-donor")
    page.clock.pause_at(datetime(2026, 11, 30, 8, 10, tzinfo=UTC))
    page.locator("#bay_watch").tap()
    assert rows(page) == ["1 h 00 | Fire watch | look at 08:20, until 09:10"]
    expect(page.locator(".bay-watch-told")).to_contain_text("The watch runs")
    page.clock.fast_forward("10:02")
    expect(page.locator(".bay-timer-ask")).to_contain_text("Feel both faces of the metal")
    page.get_by_role("button", name="Cold, no smell", exact=True).tap()
    assert rows(page)[0].split(" | ")[2].startswith("look at 08:30")
    bay.next()  # ticked too soon: the next step waits for the rest of it
    assert len(rows(page)) == 1
    assert bay.label == "Wait until 09:10"
    page.clock.fast_forward("50:00")
    assert bay.label == "Answer the watch"
    bay.next()
    expect(page.get_by_role("button", name="Cold, no smell: end it")).to_be_focused()
    page.keyboard.press("Enter")
    assert rows(page) == []
    page.clock.run_for(1000)
    assert bay.label.startswith("Measure")


def test_minutes_are_set_by_hand_and_the_menu_keeps_the_screen_on(bay: Hand, site: Path) -> None:
    page = bay.page
    opened(bay, site, "coat-underbody", "wash")
    page.locator("#bay_menu").tap()
    expect(page.get_by_role("switch", name="Keep the screen on")).to_be_visible()
    page.locator("#bay_menu-timer").tap()
    bay.type("2.5")
    assert [row.split(" | ")[1] for row in rows(page)] == ["Timer of 2.5 min"]
    page.clock.fast_forward("02:31")
    page.clock.run_for(1000)
    assert rows(page)[0].split(" | ")[0] == "0:00"
    for scheme in ("day", "night"):
        page.evaluate("scheme => { document.documentElement.dataset.theme = scheme; }", scheme)
        assert violations(page, AXE.read_text("utf-8")) == []
    page.get_by_role("button", name="Heard").tap()
    assert rows(page) == []
