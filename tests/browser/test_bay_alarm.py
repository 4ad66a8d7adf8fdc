"""The alarm of the bay's timers: sound, vibration, title and one announcement, until somebody answers."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from tests.browser import timer_states
from tests.browser.timer_states import again, begin, done, watch
from tests.browser.watched import PHONE

MORNING = datetime(2026, 11, 30, 8, 0, tzinfo=UTC)
HUSHED = "window.tones.length = window.shakes.length = 0"
MUTE = "delete window.AudioContext; delete window.webkitAudioContext;"


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> str:
    return timer_states.lay(tmp_path_factory.mktemp("alarm")).as_uri()


@pytest.fixture
def opened(chromium: Browser) -> Iterator[BrowserContext]:
    context = chromium.new_context(viewport={"width": PHONE, "height": 740}, timezone_id="UTC", locale="en-GB", has_touch=True)
    context.set_default_timeout(5000)
    yield context
    context.close()


def page_of(context: BrowserContext, *scripts: str) -> tuple[Page, list[str]]:
    page = context.new_page()
    troubles: list[str] = []
    page.on("pageerror", lambda error: troubles.append(str(error)))
    page.on("console", lambda message: troubles.append(message.text))
    page.clock.install(time=MORNING - timedelta(seconds=1))
    page.clock.pause_at(MORNING)
    for script in (timer_states.HEARD, *scripts):
        page.add_init_script(script)
    return page, troubles


def called(page: Page) -> dict[str, Any]:
    """How often it sounded and shook since it was asked last."""
    found: dict[str, Any] = page.evaluate("() => ({ tones: window.tones.length, shakes: window.shakes.length })")
    page.evaluate(HUSHED)
    return found


def titles(page: Page) -> set[str]:
    """What stands in the title over three seconds."""
    found = set()
    for _ in range(6):
        found.add(page.title())
        page.clock.run_for(500)
    return found


def test_it_calls_until_it_is_answered(opened: BrowserContext, address: str) -> None:
    page, troubles = page_of(opened)
    begin(page, address)
    done(page, "flash")
    page.locator("h1").tap()
    page.wait_for_function("window.seambook.bayAlarm.isOpen()")
    page.clock.fast_forward("19:58")
    assert called(page) == {"tones": 0, "shakes": 0}
    assert titles(page) == {"Job in the bay", "0:00 Flash over"}
    assert called(page) == {"tones": 3, "shakes": 1}
    expect(page.locator("#bay_timers_said")).to_have_text("Flash: over, may go on. First panel, left, step 1.")
    page.evaluate("document.getElementById('bay_timers_said').textContent = ''")
    page.clock.run_for(8000)
    assert called(page) == {"tones": 6, "shakes": 2}
    expect(page.locator("#bay_timers_said")).to_have_text("")  # said once, not at every ring
    page.evaluate("document.title = 'The next step'")
    page.clock.run_for(1000)
    assert titles(page) == {"The next step", "0:00 Flash over"}
    called(page)
    page.get_by_role("button", name="Heard").tap()
    assert page.title() == "The next step"
    page.evaluate(HUSHED)
    page.clock.run_for(20000)
    assert called(page) == {"tones": 0, "shakes": 0}
    assert titles(page) == {"The next step"}
    assert troubles == []


def test_before_a_touch_it_says_that_sound_is_off(opened: BrowserContext, address: str) -> None:
    page, troubles = page_of(opened)
    begin(page, address)
    done(page, "flash")
    page.clock.fast_forward("25:00")
    again(page)
    page.clock.run_for(3000)
    expect(page.get_by_text("Sound is off until you touch the screen.")).to_be_visible()
    assert page.evaluate("[window.tones, window.shakes]") == [[], []]
    page.get_by_role("button", name="Turn the sound on").tap()
    expect(page.get_by_text("Sound is off until you touch the screen.")).to_have_count(0)
    page.wait_for_function("window.tones.length >= 3 && window.shakes.length >= 1")
    page.evaluate(HUSHED)
    page.clock.run_for(4100)
    assert called(page) == {"tones": 3, "shakes": 1}
    assert troubles == []


def test_a_browser_without_sound_says_so_and_still_calls(opened: BrowserContext, address: str) -> None:
    page, troubles = page_of(opened, MUTE)
    begin(page, address)
    done(page, "flash")
    page.locator("h1").tap()
    page.clock.fast_forward("21:00")
    expect(page.get_by_text("This browser makes no sound")).to_be_visible()
    assert "0:00 Flash over" in titles(page)
    assert called(page)["shakes"] >= 1
    assert troubles == []


def test_where_motion_is_not_wanted_the_title_stands_still(opened: BrowserContext, address: str) -> None:
    page, troubles = page_of(opened)
    page.emulate_media(reduced_motion="reduce")
    begin(page, address)
    done(page, "flash")
    page.clock.fast_forward("21:00")
    page.clock.run_for(1100)
    assert titles(page) == {"0:00 Flash over"}
    assert troubles == []


def test_a_watch_calls_for_each_look_and_otherwise_than_an_end(opened: BrowserContext, address: str) -> None:
    page, troubles = page_of(opened)
    begin(page, address)
    watch(page)
    page.locator("h1").tap()
    page.wait_for_function("window.seambook.bayAlarm.isOpen()")
    heard = []
    for minute in ("10:01", "10:01", "10:01"):
        page.evaluate(HUSHED)
        page.clock.fast_forward(minute)
        page.clock.run_for(1100)
        heard.append(tuple(page.evaluate("window.tones")))
        assert any(one.endswith("Fire watch: look now") for one in titles(page))
        expect(page.locator("#bay_timers_said")).to_have_text("Fire watch: look now. First panel, left, step 5.")
        page.evaluate("document.getElementById('bay_timers_said').textContent = ''")
        page.get_by_role("button", name="Cold", exact=True).tap()
    page.clock.fast_forward("40:00")
    page.evaluate(HUSHED)
    page.clock.run_for(4100)
    end = tuple(page.evaluate("window.tones"))
    assert len(set(heard)) == 1 and heard[0] and end and end != heard[0]
    assert troubles == []
