"""Two versions of one job put together: nothing is dropped, and of what both changed the newer stands."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.job_states import ASSETS

OLD = {"by": "Ada", "at": "2026-11-30T08:00"}
NEW = {"by": "Bo", "at": "2026-11-30T09:00"}
A, B = "cover@left#clean", "cover@left#weld"
Job = dict[str, Any]


@pytest.fixture(scope="module")
def page(chromium: Browser) -> Iterator[Page]:
    context = chromium.new_context()
    made = context.new_page()
    made.add_script_tag(path=ASSETS / "js/job_join.js")
    yield made
    context.close()


def join(page: Page, base: Job | None, mine: Job, theirs: Job) -> tuple[Job, list[str]]:
    found = page.evaluate("([base, mine, theirs]) => window.seambook.jobJoin.join(base, mine, theirs)",
                          [base, mine, theirs])  # fmt: skip
    return found["job"], found["clashes"]


def test_what_each_did_stands_beside_the_other(page: Page) -> None:
    base = {"done": {A: OLD}, "notes_by_step": {}, "left_at": {"Ada": A}, "changed": "2026-11-30T08:00"}
    mine = base | {"done": {A: OLD, B: NEW}, "left_at": {"Ada": B}, "changed": "2026-11-30T09:00"}
    theirs = base | {"notes_by_step": {A: "Thin"}, "left_at": {"Ada": A, "Bo": B}, "changed": "2026-11-30T08:30"}
    job, clashes = join(page, base, mine, theirs)
    assert job == {
        "done": {A: OLD, B: NEW}, "notes_by_step": {A: "Thin"}, "left_at": {"Ada": B, "Bo": B},
        "changed": "2026-11-30T09:00",
    }  # fmt: skip
    assert clashes == []
    assert join(page, base, theirs, mine)[0] == job  # whoever puts them together


def test_a_tick_taken_back_stays_taken_back_unless_it_is_not_known_where_both_came_from(page: Page) -> None:
    base, without = {"done": {A: OLD, B: OLD}}, {"done": {A: OLD}}
    assert join(page, base, without, base)[0] == without
    assert join(page, base, base, without)[0] == without
    assert join(page, None, without, base)[0] == base
    # Ticked anew by the other meanwhile: that is kept.
    anew = {"done": {A: OLD, B: NEW}}
    assert join(page, base, without, anew)[0] == anew


def test_of_two_readings_the_newer_stands_and_is_told(page: Page) -> None:
    key = f"{A}/Width"
    mine = {"readings": {key: {"found": 3, "unit": "mm", **OLD}}}
    theirs = {"readings": {key: {"found": 4, "unit": "mm", **NEW}}}
    bases: tuple[Job | None, ...] = (None, {"readings": {}})
    for base in bases:
        for one, other in ((mine, theirs), (theirs, mine)):
            assert join(page, base, one, other) == (theirs, [f"readings/{key}"])
    # A release that came later than either belongs to its own reading.
    released = {"found": 3, "unit": "mm", **OLD, "released": {"by": "Ada", "at": "2026-11-30T10:00", "reason": "x"}}
    assert join(page, None, {"readings": {key: released}}, theirs)[0] == {"readings": {key: released}}


def test_notes_photographs_and_lists_keep_all(page: Page) -> None:
    photo, other = {"at": "2026-11-30T08:00", "say": "Left"}, {"at": "2026-11-30T08:00", "say": "Right"}
    mine = {
        "notes_by_step": {A: "Thin"}, "photos": {A: [photo]}, "coupons": [{"seam": "edge", "verdict": "good"}],
        "findings": [{"id": "f1", "where": "Foot", "answer": "waiting"}],
        "timers": [{"step": A, "sort": "wait", "begun": "2026-11-30T08:00:05"}], "runs": [{"procedure": "cover"}],
    }  # fmt: skip
    theirs = {
        "notes_by_step": {A: "Holed"}, "photos": {A: [photo, other]}, "coupons": [{"seam": "edge", "verdict": "bad"}],
        "findings": [
            {"id": "f1", "where": "Foot", "answer": "yes", "answered": "2026-11-30T09:00"},
            {"id": "f2", "where": "Arch"},
        ],
        "timers": [{"step": B, "sort": "watch", "begun": "2026-11-30T08:00:05"}], "runs": [{"procedure": "arch"}],
    }  # fmt: skip
    job, _ = join(page, None, mine, theirs)
    assert job["notes_by_step"] == {A: "Thin\nHoled"}
    assert job["photos"] == {A: [photo, other]}
    assert len(job["coupons"]) == len(job["findings"]) == len(job["timers"]) == len(job["runs"]) == 2
    base = {**mine, "findings": mine["findings"]}
    assert join(page, base, mine, theirs)[0]["findings"][0]["answer"] == "yes"


def test_what_no_book_knows_is_carried_along(page: Page) -> None:
    job, clashes = join(page, {"later": 1}, {"later": 1, "mine": {"x": 1}}, {"later": 2, "theirs": [1]})
    assert (job, clashes) == ({"later": 2, "mine": {"x": 1}, "theirs": [1]}, [])
    job, clashes = join(page, {"title": "A"}, {"title": "B", "changed": "2"}, {"title": "C", "changed": "1"})
    assert (job["title"], clashes) == ("B", ["title"])
