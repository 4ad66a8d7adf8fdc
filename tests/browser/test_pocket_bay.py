"""A procedure carried through the bay inside the copy in one file, from disk, without a network, by touch."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any, cast

import pytest
from playwright.sync_api import Browser, Frame, Page, expect

from tests.browser import example
from tests.browser.copied import SHOWN, Copies
from tests.browser.hand import Hand
from tests.sweeps import is_soak

pytestmark = pytest.mark.slow
PROCEDURE, STEPS = "prepare-faying-surfaces", 25
SLOWER = 4
"""A phone's processor beside this machine's; in make test the machine's own does, as nothing is measured here."""
FIRST, SECOND = "Pieternella Langhorne", "Dov Pellam"


@pytest.fixture
def phone(chromium: Browser) -> Iterator[Page]:
    context = chromium.new_context(
        viewport={"width": 360, "height": 740}, has_touch=True, locale="en-GB", timezone_id="UTC", accept_downloads=True
    )
    context.set_default_timeout(15_000)
    context.set_offline(True)
    context.clock.install(time="2026-11-30T08:00:00")
    troubles: list[str] = []
    context.on("console", lambda message: troubles.append(message.text))
    context.on("weberror", lambda error: troubles.append(str(error.error)))
    yield context.new_page()
    context.close()
    assert troubles == []


def bay(page: Page, found: str = "#bay_do") -> Frame:
    """The page of the book that the copy shows, once its step is there, or something else on it."""
    expect(page.frame_locator(SHOWN).locator(found)).to_be_visible(timeout=30_000)
    frame = page.locator(SHOWN).element_handle().content_frame()
    assert frame is not None
    return frame


def job(frame: Frame) -> dict[str, Any]:
    """The job as the browser keeps it, once everything is written."""
    text: str = frame.evaluate("""async () => {
      const kept = window.seambook.bayDesk.kept();
      while (kept.isPending()) await new Promise((done) => setTimeout(done, 5));
      return (await kept.store.load(kept.state.job.id)).text;
    }""")
    found: dict[str, Any] = json.loads(text)["job"]
    return found


def test_a_procedure_is_carried_to_its_end_in_the_copy(phone: Page, copies: Copies) -> None:
    if is_soak():
        processor = phone.context.new_cdp_session(phone)
        processor.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    phone.goto(f"{copies.whole.as_uri()}#bay.html#procedure={PROCEDURE}&side=left")
    hand = Hand(cast("Page", bay(phone)), FIRST)
    hand.sign_in()
    assert hand.at == (1, STEPS)
    a_reading_out_of_tolerance(hand)
    at = hand.at
    before = job(bay(phone))["done"]
    assert re.search(r"#bay\.html#job=", phone.url)
    phone.reload()
    hand.page = cast("Page", bay(phone))
    assert (hand.at, job(bay(phone))["done"]) == (at, before)  # it goes on where it was
    expect(hand.page.locator("#bay_person")).to_be_visible()
    hand.page.locator("#bay_person").tap()
    hand.sign_in(SECOND)
    a_hold_asks_for_the_file(phone, hand)
    the_rest(phone, hand)


def a_reading_out_of_tolerance(hand: Hand) -> None:
    page = hand.page
    while not hand.label.startswith("Measure:"):
        hand.obey()
    hand.next()
    hand.type(0 if "or more" in hand.says("bay_limits") else 999)
    assert hand.label == "Out: measure or release"
    step = hand.step
    hand.next()
    assert hand.step == step  # it stops there
    page.locator(".bay-out input").first.fill(SECOND)
    page.locator(".bay-out input").nth(1).fill("The sheet is cut out in the next step")
    page.get_by_role("button", name="Release this reading").tap()
    expect(page.get_by_text(f"Released by {SECOND}: The sheet is cut out")).to_be_visible()
    file_is_asked_for(hand).get_by_role("button", name="Not now").tap()


def file_is_asked_for(hand: Hand) -> Any:
    asked = hand.page.locator("#job_notice-copy")
    expect(asked).to_contain_text("Save the file now")
    return asked


def a_hold_asks_for_the_file(phone: Page, hand: Hand) -> None:
    while hand.label != "Release, next":
        hand.obey()
    hand.next()
    expect(hand.page.get_by_text("Say who releases it.")).to_be_visible()
    hand.release(SECOND)
    with phone.expect_download() as download:
        file_is_asked_for(hand).get_by_role("button", name="Save the file").tap()
    saved = json.loads(Path(download.value.path()).read_text("utf-8"))["job"]
    assert SECOND in {one["by"] for one in saved["releases"].values()}
    expect(hand.page.locator("#job_notice-copy")).to_have_count(0)


def the_rest(phone: Page, hand: Hand) -> None:
    for _ in range(100):
        found = hand.walk()
        if found["end"] != "wait":
            break
        hand.wait()
    assert found["end"] == "done", (found["end"], hand.at, hand.step)
    done = job(bay(phone))
    assert len(done["done"]) == STEPS
    assert {tick["by"] for tick in done["done"].values()} == {FIRST, SECOND}
    assert done["photos"]


@pytest.mark.soak
def test_the_worked_example_is_carried_to_its_end_in_the_copy(phone: Page, copies: Copies) -> None:
    """On the wide screen of a desk."""
    phone.set_viewport_size({"width": 1280, "height": 800})
    phone.clock.set_system_time(example.NOW)
    phone.goto(f"{copies.whole.as_uri()}#bay.html#example={example.EXAMPLE}")
    hand = Hand(phone, "")

    def where(found: str) -> Page:
        return cast("Page", bay(phone, found))

    example.begin(hand, where)
    example.a_reading_out_of_tolerance(hand)
    example.goes_on_as_it_was(hand, phone.reload, where)
    example.finish(hand)
    example.ended(hand)
