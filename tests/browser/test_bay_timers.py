"""Timers of the bay: each goes by the clock on the wall, so neither a killed tab nor a night makes one wrong."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser import timer_states
from tests.browser.test_axe import AXE, violations
from tests.browser.test_quiet import too_wide
from tests.browser.timer_states import RUN, again, begin, done, rows, timers, watch
from tests.browser.watched import PHONE

MORNING = datetime(2026, 11, 30, 8, 0, 20, tzinfo=UTC)
FLASH, CURE = "Flash | may go on 08:20", "Cure | may go on 20:00"


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> str:
    return timer_states.lay(tmp_path_factory.mktemp("timers")).as_uri()


@pytest.fixture
def page(chromium: Browser, address: str) -> Iterator[Page]:
    """The job at its beginning, at twenty seconds past eight; time stands still until the test lets it go on."""
    context = chromium.new_context(viewport={"width": PHONE, "height": 740}, timezone_id="UTC", locale="en-GB", has_touch=True)
    context.set_default_timeout(5000)
    page = context.new_page()
    troubles: list[str] = []
    page.on("pageerror", lambda error: troubles.append(str(error)))
    page.on("console", lambda message: troubles.append(message.text))
    hold(page, MORNING)
    page.add_init_script(timer_states.HEARD)
    begin(page, address)
    yield page
    context.close()
    assert troubles == []


def hold(page: Page, moment: datetime) -> None:
    page.clock.install(time=moment - timedelta(seconds=1))
    page.clock.pause_at(moment)


def later(page: Page, span: str) -> None:
    """Let so much time go by: `MM:SS` or `HH:MM:SS`."""
    page.clock.fast_forward(span)


def press(page: Page, name: str) -> None:
    page.get_by_role("button", name=name, exact=True).first.tap()


def test_a_wait_runs_on_through_a_killed_tab_and_a_night(page: Page) -> None:
    assert rows(page) == []
    done(page, "cure")
    assert rows(page) == [f"12 h 00 | {CURE}"]
    [kept] = timers(page)
    assert kept == {"sort": "wait", "step": f"{RUN}cure", "begun": "2026-11-30T08:00:20", "offset": 0, "least": 720, "heard": []}
    later(page, "11:59:00")
    again(page)
    assert rows(page) == [f"1:00 | {CURE}"]
    later(page, "00:59")
    assert rows(page) == [f"0:01 | {CURE}"]
    later(page, "00:02")
    assert rows(page) == ["0:00 | Cure | may go on now; over since 20:00"]
    later(page, "11:00:00")
    again(page)
    assert rows(page) == ["0:00 | Cure | may go on now; over since Mon 30 Nov, 20:00"]
    press(page, "Heard")
    assert rows(page) == []
    assert [one["what"] for one in timers(page)[0]["heard"]] == ["over"]


def test_several_run_at_once_and_what_calls_comes_first(page: Page) -> None:
    for key in ("flash", "prime", "cure"):
        done(page, key)
    assert rows(page) == [f"20:00 | {FLASH}", "1 h 00 | Window to sealer | may go on 09:00"]
    press(page, "1 more timer")
    assert len(rows(page)) == 3
    watch(page)
    later(page, "20:05")
    assert [row.split(" | ")[1] for row in rows(page)] == ["Fire watch", "Flash", "Window to sealer", "Cure"]
    assert page.locator(".bay-timer-rows .primary").count() == 1
    press(page, "Fewer timers")
    assert [row.split(" | ")[1] for row in rows(page)] == ["Fire watch", "Flash"]
    assert too_wide(page) == []
    page.clock.resume()  # axe waits for the page's own clock
    assert violations(page, AXE.read_text("utf-8")) == []
    assert [one for one in page.locator(".bay-timer-rows button").evaluate_all("all => all.map((one) => one.getBoundingClientRect().height)") if one < 60] == []


def test_a_window_is_told_open_closing_and_closed(page: Page) -> None:
    done(page, "prime")
    later(page, "01:00:01")
    assert rows(page) == ["3 h 00 | Window to sealer | may go on now; window closes 12:00"]
    press(page, "Heard")
    assert page.locator(".is-calling").count() == 0
    later(page, "02:29:00")
    assert page.locator(".is-calling").count() == 0
    later(page, "01:00")
    assert rows(page) == ["29:59 | Window to sealer | may go on now; window closes 12:00"]
    assert page.locator(".is-calling").count() == 1
    press(page, "Heard")
    later(page, "30:10")
    assert rows(page) == ["+0:11 | Window to sealer | too late: the window closed 12:00"]
    expect(page.locator(".bay-timer-ask")).to_have_text("Scuff it.")
    press(page, "Heard")
    assert rows(page) == []
    assert [one["what"] for one in timers(page)[0]["heard"]] == ["over", "closing", "late"]


def test_a_window_ends_with_the_step_that_it_was_for(page: Page) -> None:
    done(page, "prime")
    done(page, "last-spark")
    later(page, "01:05:00")
    assert len(rows(page)) == 1
    done(page, "seal")
    assert rows(page) == []
    assert timers(page)[0]["ended"] == "2026-11-30T09:05:20"


def test_a_watch_asks_for_looks_and_ends_by_an_answer(page: Page) -> None:
    done(page, "last-spark")
    later(page, "01:00")
    watch(page)
    later(page, "09:59")
    assert rows(page) == ["50:01 | Fire watch | look at 08:11, until 09:01"]
    later(page, "00:02")
    assert rows(page) == ["49:59 | Fire watch | look now, until 09:01"]
    later(page, "01:59")
    press(page, "Cold")
    assert rows(page) == ["48:00 | Fire watch | look at 08:23, until 09:01"]
    later(page, "48:00")
    assert rows(page) == ["0:00 | Fire watch | time is up since 09:01"]
    done(page, "watch")  # ticked before the answer: the watch is not begun a second time
    assert len(timers(page)) == 1
    press(page, "Cold: end it")
    assert rows(page) == []
    [kept] = timers(page)
    assert [one["what"] for one in kept["heard"]] == ["look", "over"]
    assert kept["ended"] == "2026-11-30T09:01:20"


def test_something_warm_begins_the_watch_again(page: Page) -> None:
    watch(page)
    later(page, "55:00")
    press(page, "Warm")
    assert rows(page) == ["1 h 00 | Fire watch | look at 09:05, until 09:55"]
    expect(page.locator("#bay_timers_said")).to_have_text("Stay by it.")
    first, second = timers(page)
    assert ([one["what"] for one in first["heard"]], first["ended"]) == (["warm"], second["begun"])


def test_a_watch_before_the_last_spark_is_none(page: Page) -> None:
    watch(page)
    later(page, "01:01:00")
    press(page, "Cold: end it")
    done(page, "last-spark")
    later(page, "05:00")
    done(page, "watch")
    assert rows(page) == ["1 h 00 | Fire watch | look at 09:16, until 10:06"]


def test_a_tick_taken_back_takes_its_timer_along(page: Page) -> None:
    done(page, "flash")
    page.evaluate("id => { window.state.change((job) => { delete job.done[id]; }); window.draw(); }", RUN + "flash")
    assert rows(page) == []
    later(page, "10:00")
    done(page, "flash")
    assert rows(page) == ["20:00 | Flash | may go on 08:30"]
    assert [bool(one.get("ended")) for one in timers(page)] == [True, False]


def test_a_timer_is_put_away_by_two_presses(page: Page) -> None:
    done(page, "flash")
    page.locator(".bay-timer-head").tap()
    expect(page.locator(".bay-timer-more")).to_contain_text("Written: 20 min.")
    press(page, "Go to its step")
    assert page.evaluate("window.gone") == [f"{RUN}flash"]
    press(page, "Put it away")
    assert len(rows(page)) == 1
    press(page, "Yes, put it away")
    assert rows(page) == []
    assert timers(page)[0]["ended"] == "2026-11-30T08:00:20"


def test_a_step_ticked_elsewhere_gets_its_timer(page: Page) -> None:
    page.evaluate("id => window.state.change((job) => { job.done[id] = { at: '2026-11-30T07:50', by: 'Ilse' }; })", RUN + "flash")
    page.evaluate("id => window.state.change((job) => { job.done[id] = { at: '2026-11-30T07:10', by: 'Ilse' }; })", RUN + "prime")
    again(page)
    later(page, "00:01")
    assert rows(page) == ["9:39 | Flash | may go on 08:10", "9:39 | Window to sealer | may go on 08:10"]
    again(page)
    later(page, "00:01")
    assert len(timers(page)) == 2


def test_a_clock_set_back_is_told(page: Page) -> None:
    done(page, "flash")
    later(page, "05:00")
    expect(page.locator("#bay_clock_seen")).to_have_count(0)
    page.clock.set_system_time(datetime(2026, 11, 30, 7, 35, tzinfo=UTC))
    page.clock.run_for(2000)
    expect(page.get_by_role("alert")).to_contain_text("set back by 30 minutes")
    again(page)
    expect(page.get_by_role("alert")).to_contain_text("set back by 30 minutes")
    assert rows(page)[0].split(" | ")[2] == "begun 08:00 by another clock than this device has now"
    press(page, "I have seen it")
    again(page)
    expect(page.locator("#bay_clock_seen")).to_have_count(0)


def test_a_clock_set_back_while_the_tab_was_shut_is_told(page: Page, address: str) -> None:
    done(page, "flash")
    page.goto("about:blank")
    page.clock.set_system_time(datetime(2026, 11, 30, 6, 0, 20, tzinfo=UTC))
    page.goto(address)
    expect(page.get_by_role("alert")).to_contain_text("set back by 2 hours")


def test_summer_time_ending_makes_no_wait_an_hour_longer(chromium: Browser, address: str) -> None:
    context = chromium.new_context(timezone_id="Europe/Berlin", locale="en-GB")
    page = context.new_page()
    hold(page, datetime(2026, 10, 25, 0, 40, tzinfo=UTC))  # 02:40, and at 03:00 it is 02:00 again
    begin(page, address)
    done(page, "prime")
    assert timers(page)[0]["begun"] == "2026-10-25T02:40:00"
    page.clock.fast_forward("40:00")
    again(page)
    assert rows(page) == ["20:00 | Window to sealer | may go on 02:40"]
    expect(page.get_by_role("alert")).to_have_count(0)
    context.close()


def test_how_a_timer_stands_follows_from_its_times_alone(page: Page) -> None:
    """At many moments: never on before its least, never open after its most, and later moments never stand earlier."""
    found: list[Any] = page.evaluate("""() => {
      const { begin, standing } = window.seambook.bayClock;
      const order = ["running", "window", "over", "late"];
      const start = Date.UTC(2026, 2, 28, 22, 0, 0);
      const wrong = [];
      for (const least of [0, 1, 20, 59.5, 720]) for (const most of [undefined, least + 1, 1440]) {
        const timer = begin({ sort: "wait", least, most }, start);
        let before = -1;
        for (let minute = 0; minute < 1500; minute += 0.5) {
          const at = standing(timer, start + minute * 60000, { every: 10, warn: 30 });
          const is = minute < least ? "running" : most === undefined ? "over" : minute < most ? "window" : "late";
          if (at.state !== is || order.indexOf(at.state) < before || at.left < 0) wrong.push([least, most, minute, at.state]);
          before = order.indexOf(at.state);
        }
      }
      return wrong;
    }""")
    assert found == []
