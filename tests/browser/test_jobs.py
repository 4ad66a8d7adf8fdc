"""Jobs on their page: made by visible labels or by keys alone; never lost, whatever becomes of tab, store or book."""

from __future__ import annotations

import json
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.books.laying import TINY, edit, lay
from tests.browser.test_axe import AXE, COLOURS, violations
from tests.browser.test_quiet import too_wide
from tests.browser.watched import DESK, PHONE, PHONE_FIRST, Watched
from tests.site.building import build

pytestmark = pytest.mark.slow

STORED = """() => new Promise((done) => {
  const asked = indexedDB.open(`seambook:${document.body.dataset.book}:jobs`, 1);
  asked.onsuccess = () => {
    const all = asked.result.transaction("texts").objectStore("texts").getAll();
    all.onsuccess = () => { asked.result.close(); done(all.result); };
  };
})"""
PUT = """([id, text, revision]) => new Promise((done) => {
  const asked = indexedDB.open(`seambook:${document.body.dataset.book}:jobs`, 1);
  asked.onsuccess = () => {
    const writing = asked.result.transaction("texts", "readwrite");
    writing.objectStore("texts").put({id, text, revision});
    writing.oncomplete = () => { asked.result.close(); done(); };
  };
})"""
FULL = """(() => {
  const put = IDBObjectStore.prototype.put;
  window.isFull = true;
  IDBObjectStore.prototype.put = function (...given) {
    if (window.isFull) throw new DOMException("no room", "QuotaExceededError");
    return put.apply(this, given);
  };
})()"""
FULL_LATE = """(() => {
  const put = IDBObjectStore.prototype.put;
  window.isFull = true;
  IDBObjectStore.prototype.put = function (...given) {
    const asked = put.apply(this, given);
    if (window.isFull) this.transaction.abort();
    return asked;
  };
})()"""
DEAF = """(() => {
  window.BroadcastChannel = class { postMessage() {} };
  Storage.prototype.setItem = () => {};
})()"""
STUCK = """(() => {
  const writing = {objectStore: () => ({get: () => ({}), put: () => ({}), delete: () => ({})})};
  const usual = IDBDatabase.prototype.transaction;
  IDBDatabase.prototype.transaction = function (stores, mode) {
    return mode === "readwrite" ? writing : usual.call(this, stores, mode);
  };
})()"""
"""The database takes nothing in any more, as in a tab that is closed in the middle of it."""
REFUSED = {
    "none": "Object.defineProperty(window, 'indexedDB', {value: undefined})",
    "throws": "Object.defineProperty(window, 'indexedDB', {get() { throw new DOMException('no', 'SecurityError'); }})",
    "fails": """IDBFactory.prototype.open = function () {
      const asked = {error: new DOMException('private', 'InvalidStateError')};
      setTimeout(() => asked.onerror(), 10);
      return asked;
    }""",
    "open throws": "IDBFactory.prototype.open = function () { throw new DOMException('no', 'SecurityError'); }",
}


@pytest.fixture
def shop(chromium: Browser, tiny_site: Path) -> Iterator[Watched]:
    watched = Watched(chromium, tiny_site)
    yield watched
    watched.close()
    assert watched.troubles == []


def begin(page: Page, number: str, procedure: str = "Weld the cover on") -> None:
    """Begin a job with one procedure, by what the page shows."""
    page.get_by_role("button", name="New job").click()
    page.get_by_label("Job number").fill(number)
    page.get_by_label("Find a procedure by a word").fill(procedure)
    page.get_by_role("button", name=f"Add left: {procedure}").click()
    expect(page.get_by_role("button", name=f"Remove left: {procedure}")).to_be_visible()
    expect(page.locator("#job_said")).to_have_text("Saved.")


def stored(page: Page) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = page.evaluate(STORED)
    return found


def jobs_in(page: Page) -> list[dict[str, Any]]:
    return [json.loads(one["text"])["job"] for one in stored(page)]


def whose(page: Page) -> set[tuple[str, str]]:
    """Number and customer of each job that is kept."""
    return {(job["number"], job["customer"]) for job in jobs_in(page)}


def upload(page: Page, folder: Path, given: object, name: str = "job.json") -> None:
    file = folder / name
    file.write_text(given if isinstance(given, str) else json.dumps(given), "utf-8")
    page.locator("#job_file").set_input_files(file)


def saved_file(page: Page, button: str = "#job_save") -> dict[str, Any]:
    """The file that the page hands out."""
    with page.expect_download() as waiting:
        page.locator(button).click()
    found: dict[str, Any] = json.loads(Path(waiting.value.path()).read_text("utf-8"))
    return found


# Making


@pytest.mark.parametrize("width", PHONE_FIRST)
def test_a_newcomer_makes_a_job_of_three_procedures(book: Watched, width: int) -> None:
    page = book.open("index.html", width)
    started = time.monotonic()
    page.get_by_role("navigation", name="This book").get_by_text("Jobs", exact=True).click()
    page.get_by_text("New job", exact=True).click()
    page.get_by_label("Job number").fill("26-099")
    page.get_by_label("Car", exact=True).fill("Two-door, green")
    for words, title in (("rocker", "Renew the outer rocker"), ("wheel housing", "Renew the outer wheel housing")):
        page.get_by_label("Find a procedure by a word").fill(words)
        row = page.locator("li").filter(has=page.get_by_role("link", name=title, exact=True)).first
        row.get_by_text("Add left", exact=True).click()
    page.get_by_text("Close this list").click()
    page.get_by_role("button", name="Floor pan", exact=True).first.click()
    page.locator("#job_found").get_by_text("Add left", exact=True).first.click()
    page.get_by_role("group", name="Technicians on this car").get_by_label("2", exact=True).check()
    expect(page.locator("#job_said")).to_have_text("Saved.")
    page.get_by_text("All jobs").click()
    card = page.locator(".job-kept")
    expect(card).to_contain_text("26-099")
    expect(card).to_contain_text("Two-door, green")
    assert time.monotonic() - started < 120
    (job,) = jobs_in(page)
    assert [run["procedure"] for run in job["runs"]][:2] == ["renew-rocker-outer", "renew-wheel-housing"]
    assert len(job["runs"]) == 3
    assert all(run["side"] == "left" and run["revision"] and len(run["fingerprint"]) == 12 for run in job["runs"])
    assert job["hands"] == 2


def test_the_book_proposes_what_belongs_to_it(book: Watched) -> None:
    page = book.open("jobs.html", DESK)
    page.get_by_role("button", name="New job").click()
    page.get_by_label("Find a procedure by a word").fill("renew the outer rocker")
    page.get_by_role("button", name="Add left: Renew the outer rocker").click()
    offers = page.locator(".job-offer")
    follows = offers.filter(has_text="takes over what they leave open")
    expect(follows).to_contain_text("Finish a renewed rocker")
    follows.get_by_role("button", name="Add left: Finish a renewed rocker").click()
    expect(page.get_by_role("button", name="Remove: Finish a renewed rocker, left side")).to_be_visible()
    beside = offers.filter(has_text="On the panels beside")
    beside.locator("summary").click()
    expect(beside.locator("li").first).to_be_visible()
    titles = beside.locator("li a").all_inner_texts()
    assert len(titles) == len(set(titles)) >= 3
    assert not {"Finish a renewed rocker", "Renew the outer rocker", "Close the job out"} & set(titles)
    page.get_by_role("button", name="Remove: Renew the outer rocker, left side").click()
    relied = page.locator(".job-offer").filter(has_text="They rely on")
    expect(relied).to_contain_text("Renew the outer rocker")
    expect(relied).to_contain_text("for Finish a renewed rocker")


def test_left_and_right_are_two(shop: Watched) -> None:
    page = shop.open("jobs.html", DESK)
    begin(page, "7")
    page.get_by_role("button", name="Add right: Weld the cover on").click()
    expect(page.locator("#job_said")).to_have_text("Saved.")
    assert [run["side"] for run in jobs_in(page)[0]["runs"]] == ["left", "right"]
    page.get_by_role("button", name="Remove left: Weld the cover on").click()
    expect(page.locator("#job_said")).to_have_text("Saved.")
    assert [run["side"] for run in jobs_in(page)[0]["runs"]] == ["right"]


def test_what_cannot_be_is_told_and_not_taken(shop: Watched) -> None:
    page = shop.open("jobs.html", PHONE)
    begin(page, "7")
    page.get_by_label("Shop temperature").fill("95")
    expect(page.locator("#job_temperature-fault")).to_have_text("Write a number from -40 to 60.")
    page.get_by_label("Humidity").fill("61")
    page.get_by_label("Shop closes").fill("06:00")
    expect(page.locator("#job_closes + .fault")).to_have_text("The shop opens before it closes.")
    expect(page.locator("#job_said")).to_have_text("Saved.")
    page.wait_for_function("() => true")
    (job,) = jobs_in(page)
    assert job["climate"]["temperature"] != 95
    assert job["climate"]["humidity"] == 61
    assert job["hours"]["closes"] > job["hours"]["opens"]
    for day in ("Mon", "Tue", "Wed", "Thu", "Sat", "Sun"):
        page.get_by_label(day, exact=True).uncheck()
    page.get_by_label("Fri", exact=True).click()
    expect(page.get_by_label("Fri", exact=True)).to_be_checked()
    expect(page.locator("#job_said")).to_contain_text("One working day is needed")


def test_by_the_keys_alone(shop: Watched) -> None:
    page = shop.open("jobs.html", DESK)
    page.locator("#job_new").focus()
    page.keyboard.press("Enter")
    expect(page.locator("#job_number")).to_be_focused()
    page.keyboard.type("K-1")
    page.keyboard.press("Tab")
    page.keyboard.type("Red cart")
    page.locator("#job_words").focus()
    page.keyboard.type("weld")
    page.keyboard.press("Tab")
    expect(page.locator("#job_all")).to_be_focused()
    for _ in range(2):
        page.keyboard.press("Tab")
    expect(page.locator("#job_pick-weld-cover-left")).to_be_focused()
    page.keyboard.press("Enter")
    expect(page.locator("#job_pick-weld-cover-left")).to_have_text("Remove left")
    expect(page.locator("#job_pick-weld-cover-left")).to_be_focused()
    panel = page.locator("a.panel[data-panel=cover]").first
    panel.focus()
    page.keyboard.press("Space")
    expect(page.locator("#job_found-head")).to_be_focused()
    expect(page.locator("#job_found-head")).to_contain_text("Cover")
    panel.focus()
    page.keyboard.press("Enter")
    expect(page.locator("#job_found-head")).to_be_focused()
    page.locator("#job_out-weld-cover-left").focus()
    page.keyboard.press("Enter")
    expect(page.locator("#job_part-chosen")).to_be_focused()
    page.locator("#job_hands-1").focus()
    page.keyboard.press("ArrowRight")
    expect(page.locator("#job_hands-2")).to_be_checked()
    expect(page.locator("#job_hands-2")).to_be_focused()
    page.locator("#job_words").fill("")
    page.get_by_role("button", name="Show all procedures").press("Enter")
    page.locator("#job_pick-weld-cover-right").press("Enter")
    page.locator("#job_onward").press("Enter")
    expect(page.locator("#job_view-plan")).to_be_focused()
    expect(page.locator("#job_view-plan")).to_have_attribute("aria-current", "page")
    page.locator("#job_back").press("Enter")
    expect(page.locator(".job-kept")).to_contain_text("K-1")


@pytest.mark.parametrize("dark", [False, pytest.param(True, marks=pytest.mark.soak)], ids=["light", "dark"])
@pytest.mark.parametrize("width", PHONE_FIRST)
def test_axe_finds_nothing_and_nothing_is_too_wide(shop: Watched, width: int, dark: bool) -> None:
    page, axe, only = shop.open("jobs.html", width, dark=dark), AXE.read_text("utf-8"), COLOURS if dark else ()
    found = [f"empty list: {one}" for one in violations(page, axe, only)]
    begin(page, "A job with a name that is long enough to be broken over several lines")
    page.locator("details").evaluate_all("all => all.forEach((one) => (one.open = true))")
    found += [f"made: {one}" for one in violations(page, axe, only)]
    assert too_wide(page) == []
    page.locator("#job_back").click()
    page.get_by_role("button", name="Delete").click()
    found += [f"asked: {one}" for one in violations(page, axe, only)]
    assert too_wide(page) == []
    assert found == []


# Keeping


def test_it_survives_a_reload_and_a_turned_phone(shop: Watched) -> None:
    page = shop.open("jobs.html", PHONE)
    begin(page, "26-041")
    page.get_by_label("Notes").fill("Line one\nLine two")
    expect(page.locator("#job_said")).to_have_text("Saved.")
    page.set_viewport_size({"width": 740, "height": 360})
    expect(page.get_by_label("Notes")).to_have_value("Line one\nLine two")
    page.reload()
    expect(page.get_by_label("Job number")).to_have_value("26-041")
    expect(page.get_by_label("Notes")).to_have_value("Line one\nLine two")
    expect(page.get_by_role("button", name="Remove: Weld the cover on, left side")).to_be_visible()
    page.goto(shop.url("jobs.html"))
    expect(page.locator(".job-kept")).to_contain_text("26-041")


def test_what_was_typed_last_is_kept_though_the_tab_closes_at_once(shop: Watched) -> None:
    page = shop.open("jobs.html", PHONE)
    begin(page, "1")
    page.get_by_label("Customer").fill("Half a na")
    page.reload()
    expect(page.get_by_label("Customer")).to_have_value("Half a na")


def test_in_a_new_job_one_types_before_it_is_saved(shop: Watched) -> None:
    page = shop.open("jobs.html", PHONE)
    page.evaluate(STUCK)
    page.get_by_role("button", name="New job").click()
    expect(page.get_by_label("Job number")).to_be_focused()
    expect(page.get_by_label("Job number")).to_be_in_viewport(ratio=1)


@pytest.mark.parametrize("is_writing", [False, True], ids=["with nothing on its way", "while it writes"])
def test_what_the_database_had_no_time_to_take_is_there_the_next_time(shop: Watched, is_writing: bool) -> None:
    page = shop.open("jobs.html", PHONE)
    begin(page, "1")
    if is_writing:
        page.get_by_label("Customer").fill("Somebody")
        expect(page.locator("#job_said")).to_have_text("Saved.")
    page.evaluate(STUCK)
    page.get_by_label("Customer").fill("Half a na")
    if is_writing:
        page.get_by_label("Customer").fill("Half a name")
    page.reload()
    expect(page.get_by_label("Customer")).to_have_value("Half a name" if is_writing else "Half a na")
    page.reload()
    expect(page.get_by_label("Customer")).to_have_value("Half a name" if is_writing else "Half a na")
    assert len(jobs_in(page)) == 1
    assert page.evaluate("Object.keys(localStorage).filter((key) => key.includes(':left:'))") == []


def test_what_was_typed_last_and_meets_another_tabs_words_is_kept_as_a_copy(shop: Watched) -> None:
    one = shop.open("jobs.html", DESK)
    begin(one, "26-041")
    other = one.context.new_page()
    other.goto(one.url)
    expect(other.get_by_label("Job number")).to_have_value("26-041")
    one.evaluate(STUCK)
    one.get_by_label("Customer").fill("Typed last")
    other.get_by_label("Customer").fill("Saved since")
    expect(other.locator("#job_said")).to_have_text("Saved.")
    one.goto("about:blank")
    one.goto(shop.url("jobs.html"))
    expect(one.locator("#job_notice-behind")).to_contain_text("kept as “26-041 copy”")
    assert whose(one) == {("26-041", "Saved since"), ("26-041 copy", "Typed last")}
    one.reload()
    expect(one.get_by_role("button", name="New job")).to_be_visible()
    assert len(whose(one)) == 2


def test_another_tab_takes_over_what_changed(shop: Watched) -> None:
    one = shop.open("jobs.html", DESK)
    begin(one, "26-041")
    other = one.context.new_page()
    other.goto(one.url)
    expect(other.get_by_label("Job number")).to_have_value("26-041")
    one.get_by_label("Customer").fill("The crate makers")
    expect(other.get_by_label("Customer")).to_have_value("The crate makers")
    expect(other.locator("#job_said")).to_have_text("Taken over from the other tab.")
    other.get_by_label("Customer").fill("The cart makers")
    expect(one.get_by_label("Customer")).to_have_value("The cart makers")
    assert stored(one)[0]["revision"] >= 3


@pytest.mark.parametrize("choice", ["Keep mine as a copy", "Take the other"])
def test_two_tabs_that_do_not_hear_each_other_lose_nothing(shop: Watched, choice: str) -> None:
    one = shop.open("jobs.html", DESK)
    one.context.add_init_script(DEAF)
    one.reload()
    begin(one, "26-041")
    other = one.context.new_page()
    other.goto(one.url)
    expect(other.get_by_label("Job number")).to_have_value("26-041")
    one.get_by_label("Customer").fill("First")
    expect(one.locator("#job_said")).to_have_text("Saved.")
    other.get_by_label("Customer").fill("Second")
    notice = other.locator("#job_notice-conflict")
    expect(notice).to_contain_text("Nothing is lost: choose.")
    other.get_by_label("Notes").fill("Typed while it waits")
    assert [job["customer"] for job in jobs_in(one)] == ["First"]
    notice.get_by_role("button", name=choice).click()
    expect(notice).to_have_count(0)
    if choice == "Take the other":
        expect(other.get_by_label("Customer")).to_have_value("First")
        assert [job["customer"] for job in jobs_in(one)] == ["First"]
        return
    expect(other.get_by_label("Job number")).to_have_value("26-041 copy")
    expect(other.get_by_label("Notes")).to_have_value("Typed while it waits")
    assert whose(one) == {("26-041", "First"), ("26-041 copy", "Second")}


def test_a_job_deleted_in_another_tab_is_not_lost_here(shop: Watched) -> None:
    one = shop.open("jobs.html", DESK)
    begin(one, "26-041")
    other = one.context.new_page()
    other.goto(shop.url("jobs.html"))
    other.get_by_role("button", name="Delete: 26-041").click()
    other.get_by_role("button", name="Delete it").click()
    notice = one.locator("#job_notice-conflict")
    expect(notice).to_contain_text("deleted this job")
    notice.get_by_role("button", name="Keep mine as a copy").click()
    expect(one.get_by_label("Job number")).to_have_value("26-041 copy")
    assert [job["number"] for job in jobs_in(one)] == ["26-041 copy"]


@pytest.mark.parametrize("how", [FULL, FULL_LATE], ids=["throws", "aborts"])
def test_a_full_store_is_told_and_the_file_is_there_to_save(shop: Watched, how: str) -> None:
    page = shop.open("jobs.html", PHONE)
    begin(page, "26-041")
    page.evaluate(how)
    page.get_by_label("Customer").fill("The crate makers")
    notice = page.locator("#job_notice-full")
    expect(notice).to_contain_text("This job is not saved")
    assert jobs_in(page)[0]["customer"] == ""
    assert saved_file(page, "#job_notice-full-0")["job"]["customer"] == "The crate makers"
    page.get_by_label("Notes").fill("More")
    page.evaluate("() => (window.isFull = false)")
    notice.get_by_role("button", name="Try again").click()
    expect(notice).to_have_count(0)
    (job,) = jobs_in(page)
    assert (job["customer"], job["notes"]) == ("The crate makers", "More")


def test_what_a_full_store_did_not_take_is_still_there_after_another_job(shop: Watched) -> None:
    page = shop.open("jobs.html", PHONE)
    begin(page, "26-041")
    page.evaluate(FULL)
    page.get_by_label("Customer").fill("The crate makers")
    expect(page.locator("#job_notice-full")).to_be_visible()
    page.get_by_text("All jobs").click()
    expect(page.locator("#job_notice-full")).to_be_visible()
    page.get_by_role("link", name="26-041").click()
    expect(page.get_by_label("Customer")).to_have_value("The crate makers")
    expect(page.locator("#job_notice-full")).to_be_visible()
    page.evaluate("() => (window.isFull = false)")
    page.get_by_role("button", name="Try again").click()
    expect(page.locator("#job_notice-full")).to_have_count(0)
    assert jobs_in(page)[0]["customer"] == "The crate makers"


def test_what_could_not_be_read_again_is_told_and_not_written(shop: Watched) -> None:
    page = shop.open("jobs.html", PHONE)
    begin(page, "26-041")
    page.get_by_role("link", name="Findings").click()
    page.get_by_label("Where").fill("Foot of the pillar")
    page.get_by_label("Size").fill("45 x 20 mm")
    page.get_by_label("Found by").fill("Maren")
    page.get_by_label("Price to the customer").fill("99999999999")
    page.get_by_role("button", name="Add the finding").click()
    expect(page.locator("#job_notice-form")).to_contain_text("price")
    assert jobs_in(page)[0]["findings"] == []
    expect(page.get_by_role("heading", name="Foot of the pillar")).to_be_visible()


def test_what_no_button_has_taken_yet_outlasts_a_redrawing(shop: Watched) -> None:
    page = shop.open("jobs.html", PHONE)
    begin(page, "26-041")
    page.get_by_role("link", name="Findings").click()
    page.get_by_label("Where").fill("Foot of the pillar")
    page.get_by_label("Size").fill("45 x 20 mm")
    page.get_by_label("It must be made safe at once").check()
    other = page.context.new_page()
    other.goto(page.url.replace("view=findings", "view=make"))
    other.get_by_label("Customer").fill("The crate makers")
    expect(page.locator("#job_said")).to_have_text("Taken over from the other tab.")
    expect(page.get_by_label("Where")).to_have_value("Foot of the pillar")
    page.get_by_label("Found by").fill("Maren")
    page.get_by_role("button", name="Add the finding").click()
    expect(page.get_by_role("heading", name="Foot of the pillar")).to_be_visible()
    expect(page.get_by_label("Where")).to_have_value("")
    expect(page.get_by_label("It must be made safe at once")).not_to_be_checked()
    expect(page.locator("#job_said")).to_have_text("Saved.")
    assert jobs_in(page)[0]["findings"][0]["make_safe"]


@pytest.mark.sweep(2)
@pytest.mark.parametrize("way", sorted(REFUSED))
def test_without_storage_it_works_in_memory_and_says_so(shop: Watched, way: str) -> None:
    page = shop.blank(PHONE)
    page.add_init_script(REFUSED[way])
    page.goto(shop.url("jobs.html"))
    expect(page.locator("#job_notice-store")).to_contain_text("This browser keeps no jobs")
    page.get_by_role("button", name="New job").click()
    page.get_by_label("Job number").fill("P-1")
    page.get_by_label("Find a procedure by a word").fill("weld")
    page.get_by_role("button", name="Add left: Weld the cover on").click()
    expect(page.locator("#job_said")).to_have_text("Held in this page only.")
    page.get_by_text("All jobs").click()
    page.get_by_role("link", name="P-1").click()
    expect(page.get_by_label("Job number")).to_have_value("P-1")
    assert saved_file(page)["job"]["number"] == "P-1"


def test_a_damaged_job_is_shown_with_its_text_and_left_as_it_is(shop: Watched, tmp_path: Path) -> None:
    page = shop.open("jobs.html", PHONE)
    begin(page, "26-041")
    id_ = jobs_in(page)[0]["id"]
    bad = '{"format": 1, "job": <b>cut o'
    page.goto(shop.url("jobs.html"))
    page.locator(".job-kept").wait_for()
    page.evaluate(PUT, [id_, bad, 9])
    page.reload()
    card = page.locator(".job-kept")
    expect(card).to_contain_text("A job that cannot be read")
    card.locator("summary").click()
    expect(card.locator("pre")).to_have_text(bad)
    with page.expect_download() as waiting:
        card.get_by_role("button", name="Save its text").click()
    assert Path(waiting.value.path()).read_text("utf-8") == bad
    page.goto(shop.url(f"jobs.html#job={id_}&view=make"))
    expect(page.locator("#job_said")).to_contain_text("cannot be read")
    begin(page, "26-042")
    assert {one["id"]: one["text"] for one in stored(page)}[id_] == bad


def test_a_bad_file_changes_nothing(shop: Watched, tmp_path: Path) -> None:
    page = shop.open("jobs.html", PHONE)
    begin(page, "26-041")
    before = stored(page)
    page.locator("#job_back").click()
    notice = page.locator("#job_notice-open")
    for text in ("", "{", "null", "[1]", '{"format": 1}', "\x00\x01", '{"format": 7, "job": {}}'):
        upload(page, tmp_path, text)
        expect(notice).to_contain_text("was not opened")
        assert stored(page) == before, text
        notice.get_by_role("button", name="Close").click()
        expect(notice).to_have_count(0)
        expect(page.locator(".job-kept")).to_have_count(1)


def test_a_file_goes_out_and_comes_back_and_asks_before_it_writes_over(shop: Watched, tmp_path: Path) -> None:
    page = shop.open("jobs.html", DESK)
    begin(page, "26-041")
    file = saved_file(page)
    page.get_by_label("Customer").fill("Written later")
    expect(page.locator("#job_said")).to_have_text("Saved.")
    page.locator("#job_back").click()
    upload(page, tmp_path, file)
    notice = page.locator("#job_notice-same")
    expect(notice).to_contain_text("Nothing is written over")
    assert [job["customer"] for job in jobs_in(page)] == ["Written later"]
    notice.get_by_role("button", name="Open the file as a copy").click()
    expect(page.get_by_label("Job number")).to_have_value("26-041 copy")
    expect(page.locator("#job_said")).to_have_text("Saved.")
    assert whose(page) == {("26-041", "Written later"), ("26-041 copy", "")}
    page.locator("#job_back").click()
    upload(page, tmp_path, file)
    with page.expect_download() as waiting:
        notice.get_by_role("button", name="Put the file in its place").click()
    assert json.loads(Path(waiting.value.path()).read_text("utf-8"))["job"]["customer"] == "Written later"
    expect(page.get_by_label("Customer")).to_have_value("")


def test_the_list_duplicates_and_deletes_once_asked(shop: Watched) -> None:
    page = shop.open("jobs.html", PHONE)
    begin(page, "26-041")
    page.locator("#job_back").click()
    page.get_by_role("button", name="Duplicate: 26-041").click()
    expect(page.locator(".job-kept")).to_have_count(2)
    expect(page.locator("#job_said")).to_have_text("Copied as 26-041 copy.")
    page.get_by_role("button", name="Delete: 26-041 copy").click()
    expect(page.get_by_role("button", name="Keep it")).to_be_focused()
    page.keyboard.press("Enter")
    expect(page.get_by_role("button", name="Delete: 26-041 copy")).to_be_focused()
    expect(page.locator(".job-kept")).to_have_count(2)
    page.keyboard.press("Enter")
    page.get_by_role("button", name="Delete it").click()
    expect(page.locator(".job-kept")).to_have_count(1)
    assert [job["number"] for job in jobs_in(page)] == ["26-041"]


def test_an_example_is_opened_kept_and_found_again(shop: Watched) -> None:
    page = shop.open("jobs/dented-cover.html", DESK)
    page.get_by_role("link", name="Open this job").click()
    expect(page.locator("#job_called")).to_contain_text("3-07")
    expect(page.locator("#job_said")).to_have_text("Saved.")
    id_ = jobs_in(page)[0]["id"]
    page.goto(shop.url(f"jobs.html#job={id_}&view=make"))
    page.get_by_label("Customer").fill("Changed")
    expect(page.locator("#job_said")).to_have_text("Saved.")
    page.goto(shop.url("jobs.html"))
    page.locator("#job_examples").get_by_role("link").first.click()
    expect(page.locator("#job_said")).to_contain_text("opened this example before")
    (job,) = jobs_in(page)
    assert job["customer"] == "Changed"
    assert job["readings"]["weld-cover@left#measure-hatch/Diagonal"]["found"] == 500.5


def test_a_newer_book_tells_what_has_gone_and_drops_nothing(chromium: Browser, tmp_path: Path) -> None:
    content, site = lay(tmp_path / "content", TINY), tmp_path / "site"
    for path in (content / "jobs").iterdir():
        path.unlink()
    text = (content / "procedures" / "weld-cover.yaml").read_text("utf-8")
    other = text.replace("Weld the cover on", "Hang the cover")
    (content / "procedures" / "hang-cover.yaml").write_text(other, "utf-8")
    build(site, str(content))
    watched = Watched(chromium, site)
    page = watched.open("jobs.html", DESK)
    begin(page, "26-041")
    page.get_by_label("Find a procedure by a word").fill("hang")
    page.get_by_role("button", name="Add left: Hang the cover").click()
    expect(page.locator("#job_said")).to_have_text("Saved.")
    (kept,) = stored(page)
    file = json.loads(kept["text"])
    names = ("weld-cover", "hang-cover")
    file["job"]["done"] = {f"{name}@left#drill-holes": {"at": "2026-03-02T09:00"} for name in names}
    page.evaluate(PUT, [kept["id"], json.dumps(file), kept["revision"]])
    # The book of the next year: a procedure is gone, a step's key is gone, and a revision was made.
    (content / "procedures" / "hang-cover.yaml").unlink()
    before = "number: 2, date: 2026-02-03, author: Ada Quill, approver: Bo Marsh, reason: Aired first."
    edit(
        content, "procedures/weld-cover.yaml", ("key: drill-holes", "key: bore-holes"),
        ("  number: 2\n", "  number: 3\n"), ("  earlier: [", f"  earlier: [{{{before}}}, "),
    )  # fmt: skip
    edit(content, "lessons/first-cover.yaml", ("#drill-holes", "#bore-holes"))
    build(site, str(content))
    page.reload()
    told = page.locator(".job-told")
    expect(told).to_contain_text("“Hang the cover” is no longer in this book")
    expect(told).to_contain_text("“Weld the cover on” is now at revision 3; the job was planned with revision 2")
    expect(told).to_contain_text("weld-cover@left#drill-holes")
    page.get_by_label("Customer").fill("Still here")
    expect(page.locator("#job_said")).to_have_text("Saved.")
    (job,) = jobs_in(page)
    assert job["done"] == file["job"]["done"]
    assert [(run["procedure"], run["revision"]) for run in job["runs"]] == [("weld-cover", 2), ("hang-cover", 2)]
    told.get_by_role("button", name="Go on with the book as it is now").click()
    expect(told).not_to_contain_text("revision 3")
    expect(page.locator("#job_said")).to_have_text("Saved.")
    (job,) = jobs_in(page)
    assert [(run["procedure"], run["revision"]) for run in job["runs"]] == [("weld-cover", 3), ("hang-cover", 2)]
    watched.close()
    assert watched.troubles == []


def test_a_renamed_procedure_is_followed_once_the_reader_says_so(chromium: Browser, tmp_path: Path) -> None:
    content, site = lay(tmp_path / "content", TINY), tmp_path / "site"
    build(site, str(content))
    watched = Watched(chromium, site)
    page = watched.open("jobs.html#example=dented-cover", DESK)
    expect(page.locator("#job_said")).to_have_text("Saved.")
    for path in (content / "jobs").iterdir():
        path.unlink()
    text = (content / "procedures" / "weld-cover.yaml").read_text("utf-8")
    (content / "procedures" / "weld-cover.yaml").unlink()
    (content / "procedures" / "join-cover.yaml").write_text(f"was: [weld-cover]\n{text}", "utf-8")
    build(site, str(content))
    page.reload()
    expect(page.locator(".job-told")).to_contain_text("is now called")
    page.get_by_role("button", name="Take the new names").click()
    expect(page.locator("#job_said")).to_have_text("Saved.")
    (job,) = jobs_in(page)
    assert "weld-cover@" not in json.dumps(job)
    assert [*job["readings"]] == ["join-cover@left#measure-hatch/Diagonal"]
    assert job["findings"][0]["procedures"] == [{"procedure": "join-cover", "side": "right"}]
    watched.close()


def test_it_says_what_it_is_where_no_script_runs(shop: Watched) -> None:
    page = shop.open("jobs.html", PHONE, scripts=False)
    expect(page.get_by_text("This needs JavaScript")).to_be_visible()
    expect(page.get_by_role("link", name="A dented cover")).to_be_visible()
    expect(page.locator("#job_bodies")).to_be_hidden()
    page.get_by_role("link", name="A dented cover").click()
    for words in ("Weld the cover on", "left side", "500.5 mm", "Rust on the box", "not answered yet", "Red cart"):
        expect(page.locator("main")).to_contain_text(words)
