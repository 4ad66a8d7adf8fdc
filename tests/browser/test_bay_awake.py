"""The screen kept on in the bay: asked for again whenever the page comes back, and said in words where it cannot be."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from tests.browser import timer_states
from tests.browser.watched import PHONE

LOCK = """
window.asked = 0;
window.locks = [];
Object.defineProperty(Navigator.prototype, "wakeLock", { configurable: true, value: { request: async (sort) => {
  window.asked += 1;
  if (window.isSaving) throw new DOMException("battery", "NotAllowedError");
  const lock = new EventTarget();
  lock.sort = sort;
  lock.release = async () => { lock.isFree = true; lock.dispatchEvent(new Event("release")); };
  window.locks.push(lock);
  return lock;
} } });
window.away = (is) => {
  Object.defineProperty(document, "visibilityState", { configurable: true, value: is ? "hidden" : "visible" });
  if (is) window.locks.forEach((lock) => lock.release());
  document.dispatchEvent(new Event("visibilitychange"));
};
"""
SAVING = "window.isSaving = true;"
MISSING = 'Object.defineProperty(Navigator.prototype, "wakeLock", { configurable: true, value: undefined });'
INSECURE = f'{MISSING} Object.defineProperty(window, "isSecureContext", {{ value: false }});'
MOUNT = """() => {
  const place = document.createElement("div");
  document.querySelector("main").append(place);
  window.seambook.bayAwake.mount(place);
}"""
HELD = "window.locks.filter((lock) => !lock.isFree).length"
ON = "The screen stays on while this page is in front."


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> str:
    return timer_states.lay(tmp_path_factory.mktemp("awake")).as_uri()


@pytest.fixture
def opened(chromium: Browser) -> Iterator[BrowserContext]:
    context = chromium.new_context(viewport={"width": PHONE, "height": 740}, has_touch=True)
    context.set_default_timeout(5000)
    yield context
    context.close()


def mounted(context: BrowserContext, address: str, script: str) -> Page:
    page = context.new_page()
    page.add_init_script(script)
    page.goto(address)
    page.evaluate(MOUNT)
    return page


def test_it_is_held_let_go_and_held_again(opened: BrowserContext, address: str) -> None:
    page = mounted(opened, address, LOCK)
    switch, said = page.get_by_role("switch", name="Keep the screen on"), page.locator("#bay_awake_said")
    expect(said).to_have_text(ON)
    expect(switch).to_be_checked()
    page.evaluate("window.away(true)")
    expect(said).to_have_text("The screen stays on again as soon as this page is in front.")
    assert page.evaluate(HELD) == 0
    page.evaluate("window.away(false)")
    expect(said).to_have_text(ON)
    assert page.evaluate(HELD) == 1
    switch.tap()
    expect(said).to_have_text("The screen goes off as the phone is set.")
    expect(switch).not_to_be_checked()
    assert page.evaluate(HELD) == 0
    page.reload()
    page.evaluate(MOUNT)
    expect(switch).not_to_be_checked()
    assert page.evaluate("window.asked") == 0
    switch.tap()
    expect(said).to_have_text(ON)
    box = switch.bounding_box()
    assert box is not None and box["height"] >= 60


def test_a_phone_that_refuses_is_asked_again_by_a_press(opened: BrowserContext, address: str) -> None:
    page = mounted(opened, address, SAVING + LOCK)
    said = page.locator("#bay_awake_said")
    expect(said).to_contain_text("The phone refused")
    page.evaluate("window.isSaving = false")
    page.get_by_role("switch").tap()
    expect(said).to_have_text(ON)


@pytest.mark.parametrize(("script", "told"), [(MISSING, "this browser cannot keep the screen on"), (INSECURE, "opened from disk or over https")])
def test_where_it_cannot_be_the_reason_and_another_way_are_said(opened: BrowserContext, address: str, script: str, told: str) -> None:
    page = mounted(opened, address, script)
    expect(page.locator("#bay_awake_said")).to_contain_text(told)
    expect(page.locator("#bay_awake_said")).to_contain_text("time-out on the phone to its longest")
    expect(page.get_by_role("switch")).to_be_disabled()
    expect(page.get_by_role("switch")).not_to_be_checked()


def test_the_real_browser_answers_too(opened: BrowserContext, address: str) -> None:
    """Chromium on a file from disk has the API; whether it grants it or not, what it does is said."""
    page = mounted(opened, address, "")
    assert page.evaluate("window.isSecureContext && !!navigator.wakeLock")
    page.wait_for_function("['on', 'refused'].includes(window.seambook.bayAwake.sort())")
