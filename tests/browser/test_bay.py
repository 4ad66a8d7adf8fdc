"""The bay from disk, without a network, by touch: a procedure and the worked example carried to their last step."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from tests.browser.example import EXAMPLE, NOW, finish
from tests.browser.hand import Hand
from tests.sweeps import is_soak

pytestmark = pytest.mark.slow
PROCEDURE = "renew-rocker-outer"
LONG_NAME = "Pieternella Langhorne-van der Wal"
SOME = 60 if is_soak() else 30
SHORT = 5  # of a name in the head


@contextmanager
def phone(chromium: Browser, now: str) -> Iterator[BrowserContext]:
    """A phone in the bay: touch, no network; whatever a page complains of fails the test."""
    context = chromium.new_context(
        viewport={"width": 360, "height": 740}, has_touch=True, locale="en-GB", timezone_id="UTC", accept_downloads=True
    )
    context.set_default_timeout(10_000)
    context.set_offline(True)
    context.clock.install(time=now)
    troubles: list[str] = []
    context.on("console", lambda message: troubles.append(message.text))
    context.on("weberror", lambda error: troubles.append(str(error.error)))
    yield context
    context.close()
    assert troubles == []


def kept(page: Page) -> dict[str, Any]:
    """The job as the page has it."""
    found: dict[str, Any] = page.evaluate("window.seambook.bayDesk.kept().state.job")
    return found


def stored(page: Page) -> dict[str, Any]:
    """The job as the browser keeps it, once everything is written."""
    text: str = page.evaluate("""async () => {
      const kept = window.seambook.bayDesk.kept();
      while (kept.isPending()) await new Promise((done) => setTimeout(done, 5));
      return (await kept.store.load(kept.state.job.id)).text;
    }""")
    found: dict[str, Any] = json.loads(text)["job"]
    return found


def test_a_procedure_alone_from_its_first_to_its_last_step(chromium: Browser, site: Path) -> None:
    with phone(chromium, "2026-11-30T08:00:00") as context:
        page = context.new_page()
        hand = Hand(page, LONG_NAME, (site / "bay.html").as_uri())
        page.goto(f"{hand.home}#procedure={PROCEDURE}")
        expect(page.locator("#bay_do")).to_contain_text("on which side?")
        page.get_by_role("link", name="Left").tap()
        hand.sign_in()
        first_step(hand)
        a_photograph_that_cannot_be_taken(hand)
        a_reading_out_of_tolerance(hand)
        its_own_colours_and_size(hand)
        it_goes_on_where_it_was(hand)
        two_people(hand)
        a_tick_taken_back(hand)
        said = finish(hand)
        assert said["Release, next"] >= 5
        assert said["Measure"] >= 20
        the_end(hand)


def first_step(hand: Hand) -> None:
    page = hand.page
    assert hand.at == (1, 63)
    assert len(hand.says("bay_person")) <= SHORT
    expect(page.get_by_role("button", name=LONG_NAME)).to_be_visible()
    places = page.evaluate(
        "['.bay-danger', '#bay_do', '.key', '#bay_photo', '.hold']"
        ".map((one) => document.querySelector(one).getBoundingClientRect().top)"
    )
    assert places == sorted(places)  # the danger before the action
    with page.expect_file_chooser():
        hand.next()  # what the step wants to see is asked for, and nothing is ticked without it
    assert kept(page)["done"] == {}
    hand.photograph()
    assert hand.label == "Done, then release"
    hand.next()
    hand.next()
    expect(page.get_by_text("Say who releases it.")).to_be_visible()
    assert hand.at == (1, 63)  # it stops until it is released
    hand.release("Dov Pellam")
    assert hand.at == (2, 63)
    page.locator("#bay_note").fill("Old filler found at the foot.")
    hand.next()
    assert "Old filler found at the foot." in stored(page)["notes_by_step"].values()


def a_photograph_that_cannot_be_taken(hand: Hand) -> None:
    page = hand.page
    while hand.label != "Photograph first":
        hand.obey()
    page.get_by_text("No photograph, because").tap()
    page.locator("#bay_unseen_take").tap()
    expect(page.get_by_text("Say why.")).to_be_visible()
    page.locator("#bay_unseen").fill("the lamp is at the other car")
    page.locator("#bay_unseen_take").tap()
    assert hand.label.startswith("Done")
    hand.obey()


def a_reading_out_of_tolerance(hand: Hand) -> None:
    page = hand.page
    while not (hand.label.startswith("Measure:") and limits(page)):
        hand.obey()
    hand.next()
    high = max(float(one) for one in re.findall(r"[0-9]+(?:[.][0-9]+)?", hand.says("bay_limits")))
    for letter in f"{high + 2.5:g}":
        page.locator(".bay-key").get_by_text(letter, exact=True).tap()
    expect(page.locator("#bay_verdict")).to_contain_text("too high by 2.5 mm")  # at once, before it is entered
    page.locator("#bay_enter").tap()
    assert hand.label == "Out: measure or release"
    step, done = hand.step, kept(page)["done"]
    hand.next()
    expect(page.locator(".bay-out input").first).to_be_focused()
    page.locator("#bay_count").tap()
    expect(page.locator("#bay_phases")).to_contain_text("Out of tolerance")
    page.locator("#bay_phases_shut").tap()
    page.locator(".bay-out input").first.fill("Dov Pellam")
    page.get_by_role("button", name="Release this reading").tap()
    expect(page.get_by_text("Say why it may stay.")).to_be_visible()
    page.locator(".bay-out input").nth(1).fill("The sill is cut out in the next step")
    page.get_by_role("button", name="Release this reading").tap()
    expect(page.get_by_text("Released by Dov Pellam: The sill is cut out")).to_be_visible()
    assert (hand.step, kept(page)["done"]) == (step, done)
    hand.obey()


def limits(page: Page) -> bool:
    """Whether the first reading of the step has an upper limit in millimetres."""
    said = page.locator(".bay-limits").first.inner_text()
    return bool(re.search(r"(to|at most) [0-9.]+ mm", said))


def its_own_colours_and_size(hand: Hand) -> None:
    page = hand.page
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"
    before = size_of(page)
    page.locator("#bay_menu").tap()
    page.locator("#bay_menu-night").tap()
    page.locator("#bay_menu-cart").tap()
    page.locator("#bay_menu_open_shut").tap()
    assert page.evaluate("document.documentElement.dataset.theme") == "night"
    assert (before, size_of(page)) == (24, 48)


def size_of(page: Page) -> float:
    found: float = page.evaluate("parseFloat(getComputedStyle(document.getElementById('bay_do')).fontSize)")
    return found


def it_goes_on_where_it_was(hand: Hand) -> None:
    page = hand.page
    before = (hand.at, hand.step, stored(page)["done"])
    assert "#job=" in page.url
    page.reload()
    expect(page.locator("#bay_do")).to_be_visible()
    assert (hand.at, hand.step, kept(page)["done"]) == before
    assert page.locator("#bay_who").count() == 0
    assert size_of(page) == 48
    page.locator("#bay_menu").tap()
    page.locator("#bay_menu-cart").tap()
    page.locator("#bay_menu_open_shut").tap()
    # Opened from the procedure's page again, it is the same work.
    page.goto("about:blank")
    page.goto(f"{hand.home}#procedure={PROCEDURE}&side=left")
    expect(page.locator("#bay_do")).to_be_visible()
    assert kept(page)["done"] == before[2]


def two_people(hand: Hand) -> None:
    page = hand.page
    page.locator("#bay_count").tap()
    page.locator("#bay_phases .bay-way").last.tap()  # looked at, not done
    looked = hand.at
    assert looked > (50, 63)
    page.locator("#bay_person").tap()
    hand.sign_in("Dov Pellam")
    assert hand.at < looked
    count = len(kept(page)["done"])
    while len(kept(page)["done"]) == count:
        hand.obey()
    page.locator("#bay_person").tap()
    hand.sign_in(LONG_NAME)
    assert hand.at == looked  # where they left off
    assert hand.label.startswith(("Go to step", "Release step"))
    hand.next()
    assert "Dov Pellam" in {tick["by"] for tick in stored(page)["done"].values()}


def a_tick_taken_back(hand: Hand) -> None:
    page = hand.page
    at, count = hand.at, len(kept(page)["done"])
    page.locator("#bay_back").tap()
    page.locator("#bay_undo").tap()
    assert (hand.at[0], len(kept(page)["done"])) == (at[0] - 1, count - 1)
    assert not hand.label.startswith("Go to")


def the_end(hand: Hand) -> None:
    page = hand.page
    expect(page.locator("#bay_do")).to_be_focused()
    with page.expect_download() as download:
        page.locator("#bay_end-save").tap()
    job = json.loads(Path(download.value.path()).read_text("utf-8"))["job"]
    assert (len(job["done"]), job["alone"]) == (63, True)
    assert {tick["by"] for tick in job["done"].values()} == {LONG_NAME, "Dov Pellam"}
    photos = [one for many in job["photos"].values() for one in many]
    assert [one["say"] for one in photos if "data" not in one] == [
        "No photograph, because the lamp is at the other car"
    ]
    assert sum(one["found"] is not None for one in job["readings"].values()) == len(job["readings"]) > 30
    # Opened again from the procedure's page, what is done is done: another begins.
    page.goto("about:blank")
    page.goto(f"{hand.home}#procedure={PROCEDURE}&side=left")
    expect(page.locator("#bay_count")).to_have_text("1 of 63")
    page.goto(f"{hand.home.replace('bay.html', 'jobs.html')}")
    apart = page.get_by_role("region", name="Procedures worked from by themselves")
    expect(apart.get_by_role("heading", level=3)).to_have_count(1)
    expect(apart).to_contain_text("63 of 63")


def test_the_worked_example_to_its_end(chromium: Browser, site: Path) -> None:
    with phone(chromium, NOW) as context:
        page = context.new_page()
        hand = Hand(page, "Maren Vos")
        page.goto(f"{(site / 'bay.html').as_uri()}#example={EXAMPLE}")
        hand.sign_in()
        expect(page.locator("#bay_next")).not_to_contain_text("Working out")
        assert page.evaluate("window.scrollY") == 0  # the dangers stay in sight when the plan draws the step anew
        begun = len(kept(page)["done"])
        found = hand.walk(5)
        assert len(found["said"]) == 5
        # The customer's answer is given on the job's own page, and lets its work begin.
        page.locator("#bay_menu").tap()
        page.locator("#bay_menu-job").tap()
        page.locator("#job_view-findings").tap()
        for finding in ("f2", "f3"):
            page.locator(f"#{finding}_yes").tap()
            expect(page.locator(f"#{finding}_open")).to_be_visible()
        page.locator("#job_bay").tap()
        expect(page.locator("#bay_do")).to_be_visible()
        expect(page.locator("#bay_next")).not_to_contain_text("Working out")
        if not is_soak():
            it_goes_on(hand)
            return
        finish(hand)
        job = stored(page)
        ids = page.evaluate("window.seambook.bayDesk.context().stand.rows.map(({ id, done }) => [id, !!done])")
        assert len(ids) > 400
        assert [id_ for id_, is_done in ids if not is_done] == []
        assert len(job["done"]) > begun + 250


def it_goes_on(hand: Hand) -> None:
    """Some keys further, over whatever waits there are; to its last step it is carried in a soak."""
    before, pressed = len(stored(hand.page)["done"]), 0
    while pressed < SOME:
        found = hand.walk(SOME - pressed)
        pressed += len(found["said"])
        assert found["end"] in ("wait", "most"), (found["end"], hand.at, hand.step)
        if found["end"] == "wait":
            hand.wait()
    assert len(stored(hand.page)["done"]) > before + SOME // 4


def test_a_keyboard_is_enough(chromium: Browser, site: Path) -> None:
    with phone(chromium, "2026-11-30T08:00:00") as context:
        page = context.new_page()
        page.goto(f"{(site / 'bay.html').as_uri()}#procedure={PROCEDURE}&side=right")
        expect(page.locator("#bay_who_title")).to_be_focused()
        go_to(page, "bay_name")
        page.keyboard.type("Ada")
        page.keyboard.press("Enter")
        go_to(page, "bay_unseen_fold")
        page.keyboard.press("Enter")
        page.keyboard.press("Tab")
        page.keyboard.type("no lamp")
        page.keyboard.press("Tab")
        page.keyboard.press("Enter")
        go_to(page, "bay_next")
        page.keyboard.press("Enter")  # done
        expect(page.locator("#bay_do")).to_be_focused()
        go_to(page, "bay_release-by")
        page.keyboard.type("Ada")
        go_to(page, "bay_next")
        page.keyboard.press("Enter")  # released
        expect(page.locator("#bay_count")).to_contain_text("2 of 63")
        go_to(page, "bay_next")
        page.keyboard.press("Enter")
        go_to(page, "bay_measure-0")
        page.keyboard.press("Enter")
        expect(page.locator("#bay_number")).to_be_focused()
        page.keyboard.type("12,5")
        page.keyboard.press("Enter")
        expect(page.locator("#bay_measure-0")).to_contain_text("12.5")
        expect(page.locator("#bay_measure-0")).to_be_focused()
        page.locator("#bay_menu").focus()
        page.keyboard.press("Enter")
        page.keyboard.press("Escape")
        expect(page.locator("#bay_menu")).to_be_focused()


def go_to(page: Page, id_: str) -> None:
    """Press the tabulator until the focus is there, or on what unfolds there."""
    for _ in range(60):
        page.keyboard.press("Tab")
        if page.evaluate(
            "(id) => document.activeElement.id === id || document.activeElement.parentElement.id === id", id_
        ):
            return
    raise AssertionError(f"{id_} is not reached by the keyboard")


def test_two_tabs_at_one_job_are_put_together(chromium: Browser, site: Path) -> None:
    with phone(chromium, "2026-11-30T08:00:00") as context:
        one = context.new_page()
        one.goto(f"{(site / 'bay.html').as_uri()}#procedure=first-look&side=left")
        hand = Hand(one, "Ada")
        hand.sign_in()
        found = hand.walk(3)
        assert len(found["said"]) == 3
        stored(one)
        other = context.new_page()
        other.goto(one.url)
        expect(other.locator("#bay_do")).to_be_visible()
        other.evaluate("window.seambook.bayDesk.kept().heard = () => undefined")  # told too late
        one.locator("#bay_note").fill("Seen from the left.")
        one.locator("#bay_note").blur()
        before = stored(one)
        Hand(other, "Bo").walk(2)
        expect(other.locator("#job_notice-together")).to_contain_text("both were put together")
        after = stored(other)
        assert set(before["done"]) <= set(after["done"])
        assert "Seen from the left." in after["notes_by_step"].values()
        assert other.locator("#job_notice-conflict").count() == 0
