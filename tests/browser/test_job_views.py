"""The views of a planned job, on a small one made by hand: what is next, what holds it, verdicts, timeline, paper."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser import job_states
from tests.browser.test_axe import AXE, violations
from tests.browser.watched import DESK, PHONE

READ, STOP, COAT = (f"first-panel@left#{key}" for key in ("read", "stop", "coat"))
BY = {"at": "2026-11-30T09:00", "by": "Maren", "minutes": 60}


@pytest.fixture(scope="module")
def desk(chromium: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Page]:
    context = chromium.new_context(viewport={"width": DESK, "height": 900}, timezone_id="UTC", locale="en-GB")
    context.set_default_timeout(5000)
    page = context.new_page()
    troubles: list[str] = []
    page.on("pageerror", lambda error: troubles.append(str(error)))
    page.on("console", lambda message: troubles.append(message.text))
    page.goto(job_states.lay(tmp_path_factory.mktemp("views")).as_uri())
    yield page
    context.close()
    assert [one for one in troubles if "ERR_FILE_NOT_FOUND" not in one] == []


def job(page: Page) -> dict[str, Any]:
    found: dict[str, Any] = page.evaluate("window.state.job")
    return found


def sorts(page: Page, given: dict[str, Any]) -> dict[str, str]:
    """What every step is, by its key."""
    job_states.show(page, "steps", given)
    found: dict[str, str] = page.evaluate("""() => {
      const { jobTicks, jobRows } = window.seambook;
      const state = { ...window.state, library: window.state.library.procedures };
      const found = [...jobTicks.states(state, jobRows.of(state))];
      return Object.fromEntries(found.map(([id, { sort }]) => [id.split("#")[1], sort]));
    }""")
    return found


@pytest.mark.parametrize(
    ("found", "low", "high", "verdict", "off"),
    [
        (None, 1, 2, "missing", 0),
        (1, 1, 2, "within", 0),
        (2, 1, 2, "within", 0),
        (0.9, 1, 2, "low", -0.1),
        (2.3, 1, 2, "high", 0.3),
        (5, None, None, "noted", 0),
        (0.1, 0.3, None, "low", -0.2),
        (9, 0.3, None, "within", 0),
        (-3, None, -2, "within", 0),
        (-1.9, None, -2, "high", 0.1),
    ],
)
def test_a_reading_is_judged_by_its_limits(
    desk: Page, found: float | None, low: float | None, high: float | None, verdict: str, off: float
) -> None:
    told = desk.evaluate("([found, low, high]) => window.seambook.asBuilt.judge(found, low, high)", [found, low, high])
    assert told == {"verdict": verdict, "off": off}


def test_as_built_has_every_measure_and_what_the_book_lost(desk: Page) -> None:
    readings = {
        f"{READ}/Width": {"found": 1006.5, "unit": "mm", "by": "Maren", "at": "2026-11-30T08:40", "gauge": "Tram 2"},
        "gone-panel@left#read/Gap": {"found": 3, "unit": "mm"},
    }
    job_states.show(desk, "as-built", job_states.state(readings=readings))
    rows = desk.evaluate(
        "window.seambook.asBuilt.rows({ ...window.state, library: window.state.library.procedures })"
        ".map(({ id, verdict, off, holds, expected }) => [id.split('#')[1], verdict, off, holds, expected])"
    )
    assert rows == [
        ["read/Width", "high", 2.5, True, 1002],
        ["read/Depth", "missing", 0, False, None],
        ["read-again/Width", "missing", 0, False, 1002],
        ["read/Gap", "gone", 0, False, None],
    ]


def test_before_and_after_stand_beside_each_other(desk: Page) -> None:
    readings = {
        f"{READ}/Width": {"found": 1003.2, "unit": "mm"},
        "first-panel@left#read-again/Width": {"found": 1001.9, "unit": "mm"},
    }
    job_states.show(desk, "as-built", job_states.state(readings=readings))
    block = desk.locator("section", has=desk.get_by_role("heading", name="Before and after"))
    expect(block.locator("tbody tr")).to_have_count(1)
    expect(block.locator("tbody tr")).to_contain_text("1003.2 mm")
    expect(block.locator("tbody td").last).to_have_text("−1.3 mm")


def test_steps_come_in_their_order_and_what_waits_for_the_customer_is_not_next(desk: Page) -> None:
    assert sorts(desk, job_states.state()) == {
        "read": "next",
        "stop": "later",
        "coat": "later",
        "read-again": "later",
        "beside": "next",
        "weld": "later",
        "late": "waiting",
    }


def test_a_hold_point_keeps_what_follows_until_it_is_released(desk: Page) -> None:
    done = {READ: BY, STOP: BY}
    held = sorts(desk, job_states.state(done=done))
    assert (held["coat"], held["beside"]) == ("held", "next")
    released = {STOP: {"by": "Dov", "at": "2026-11-30T10:00", "reason": "Seen"}}
    assert sorts(desk, job_states.state(done=done, releases=released))["coat"] == "next"


def test_a_reading_out_of_tolerance_holds_the_whole_job_until_released_with_a_reason(desk: Page) -> None:
    readings = {f"{READ}/Width": {"found": 1006.5, "unit": "mm", "by": "Maren"}}
    assert set(sorts(desk, job_states.state(readings=readings)).values()) == {"held", "later", "waiting"}
    desk.get_by_role("button", name="Release").first.click()
    expect(desk.get_by_text("Say who releases it.")).to_be_visible()
    desk.get_by_label("Released by").first.fill("Dov")
    desk.get_by_label("Why it may stay").first.fill("The door shuts")
    desk.get_by_role("button", name="Release").first.click()
    assert job(desk)["readings"][f"{READ}/Width"]["released"]["reason"] == "The door shuts"
    expect(desk.get_by_role("heading", name="Next")).to_be_focused()
    # Another reading in its place is not released with it.
    field = desk.locator(".job-next").get_by_label("Width")
    field.fill("1007")
    field.blur()
    expect(desk.get_by_role("heading", name="Held")).to_be_visible()
    assert "released" not in job(desk)["readings"][f"{READ}/Width"]


def test_work_that_makes_safe_does_not_wait(desk: Page) -> None:
    given = job_states.state()
    given["job"]["findings"][0]["make_safe"] = True
    assert sorts(desk, given)["late"] == "next"


def test_a_step_is_ticked_by_name_with_its_minutes_and_taken_back(desk: Page) -> None:
    desk.evaluate("localStorage.clear()")
    job_states.show(desk, "steps", job_states.state())
    card = desk.locator(".job-next")
    card.get_by_role("button", name="Done").click()
    expect(card.get_by_text("Say who did it.")).to_be_visible()
    card.get_by_label("Done by").fill("Maren")
    card.get_by_label("Minutes it took").fill("47,5")
    card.get_by_role("button", name="Done").click()
    assert job(desk)["done"][READ]["minutes"] == 47.5
    assert job(desk)["done"][READ]["by"] == "Maren"
    expect(card.get_by_label("Done by")).to_have_value("Maren")
    expect(desk.locator(".job-progress")).to_contain_text("1 of 7")
    desk.locator("summary", has_text="Do read.").click()
    desk.get_by_role("button", name="Take the tick back").click()
    assert job(desk)["done"] == {}


def test_a_reading_is_kept_at_each_key_and_judged_when_it_is_left(desk: Page) -> None:
    job_states.show(desk, "steps", job_states.state())
    field = desk.locator(".job-next").get_by_label("Width")
    field.press_sequentially("1003")
    assert job(desk)["readings"][f"{READ}/Width"]["found"] == 1003
    desk.keyboard.press("Tab")
    expect(desk.locator(".job-next")).to_contain_text("✓ within")
    expect(desk.locator(".job-next").get_by_label("Depth")).to_be_focused()
    field.fill("abc")
    field.blur()
    expect(desk.get_by_text("Write it as a number.")).to_be_visible()
    assert job(desk)["readings"][f"{READ}/Width"]["found"] == 1003


def test_a_button_pressed_out_of_a_field_is_not_lost(desk: Page) -> None:
    job_states.show(desk, "steps", job_states.state())
    card = desk.locator(".job-next")
    card.get_by_label("Done by").fill("Maren")
    card.get_by_label("Note").fill("Tag hung")
    card.get_by_role("button", name="Done").click()
    assert READ in job(desk)["done"]
    assert job(desk)["notes_by_step"][READ] == "Tag hung"


def bars(page: Page) -> list[tuple[str, str, str, str]]:
    """Day, start and end of every bar, read off the drawing by its own hour strokes, and the step it stands for."""
    found: list[tuple[str, str, str, str]] = (
        page.evaluate("""() => [...document.querySelectorAll(".only-screen > svg.timeline")]
    .flatMap((svg) => {
      const names = [...svg.querySelectorAll(".hour-name")]
        .map((text) => [Number(text.firstChild.data), Number(text.getAttribute("x"))]);
      const [[first, from], [last, to]] = [names[0] || [0, 0], names[names.length - 1] || [1, 1]];
      const minute = (x) => Math.round(60 * (first + ((x - from) * (last - first)) / (to - from)));
      const two = (number) => String(number).padStart(2, "0");
      const clock = (x) => `${two(Math.floor(minute(x) / 60))}:${two(minute(x) % 60)}`;
      const day = svg.querySelector(".day")?.textContent;
      return [...svg.querySelectorAll("rect.bar")].map((bar) => {
        const [x, width] = [Number(bar.getAttribute("x")), Number(bar.getAttribute("width"))];
        return [day, clock(x), clock(x + width), bar.dataset.id];
      });
    })""")
    )
    return [(day, start, end, id_) for day, start, end, id_ in found]


@pytest.mark.parametrize("width", [PHONE, DESK])
def test_the_timeline_and_its_table_tell_the_same_times(desk: Page, width: int) -> None:
    desk.set_viewport_size({"width": width, "height": 800})
    job_states.show(desk, "plan", job_states.state())
    expect(desk.locator(".only-screen > svg.timeline")).to_have_count(2)
    table = desk.evaluate("""() => [...document.querySelectorAll(".job-table tbody tr")].map((row) => {
      const day = row.closest("details").querySelector("summary").textContent.split(",")[0];
      return [day, ...row.cells[0].textContent.split(" to "), row.dataset.id];
    })""")
    assert len(table) == 7
    assert sorted(bars(desk)) == sorted(tuple(row) for row in table)
    desk.set_viewport_size({"width": DESK, "height": 900})


def test_a_wait_goes_on_past_closing_and_ends_only_where_it_ends(desk: Page) -> None:
    job_states.show(desk, "plan", job_states.state())
    waits = desk.locator(".only-screen > svg [data-wait]")
    expect(waits).to_have_count(1)
    strokes = desk.locator(".only-screen > svg path.wait:not([data-wait])")
    expect(strokes).to_have_count(2)  # it begins before closing and ends the same evening
    expect(desk.locator(".job-table tr", has_text="Do coat.")).to_contain_text("Mon 30 Nov, 18:30, cure")


def test_no_pair_of_hands_is_at_two_places(desk: Page) -> None:
    job_states.show(desk, "plan", job_states.state())
    lanes = desk.evaluate("""() => {
      const state = { ...window.state, library: window.state.library.procedures };
      const { lanes, bars } = window.seambook.jobLanes.byHands(window.seambook.jobRows.of(state), 2);
      return lanes.map(({ id }) => bars.filter((bar) => bar.lanes.includes(id)).map((bar) => bar.parts[0]));
    }""")
    assert len(lanes) == 2
    assert sum(map(len, lanes)) == 8  # seven steps, one of them for two
    for lane in lanes:
        lane.sort()
        assert all(one[1] <= other[0] for one, other in pairwise(lane))


def test_what_may_not_meet_is_hatched_as_long_as_it_is_about(desk: Page) -> None:
    job_states.show(desk, "plan", job_states.state())
    spans = desk.evaluate(
        """[...document.querySelectorAll('.only-screen > svg [data-trait="wet"]')]
        .map(({ dataset }) => [Number(dataset.from), Number(dataset.to)])"""
    )
    assert spans == [[job_states.moment((30, 15, 30)), job_states.moment((30, 18, 30))]]


def test_a_loop_is_told_by_its_steps_and_rules(desk: Page) -> None:
    given = job_states.state()
    given["book"]["rules"] = {
        "dry": {"title": "Coated before it is shut", "because": "Nobody reaches it again.", "path": "rules/dry.html"}
    }
    given["book"]["states"] = {"coated": "Coated"}
    given["planned"]["merged"]["loop"] = [
        {
            "id": COAT,
            "by": "second-panel@left#weld",
            "kind": "needs",
            "rule": "dry",
            "state": "coated",
            "subject": "seam:lap",
        }
    ]
    job_states.show(desk, "plan", given)
    block = desk.get_by_role("region", name="Problems")
    expect(block.get_by_role("link", name="First panel, left, step 3")).to_have_attribute(
        "href", "procedures/first-panel.html#coat"
    )
    expect(block.get_by_role("link", name="Coated before it is shut")).to_have_attribute("href", "rules/dry.html")
    said = "step 3 needs “Coated” (The lap), and Second panel, left, step 2 undoes it, or brings it only later"
    expect(block).to_contain_text(said)
    expect(block).to_contain_text("Nobody reaches it again.")


def test_a_loop_is_undone_by_what_ends_the_state_that_makes_it(desk: Page) -> None:
    given = job_states.state()
    turn = {"id": COAT, "by": "second-panel@left#weld", "kind": "makes", "rule": "", "state": "open", "subject": "body"}
    given["planned"]["merged"]["loop"] = [turn]
    given["book"]["states"] = {"open": "Fuel system open"}
    found = {"relies_on": ["first-panel"], "status": "issued", "path": "procedures/back.html"}
    given["book"]["procedures"] = [
        {"id": "back", "title": "Put it back", "ends": [["open", "body"]], **found},
        {"id": "other", "title": "Something else", "ends": [["open", "seam:lap"]], **found},
    ]
    job_states.show(desk, "plan", given)
    block = desk.get_by_role("region", name="Problems")
    expect(block).to_contain_text("brings “Fuel system open” (body) about")
    expect(block.get_by_role("link", name="Put it back")).to_have_attribute("href", "procedures/back.html")
    expect(block).not_to_contain_text("Something else")
    expect(desk.locator(".job-summary")).to_contain_text("not known")


def test_what_steps_took_is_offered_to_whoever_keeps_the_records(desk: Page) -> None:
    job_states.show(desk, "steps", job_states.state(done={READ: BY | {"minutes": 90}, STOP: BY | {"minutes": None}}))
    desk.locator("summary", has_text="What steps took").click()
    row = desk.get_by_role("region", name="What steps took").locator("tbody tr")
    expect(row).to_have_count(1)
    assert [cell.strip() for cell in row.locator("td").all_text_contents()[2:]] == ["1 h", "1 h 30 min", "1.5 times"]


def test_a_yes_brings_the_work_of_a_finding_and_a_no_takes_it_out(desk: Page) -> None:
    job_states.show(desk, "findings", job_states.state())
    desk.get_by_role("button", name="Customer says no").click()
    assert [run["procedure"] for run in job(desk)["runs"]] == ["first-panel", "second-panel"]
    desk.get_by_role("button", name="Take the answer back").click()
    assert job(desk)["runs"][-1] == {
        "procedure": "late-panel",
        "side": "",
        "revision": 2,
        "fingerprint": "a" * 12,
        "title": "Late panel",
        "finding": "f1",
    }
    desk.get_by_role("button", name="Customer says yes").click()
    finding = job(desk)["findings"][0]
    assert (finding["answer"], finding["by_whom"]) == ("yes", "R. Tamsin")
    assert re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d", finding["answered"])


def test_a_finding_is_added_and_waits(desk: Page) -> None:
    job_states.show(desk, "findings", job_states.state(findings=[]))
    desk.get_by_role("button", name="Add the finding").click()
    expect(desk.get_by_text("Say where it is.")).to_be_visible()
    desk.get_by_label("Where").fill("Pillar foot")
    desk.get_by_label("Found by").fill("Ilse")
    desk.get_by_label("Procedure", exact=True).select_option(label="Second panel")
    desk.get_by_label("Side").select_option(label="Right")
    desk.get_by_role("button", name="Add the procedure").click()
    expect(desk.get_by_label("Where")).to_have_value("Pillar foot")
    desk.get_by_label("Price to the customer").fill("120")
    desk.get_by_role("button", name="Add the finding").click()
    expect(desk.get_by_text("Say how large it is.")).to_be_visible()
    assert job(desk)["findings"] == []
    expect(desk.get_by_label("Size")).to_be_focused()
    expect(desk.get_by_label("Where")).to_have_value("Pillar foot")
    expect(desk.get_by_label("Price to the customer")).to_have_value("120")
    expect(desk.get_by_role("button", name="Take out Second panel, right")).to_be_visible()
    desk.get_by_label("Size").fill("45 x 20 mm")
    desk.get_by_role("button", name="Add the finding").click()
    found = job(desk)
    assert found["findings"][0] | {"found": ""} == {
        "id": "f1",
        "where": "Pillar foot",
        "size": "45 x 20 mm",
        "step": READ,
        "found": "",
        "by": "Ilse",
        "photo": "",
        "supplies": [],
        "minutes": 0,
        "procedures": [{"procedure": "second-panel", "side": "right"}],
        "price": 120,
        "make_safe": False,
        "answer": "waiting",
        "answered": "",
        "by_whom": "",
    }
    assert found["runs"][-1]["side"] == "right"
    assert found["runs"][-1]["finding"] == "f1"


def test_the_customer_reads_what_was_done_and_what_the_shop_writes(desk: Page) -> None:
    given = job_states.state(
        done={COAT: BY, "second-panel@left#weld": BY}, readings={f"{READ}/Width": {"found": 1003, "unit": "mm"}}
    )
    job_states.show(desk, "customer", given)
    place = desk.locator("#job_place")
    for said in (
        "Old part, left",
        "Rail, left",
        "1 reading taken; 1 of the 1 with limits lies within them.",
        "After 1 month: Look.",
    ):
        expect(place).to_contain_text(said)
    desk.get_by_label("Where").fill("At the rail's rear end")
    assert job(desk)["customer_page"] == {"kept": "At the rail's rear end"}


def printed(page: Page) -> None:
    page.emulate_media(media="print")
    page.evaluate("window.dispatchEvent(new Event('beforeprint'))")


def test_the_traveller_has_a_box_for_every_step_reading_and_release(desk: Page) -> None:
    job_states.show(
        desk, "steps", job_states.state(done={READ: BY}, readings={f"{READ}/Width": {"found": 1003, "unit": "mm"}})
    )
    printed(desk)
    sheet = desk.locator(".only-paper")
    expect(sheet.locator(".tick-box")).to_have_count(7)
    expect(sheet.locator(".tick-box", has_text="✓")).to_have_count(1)
    assert sheet.locator(".traveller-reading .box").all_inner_texts() == ["1003 mm", "", ""]
    expect(sheet.locator(".traveller-signs .box")).to_have_count(2)
    expect(desk.locator(".only-screen").first).to_be_hidden()
    desk.emulate_media(media="screen")
    desk.evaluate("window.dispatchEvent(new Event('afterprint'))")
    expect(sheet).to_be_empty()


def test_the_whole_job_is_printed_in_its_parts(desk: Page, tmp_path: Path) -> None:
    job_states.show(desk, "print", job_states.state())
    desk.get_by_label("Page for the customer").check()
    desk.get_by_label("Plan").uncheck()
    printed(desk)
    titles = desk.locator(".paper-part .traveller-title").all_inner_texts()
    assert titles == ["Traveller", "Take-off", "As built", "Your car"]
    assert "Job 26-041" in desk.evaluate("getComputedStyle(document.documentElement).getPropertyValue('--job-number')")
    desk.emulate_media(media="screen")
    desk.evaluate("window.dispatchEvent(new Event('afterprint'))")


@pytest.mark.parametrize("view", job_states.VIEWS)
@pytest.mark.parametrize("width", [PHONE, DESK])
@pytest.mark.parametrize("scheme", [pytest.param("light", marks=pytest.mark.soak), "dark"])
def test_every_view_reads_on_phone_and_desk(desk: Page, view: str, width: int, scheme: Any) -> None:
    given = job_states.state(
        done={READ: BY, STOP: BY}, readings={f"{READ}/Width": {"found": 1006.5, "unit": "mm", "by": "Maren"}}
    )
    desk.set_viewport_size({"width": width, "height": 800})
    desk.emulate_media(media="screen", color_scheme=scheme)
    job_states.show(desk, view, given)
    assert desk.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")
    assert violations(desk, AXE.read_text("utf-8")) == []
    desk.set_viewport_size({"width": DESK, "height": 900})
