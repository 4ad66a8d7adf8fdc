"""What the bay looks like and how soon it answers: sizes for a glove, contrast, what axe finds, first paint, a tick."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from statistics import median
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.hand import Hand
from tests.browser.job_states import ASSETS
from tests.browser.test_axe import AXE, COLOURS, violations
from tests.browser.watched import SCHEMES
from tests.sweeps import examples

pytestmark = pytest.mark.slow
PROCEDURE = "renew-rocker-outer"
EXAMPLE = "left-side-struck-and-rusted"
CONTROL, NEXT = 60, 76
TICKS = examples(5, 2)
SLOWER = 4
SOON, QUICK, STEADY = 2000, 200, 0.1
"""In milliseconds, and a share of the screen. A first step in 1.5 s and an answer in a tenth are aimed at, and were
measured on a quiet machine; a third more and twice as long are admitted for one that is busy or slower.
"""
SIZES = """([least, larger]) => ["button", ".control", ".primary", "summary", "input", "select", "textarea"]
  .flatMap((one) => [...document.querySelectorAll(`.bay ${one}`)])
  .filter((one) => one.checkVisibility() && !one.classList.contains("unseen"))
  .filter((one) => !document.querySelector("dialog[open]") || one.closest("dialog[open]"))
  .map((one) => [one.id || one.textContent, one.getBoundingClientRect(),
    ["bay_next", "bay_back", "bay_enter"].includes(one.id) ? larger : least])
  .filter(([, box, wanted]) => box.height < wanted - 0.01 || box.width < least - 0.01)
  .map(([name, box]) => `${name}: ${box.width} x ${box.height}`)"""
SWIPES = "swipe touchmove touchstart dragstart draggable mouseenter mouseover pointermove"


def states(page: Page, home: str) -> Iterator[str]:
    """Go through what the bay shows, and say where it is."""
    page.goto(f"{home}#procedure={PROCEDURE}&side=left")
    hand = Hand(page, "Ada Quill")
    expect(page.locator("#bay_who")).to_be_visible()
    yield "who works"
    hand.sign_in()
    yield "first step"
    hand.photograph()
    hand.next()
    yield "held"
    hand.release("Dov")
    hand.next()
    hand.next()
    yield "keys"
    hand.type(99999)
    yield "out of tolerance"
    page.locator("#bay_count").tap()
    yield "phases"
    page.locator("#bay_phases_shut").tap()
    page.locator("#bay_menu").tap()
    yield "menu"
    page.locator("#bay_menu_open_shut").tap()
    page.locator("#bay_on").tap()
    yield "looked at"
    page.goto(f"{home}#job=none-such")
    expect(page.locator("#bay_do")).to_contain_text("no such job")
    yield "nothing there"


@pytest.fixture(scope="module")
def axe() -> str:
    assert AXE.is_file(), "make test brings axe"
    return AXE.read_text("utf-8")


def watched(chromium: Browser, width: int, height: int) -> tuple[Page, list[str]]:
    context = chromium.new_context(viewport={"width": width, "height": height}, has_touch=True, locale="en-GB")
    context.set_default_timeout(10_000)
    context.set_offline(True)
    page = context.new_page()
    troubles: list[str] = []
    page.on("console", lambda message: troubles.append(message.text))
    page.on("pageerror", lambda error: troubles.append(str(error)))
    return page, troubles


SIZES_LOOKED_AT = [(360, 740), pytest.param((1280, 800), marks=pytest.mark.soak)]


@pytest.mark.parametrize("size", SIZES_LOOKED_AT, ids=lambda size: f"{size[0]} px")
def test_sizes_contrast_and_names(chromium: Browser, site: Path, axe: str, size: tuple[int, int]) -> None:
    page, troubles = watched(chromium, *size)
    found = []
    for at in states(page, (site / "bay.html").as_uri()):
        found += [f"{at}: small: {one}" for one in page.evaluate(SIZES, [CONTROL, NEXT])]
        wide = page.evaluate("document.documentElement.scrollWidth - window.innerWidth")
        found += [f"{at}: {wide} px too wide"] if wide > 0 else []
        for scheme in SCHEMES:
            page.evaluate(
                "(is) => { document.documentElement.dataset.theme = is }", {"light": "day", "dark": "night"}[scheme]
            )
            only = COLOURS if scheme == "dark" else ()
            found += [f"{at} {scheme}: {one}" for one in violations(page, axe, only)]
    page.context.close()
    assert found == []
    assert troubles == []


def test_nothing_hangs_on_hovering_swiping_or_dragging() -> None:
    scripts = sorted((ASSETS / "js").glob("bay_*.js"))
    assert len(scripts) > 15
    assert [(one.name, way) for one in scripts for way in SWIPES.split() if way in one.read_text("utf-8")] == []


@pytest.mark.alone
@pytest.mark.parametrize("asked", [f"procedure={PROCEDURE}&side=left", f"example={EXAMPLE}"])
def test_the_first_step_is_there_soon_and_stays(chromium: Browser, site: Path, asked: str) -> None:
    shown, moved = [], []
    for _ in range(3):
        page, _troubles = slow(chromium)
        page.add_init_script(WATCH)
        page.goto(f"{(site / 'bay.html').as_uri()}#{asked}")
        expect(page.locator("#bay_do")).to_be_visible()
        page.wait_for_timeout(300)
        found: dict[str, Any] = page.evaluate("({shown: window.shown, moved: window.moved})")
        shown.append(found["shown"])
        moved.append(found["moved"])
        page.context.close()
        if found["shown"] < SOON:
            break
    print(f"first step of {asked}: {min(shown):.0f} ms at {SLOWER}x; moved {max(moved):.3f}")
    assert min(shown) < SOON
    assert max(moved) < STEADY


WATCH = """
  window.moved = 0;
  new PerformanceObserver((list) => {
    for (const one of list.getEntries()) if (!one.hadRecentInput) window.moved += one.value;
  }).observe({ type: "layout-shift", buffered: true });
  new MutationObserver((_, watcher) => {
    if (!document.getElementById("bay_do")) return;
    watcher.disconnect();
    requestAnimationFrame(() => setTimeout(() => { window.shown = performance.now(); }, 0));
  }).observe(document, { childList: true, subtree: true });
"""


def slow(chromium: Browser) -> tuple[Page, list[str]]:
    page, troubles = watched(chromium, 360, 740)
    session = page.context.new_cdp_session(page)
    session.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    return page, troubles


@pytest.mark.alone
def test_a_tick_of_the_worked_example_is_answered_at_once(chromium: Browser, site: Path) -> None:
    page, troubles = slow(chromium)
    page.goto(f"{(site / 'bay.html').as_uri()}#example={EXAMPLE}")
    hand = Hand(page, "Maren Vos")
    hand.sign_in()
    expect(page.locator("#bay_next")).not_to_contain_text("Working out", timeout=30_000)
    page.evaluate(ANSWERS)
    while len(answers := page.evaluate("window.answers")) < TICKS:
        label = hand.label
        assert not label.startswith("Wait until"), "too few steps to tick"
        hand.obey()
        page.wait_for_timeout(60)
    page.context.close()
    print(f"answers to Done at {SLOWER}x: {[round(one) for one in answers]} ms")
    assert median(answers) < QUICK
    assert troubles == []


ANSWERS = """(() => {
  window.answers = [];
  document.getElementById("bay_next").addEventListener("click", (event) => {
    if (!event.target.textContent.startsWith("Done")) return;
    const pressed = performance.now();
    requestAnimationFrame(() => setTimeout(() => window.answers.push(performance.now() - pressed), 0));
  }, true);
})()"""
