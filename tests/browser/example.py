"""The worked example carried in the bay to its last step, wherever the book was had from."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from typing import Any

from playwright.sync_api import Page, expect

from tests.browser.hand import Hand

EXAMPLE = "left-side-struck-and-rusted"
NOW = "2026-12-08T15:30:00"
"""When it is gone on with: some of it is done by then."""
FIRST, SECOND = "Maren Vos", "Dov Pellam"
OUT, REASON = "Out: measure or release", "It is cut out two steps on"
Where = Callable[[str], Page]
"""Gives the page, or the frame, on which what is named stands, once it is there."""


def finish(hand: Hand) -> Counter[str]:
    """Go on to the end; while only the clock is in the way let it go on."""
    said: Counter[str] = Counter()
    for _ in range(400):
        found = hand.walk()
        said.update(label.split(":")[0] for label in found["said"])
        if found["end"] != "wait":
            assert found["end"] == "done", (found["end"], hand.at, hand.step)
            return said
        hand.wait()
    raise AssertionError("it waits for ever")


def begin(hand: Hand, where: Where) -> None:
    """Five steps; then the customer's answers, on the job's own page, let their work begin."""
    hand.page = where("#bay_do")
    hand.sign_in(FIRST)
    expect(hand.page.locator("#bay_next")).not_to_contain_text("Working out")
    assert len(hand.walk(5)["said"]) == 5
    hand.page.locator("#bay_menu").tap()
    hand.page.locator("#bay_menu-job").tap()
    page = where("#job_view-findings")
    page.locator("#job_view-findings").tap()
    for finding in ("f2", "f3"):
        page.locator(f"#{finding}_yes").tap()
        expect(page.locator(f"#{finding}_open")).to_be_visible()
    page.locator("#job_bay").tap()
    hand.page = where("#bay_do")
    expect(hand.page.locator("#bay_next")).not_to_contain_text("Working out")


def a_reading_out_of_tolerance(hand: Hand) -> None:
    """The work stops at it, and goes on once somebody answers for it."""
    for _ in range(200):
        if hand.label == OUT:
            break
        if hand.label.startswith("Measure:"):
            hand.next()
            hand.type(0 if "or more" in hand.says("bay_limits") else 99999)
        else:
            hand.obey()
    step = hand.step
    hand.next()
    assert hand.step == step
    while hand.page.locator(".bay-out").count():
        out = hand.page.locator(".bay-out").first
        out.locator("input").first.fill(SECOND)
        out.locator("input").nth(1).fill(REASON)
        out.get_by_role("button", name="Release this reading").tap()
        expect(hand.page.get_by_text(f"Released by {SECOND}: {REASON}").first).to_be_visible()
    assert hand.label != OUT


def goes_on_as_it_was(hand: Hand, load: Callable[[], object], where: Where) -> None:
    """The page is loaded again in the middle of the job: nothing of it is lost, and another person goes on."""
    before = shown(hand)
    load()
    hand.page = where("#bay_do")
    expect(hand.page.locator("#bay_next")).not_to_contain_text("Working out")
    after = shown(hand)
    assert after == before, [(one, other) for one, other in zip(before, after, strict=True) if one != other]
    hand.page.locator("#bay_person").tap()
    hand.sign_in(SECOND)


def shown(hand: Hand) -> tuple[tuple[int, int], str, dict[str, Any]]:
    """Where the bay stands, and what is done, once the order follows what was ticked last."""
    # It follows when nothing was changed for a second and a half.
    hand.page.evaluate("""async () => {
      const kept = window.seambook.bayDesk.kept();
      for (let before = -1; before !== kept.version; ) {
        before = kept.version;
        await new Promise((then) => setTimeout(then, 2000));
      }
    }""")
    return hand.at, hand.step, stored(hand)["done"]


def ended(hand: Hand) -> None:
    """All steps of all procedures are done, by both."""
    steps = hand.page.evaluate("window.seambook.bayDesk.context().stand.rows.map(({ id, done }) => [id, !!done])")
    assert len(steps) > 400
    assert [id_ for id_, is_done in steps if not is_done] == []
    job = stored(hand)
    assert {FIRST, SECOND} <= {tick["by"] for tick in job["done"].values()}
    released = [one["released"]["by"] for one in job["readings"].values() if one.get("released")]
    assert SECOND in released


def stored(hand: Hand) -> dict[str, Any]:
    """The job as the browser keeps it, once everything is written."""
    found: dict[str, Any] = hand.page.evaluate("""async () => {
      const kept = window.seambook.bayDesk.kept();
      while (kept.isPending()) await new Promise((done) => setTimeout(done, 5));
      return JSON.parse((await kept.store.load(kept.state.job.id)).text).job;
    }""")
    return found
