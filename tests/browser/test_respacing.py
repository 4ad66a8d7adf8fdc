"""The length measured on the car works every plan of a seam's page out again, as the builder works it out."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Page

from builder.model.records.law import Method
from builder.model.reference import Ref
from builder.model.work import MethodPlan
from builder.work.methods import plan_method
from tests.browser.test_plots import FRAME
from tests.browser.watched import NARROW, PHONE, Watched
from tests.site.building import CONTENT
from tests.work.planning import seams, shop

LOWER = "seams/rocker-lower.html"
NO_BREAK = "\u00a0"
SEAMS = sorted(
    path.stem for path in (CONTENT / "seams").glob("*.yaml") if "\nmethods: none\n" not in path.read_text("utf-8")
)
"""Those that are welded again: that each of them asks for its length is asserted where it is worked out."""
LENGTHS = (1, 12, 20, 20.5, 21, 47.3, 60, 90, 137, 250, 399.9, 400, 640, 1060, 1333.3, 2999, 6500, 20000)
"""In mm; every segment is worked out for its own length too."""
WORK = """([seam, lengths]) => seambook.seams[seam].segments.map(({facts}) => Object.fromEntries(
  Object.keys(seambook.methods).map((id) => [id, lengths.concat(facts.length).map((length) => {
    const plan = seambook.plan.work(seambook.methods[id], {...facts, length});
    const worked = plan.worked.map((one) => ({
      at: one.at, fragment: one.fragment,
      answers: one.working.show.map((name) => {
        const {value, text, why, because} = one.outputs[name];
        return [value === null ? '' : text, value === null ? why : because || ''];
      }),
      remarks: one.warnings.filter(({holds}) => holds !== false).map((one) => [one.level, one.say, one.holds === null]),
    }));
    const held = plan.limits.flatMap((holds, at) => (holds === false ? [] : [[at, holds === null]]));
    return {worked, held, row: plan.row};
  })])))"""


@pytest.fixture
def page(kept: Watched) -> Iterator[Page]:
    yield kept.again(LOWER)
    assert kept.troubles == []


def told(plan: MethodPlan) -> dict[str, Any]:
    """A plan as the script tells it."""
    return {
        "worked": [
            {"at": one.at, "fragment": one.fragment, "answers": [[value.text, value.why or value.because] for value in
             one.answers], "remarks": [[remark.level, remark.say, remark.unjudged] for remark in one.remarks]}
            for one in plan.worked
        ],
        "held": [[remark.at, remark.unjudged] for remark in plan.remarks],
    }  # fmt: skip


@pytest.mark.sweep(36)
@pytest.mark.parametrize("seam", SEAMS)
def test_every_seam_is_worked_out_as_the_builder_does(kept: Watched, seam: str) -> None:
    page = kept.again(f"seams/{seam}.html")
    found = page.evaluate(WORK, [seam, [length / 1000 for length in LENGTHS]])
    assert len(found) == len(seams()[seam])
    assert all(segment.asked for segment in seams()[seam])
    for segment, methods in zip(seams()[seam], found, strict=True):
        assert set(methods) == {plan.method for plan in segment.methods}
        for id_, plans in methods.items():
            record = shop().shelf[Ref("method", id_)]
            assert isinstance(record, Method)
            for length, script in zip([*(length / 1000 for length in LENGTHS), segment.known["length"]], plans,
                                      strict=True):  # fmt: skip
                known = {**segment.known, "length": length}
                plan = plan_method(id_, record, known, segment.name, shop())
                row = script.pop("row")
                assert script == told(plan), (segment.name, id_, length)
                assert (row is None) == (plan.row is None)
                if row is not None and plan.row is not None:
                    assert (row["count"], tuple(row["order"])) == (plan.row.count, plan.row.order)
                    assert [row["length"], row["first"], row["spacing"]] == pytest.approx(
                        [plan.row.length, plan.row.first, plan.row.spacing], rel=1e-12
                    )
    assert kept.troubles == []


def reset(page: Page, at: int) -> None:
    page.locator(f"#plan-{at} .respacing-reset").click()


def text_of(page: Page) -> list[str]:
    """What every block says; which of its ways are shown, and where they lead."""
    found: list[str] = page.evaluate("""() => [...document.querySelectorAll('.plan')].flatMap((block) => [
        block.querySelector('.plan-facts').innerText,
        ...[...block.querySelectorAll('.planned')].map((one) => one.innerText),
        ...[...block.querySelectorAll('.planned a')].map((one) => one.href)])""")
    return found


@pytest.mark.sweep(44)
@pytest.mark.parametrize("units", ["metric", "us"])
@pytest.mark.parametrize("seam", SEAMS)
def test_back_at_the_record_s_length_the_page_says_what_it_was_written_with(
    kept: Watched, seam: str, units: str
) -> None:
    page = kept.again(f"seams/{seam}.html")
    if units == "us":
        page.locator("#page_units").click()
    before = text_of(page)
    for at in range(1, len(seams()[seam]) + 1):
        page.locator(f"#ask_length_{at}").fill("777")
    assert text_of(page) != before
    for at in range(1, len(seams()[seam]) + 1):
        reset(page, at)
    assert text_of(page) == before
    if units == "us":  # what was told again follows the switch by itself
        page.locator("#page_units").click()
        written = text_of(page)
        assert written == text_of(kept.again(f"seams/{seam}.html"))
    assert kept.troubles == []


def test_a_longer_flange_by_hand(page: Page) -> None:
    """1300 mm in place of 1060: factory pitch 1060 / 28 = 37.86 mm; 1280 / 37.86 is 33.8, so 34 plugs, 38.79 mm."""
    page.evaluate("rows = []; document.addEventListener('seambook:respaced', ({detail}) => rows.push(detail))")
    page.locator("#ask_length_1").fill("1300")
    plugs = page.locator("#plan-1-mag-plug")
    assert plugs.locator('[data-output="count"]').inner_text() == "34"
    assert plugs.locator('[data-output="spacing"]').inner_text() == f"38.8{NO_BREAK}mm"
    rows = page.evaluate("rows")
    assert [(row["segment"], row["method"]) for row in rows] == [(1, "resistance-spot"), (1, "mag-plug")]
    assert rows[1]["row"]["count"] == 34
    assert rows[1]["row"]["spacing"] == pytest.approx(1280 / 33)
    assert sorted(rows[1]["row"]["order"]) == list(range(1, 35))
    ways = [way.get_attribute("href") or "" for way in plugs.locator("a[data-opens]").all()]
    assert [way.partition("#")[2].split(",")[0] for way in ways if "/spot-layout." in way] == ["in=length:1300~mm"]
    assert page.locator('#plan-1 [data-fact="length"]').inner_text() == f"1300{NO_BREAK}mm"
    assert page.locator('#plan-2 [data-fact="length"]').inner_text() == f"360{NO_BREAK}mm"


def test_a_flange_too_short_for_its_spots_stops(page: Page) -> None:
    """28 spots in 300 mm stand 10.4 mm apart, under the schedule's 19.1 mm for the next row up from 0.8 mm."""
    spots = page.locator("#plan-1-resistance-spot")
    assert spots.locator(".verdict").inner_text() == "Take care"
    page.locator("#ask_length_1").fill("300")
    assert spots.locator(".verdict").inner_text() == "Stop"
    first = spots.locator(".verdicts > li:visible").first
    assert "closer than the schedule's least pitch" in spots.locator(".verdicts").inner_text()
    assert first.get_attribute("class") == "caution-stop"
    assert spots.locator('[data-output="count"]').inner_text() == "28"
    reset(page, 1)
    assert spots.locator(".verdict").inner_text() == "Take care"


BAD = [
    ("long", "cannot be used"), ("0", "is too small"), ("-40", "is too small"), ("1e9", "is too large"),
    ("", "Nothing is written here"), ("5 kg", "is not offered here"), ("1,250", "the comma could part thousands"),
]
"""What cannot be used, and what is said of it."""


def test_what_cannot_be_used_is_told_and_the_last_good_plan_stays(page: Page) -> None:
    field, fault = page.locator("#ask_length_1"), page.locator("#ask_length_1-fault")
    for typed, said in BAD:
        field.fill("1200")
        before = text_of(page)
        field.fill(typed)
        assert said in fault.inner_text()
        assert "last good one" in fault.inner_text()
        assert field.get_attribute("aria-invalid") == "true"
        assert text_of(page) == before
        field.fill("1200")
        assert fault.is_hidden()
        assert field.get_attribute("aria-invalid") is None


def test_the_length_stands_in_the_address_and_nowhere_else(page: Page) -> None:
    page.locator("#ask_length_2").fill("15 in")
    said = text_of(page)
    address = page.evaluate("window.location.href")
    assert address.endswith("#in=length_2:15~inch")
    assert "length" not in page.evaluate("JSON.stringify([localStorage, sessionStorage])")
    page.goto("about:blank")
    page.goto(address)
    page.evaluate(FRAME)
    assert text_of(page) == said
    reset(page, 2)
    assert "#" not in page.evaluate("window.location.href")
    page.goto("about:blank")
    page.goto(address.partition("#")[0])
    assert page.locator("#ask_length_2").input_value() == "360"


def test_another_unit_changes_no_plan(page: Page) -> None:
    before = text_of(page)
    page.locator("#ask_length_1-unit").select_option("inch")
    assert page.locator("#ask_length_1").input_value() == "41.73"
    assert text_of(page) == before
    page.locator("#ask_length_1").fill("40")
    page.locator("#ask_length_1-unit").select_option("mm")
    assert page.locator("#ask_length_1").input_value() == "1016"
    assert page.locator("#plan-1-mag-plug [data-output='spacing']").inner_text() == f"36.9{NO_BREAK}mm"  # 996 / 27


def test_without_scripts_the_plan_is_read_and_nothing_is_asked(book: Watched) -> None:
    page = book.open(LOWER, PHONE, scripts=False)
    assert page.locator(".respacing").first.is_hidden()
    assert page.locator("#plan-1-mag-plug .verdict").inner_text() == "Take care"
    assert page.locator("#plan-1-mag-plug [data-output='count']").inner_text() == "28"


@pytest.mark.parametrize("width", [NARROW, PHONE])
def test_it_is_read_on_a_phone(book: Watched, width: int) -> None:
    page = book.open(LOWER, width)
    page.locator("#ask_length_1").fill("1200")
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    box = page.locator("#ask_length_1").bounding_box()
    assert box is not None
    assert box["height"] >= 60
