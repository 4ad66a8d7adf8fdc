"""What a device knows of a procedure, over two editions of a small book: changed steps marked until seen; overdue
reviews; and what is not issued, on the screen, on every sheet of paper and in the search."""

from __future__ import annotations

import json
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.test_axe import axe as axe
from tests.browser.test_axe import violations
from tests.browser.test_print import pages_of
from tests.browser.watched import DESK, PHONE, SCHEMES, Watched
from tests.site.control_books import COVER, REVISED

PATH = COVER.replace(".yaml", ".html")
KEPT = "seambook:little-bench:followed:weld-cover"
LAST = "seal-edge"
TOUCH = 60


@pytest.fixture
def before(chromium: Browser, editions: tuple[Path, Path]) -> Iterator[Watched]:
    yield from _watched(chromium, editions[0])


@pytest.fixture
def after(chromium: Browser, editions: tuple[Path, Path]) -> Iterator[Watched]:
    yield from _watched(chromium, editions[1])


def _watched(chromium: Browser, site: Path) -> Iterator[Watched]:
    watched = Watched(chromium, site)
    yield watched
    watched.close()
    assert watched.troubles == []


def kept(page: Page) -> object:
    return json.loads(page.evaluate("key => localStorage.getItem(key)", KEPT) or "null")


def keep(page: Page, text: str) -> None:
    page.evaluate("([key, text]) => localStorage.setItem(key, text)", [KEPT, text])


def marked(page: Page) -> list[str]:
    """The steps that bear a mark, in their order on the page."""
    found: list[str] = page.locator("article.step:has(.changed)").evaluate_all("all => all.map((one) => one.id)")
    return found


def test_changed_steps_are_marked_on_the_page_until_each_was_seen(
    before: Watched, editions: tuple[Path, Path], axe: str
) -> None:
    page = before.open(PATH)
    assert (marked(page), kept(page)) == ([], None)
    page.locator(f"#{LAST} [data-tick]").click()
    assert kept(page) == {"revision": 2, "seen": {}}
    expect(page.locator(".known")).to_contain_text("This device knows revision 2")

    page.goto((editions[1] / PATH).as_uri())
    in_order = page.locator("article.step").evaluate_all("all => all.map((one) => one.id)")
    assert marked(page) == sorted(REVISED, key=in_order.index)
    one, other = marked(page)
    mark = page.locator(f"#{one} .changed")
    expect(mark).to_contain_text("Changed in revision 3")
    expect(mark).to_contain_text(f"The {one} is done in another way.")
    assert page.evaluate(
        "key => { const all = [...document.querySelectorAll(`#${key} > *`)].map((one) => one.className);"
        "return all.indexOf('changed') < all.findIndex((one) => one.startsWith('do'))"
        "&& all.slice(all.indexOf('changed')).every((one) => !/warning|brief/.test(one)); }", other,
    ), "the danger comes before the mark, and the mark before what is to be done"  # fmt: skip
    expect(page.locator("#part_changed")).to_contain_text("This device followed revision 2; this is revision 3.")
    for button in page.locator(".changed button, .changed-summary button").all():
        box = button.bounding_box()
        assert box is not None
        assert min(box["height"], box["width"]) >= TOUCH
    for scheme in SCHEMES:
        page.emulate_media(color_scheme=scheme)
        assert violations(page, axe) == [], scheme

    page.get_by_role("button", name="I have seen it: step").first.press("Enter")
    assert page.evaluate("document.activeElement.closest('article').id") == one
    page.reload()
    assert marked(page) == [other]
    assert kept(page) == {"revision": 2, "seen": {one: 3}}
    page.get_by_role("button", name="I have seen it: step").click()
    expect(page.locator("#part_changed")).to_be_hidden()
    page.reload()
    assert (marked(page), kept(page)) == ([], {"revision": 3, "seen": {}})


def test_all_may_be_seen_at_once_and_a_ticked_step_was_seen(after: Watched) -> None:
    page = after.open(PATH)
    keep(page, '{"revision": 2}')
    page.reload()
    page.locator(f"#{REVISED[0]} [data-tick]").click()
    assert marked(page) == [REVISED[1]]
    page.get_by_role("button", name="I have seen them all").click()
    assert (marked(page), kept(page)) == ([], {"revision": 3, "seen": {}})


def test_several_revisions_are_told_together_and_who_reads_only_may_say_so(after: Watched) -> None:
    page = after.open(PATH)
    expect(page.locator(".known")).to_contain_text("has not followed this procedure yet")
    page.get_by_role("button", name="I know revision 3").click()
    assert kept(page) == {"revision": 3, "seen": {}}
    keep(page, '{"revision": 1, "seen": {"clean-edge": 3}}')
    page.reload()
    assert marked(page) == ["prime-edge", "air-car"]
    expect(page.locator("#air-car .changed")).to_contain_text("Changed in revision 2")


STRANGE = [
    "", "x", "[]", "7", '{"revision": "2"}', '{"revision": -1}', '{"revision": 2, "seen": 7}',
    '{"revision": 2, "seen": {"clean-edge": "3", "__proto__": 9}}',
]
"""What another hand may have put into the store."""


def test_what_is_kept_is_never_trusted(after: Watched) -> None:
    page = after.open(PATH)
    for text in STRANGE:
        keep(page, text)
        page.reload()
        assert marked(page) == (sorted(REVISED) if '"revision": 2' in text else [])


def test_a_refused_store_marks_nothing_and_breaks_nothing(after: Watched) -> None:
    page = after.blank()
    page.add_init_script("Object.defineProperty(window, 'localStorage', { get() { throw new Error('refused'); } })")
    page.goto(after.url(PATH))
    page.get_by_role("button", name="I know revision 3").click()
    expect(page.locator(".known")).to_contain_text("This device knows revision 3")


def test_a_job_marks_changed_steps_and_following_it_to_its_end_counts(after: Watched, axe: str) -> None:
    page = after.open("jobs.html#example=dented-cover")
    keep(page, '{"revision": 2}')
    page.locator(".job-views a").filter(has_text="Steps").first.click()
    expect(page.locator("#job_next")).to_be_visible()
    summary = page.locator("details.job-step", has_text="Lay the film on every bare face").first
    day = page.locator("details.job-day").filter(has=summary)
    if day.get_attribute("open") is None:
        day.locator("> summary").click()
    summary.locator("> summary").click()
    mark = summary.locator(".changed")
    expect(mark).to_contain_text("Changed in revision 3")
    expect(mark).to_contain_text("The prime-edge is done in another way.")
    assert violations(page, axe) == []
    mark.get_by_role("button").click()
    expect(summary.locator(".changed")).to_have_count(0)
    assert kept(page) == {"revision": 2, "seen": {"prime-edge": 3}}
    page.evaluate("""key => { const job = { done: {} };
        const row = { id: `weld-cover@left#${key}`, also: [], step: {} };
        seambook.jobTicks.tick(job, row, { at: "2026-03-02T12:00", by: "Ada", minutes: 3 }); }""", LAST)
    assert kept(page) == {"revision": 3, "seen": {}}


def test_a_job_that_holds_what_is_not_issued_says_so_on_the_screen_and_on_its_sheets(after: Watched) -> None:
    page = after.open("jobs.html#example=dented-cover", DESK)
    expect(page.locator("#job_called")).to_be_visible()
    assert page.locator(".job-standing").count() == 0
    page.evaluate("""() => { const one = seambook.jobBook.procedures.find(({ id }) => id === "weld-cover");
        one.status = "withdrawn";
        const banner = "Withdrawn: do not work from this page.";
        Object.assign(seambook.jobProcedures["weld-cover"], { status: "withdrawn", banner }); }""")
    page.locator(".job-views a").filter(has_text="Steps").first.click()
    expect(page.locator(".job-standing")).to_contain_text("Weld the cover on")
    expect(page.locator(".job-now .banner")).to_have_text("Withdrawn: do not work from this page.")
    head = page.evaluate("getComputedStyle(document.documentElement).getPropertyValue('--job-car')")
    assert "Not issued: Weld the cover on (withdrawn)" in head


def test_what_is_not_issued_is_told_wherever_a_reader_lands_and_on_every_sheet(after: Watched, tmp_path: Path) -> None:
    for id_, said in (("look-again", "Draft, not issued"), ("look-by-eye", "Withdrawn: do not work")):
        page = after.open(f"procedures/{id_}.html#look")
        banner = page.locator(".banner.standing")
        expect(banner).to_be_in_viewport()
        step = page.locator("#look .do")
        expect(step).to_be_in_viewport()
        page.evaluate("window.scrollTo(0, document.body.scrollHeight)")
        expect(banner).to_be_in_viewport()
        pdf = tmp_path / f"{id_}.pdf"
        page.pdf(path=pdf, prefer_css_page_size=True)
        sheets = pages_of(pdf)
        assert len(sheets) > 1
        assert [said in sheet for sheet in sheets] == [True] * len(sheets)


def test_the_whole_book_on_paper_tells_it_at_every_step(after: Watched, tmp_path: Path) -> None:
    page = after.open("print.html", DESK)
    pdf = tmp_path / "whole.pdf"
    page.pdf(path=pdf, prefer_css_page_size=True)
    run = subprocess.run(("pdftotext", "-raw", str(pdf), "-"), capture_output=True, check=True)
    text = " ".join(run.stdout.decode("utf-8").split())
    assert text.count("not to be worked from") == 2, "each of the two steps that are not, and no other"
    page.emulate_media(media="print")
    says = page.evaluate("""() => Object.fromEntries([...document.querySelectorAll(".of-procedure")].map((one) =>
        [one.id, getComputedStyle(one.querySelector(".step > a"), "::after").content]))""")
    told = '"not to be worked from"'
    behind = {"procedure--look-again", "procedure--look-by-eye"}
    assert {id_ for id_, said in says.items() if said == told} == behind
    assert set(says) == {*behind, "procedure--weld-cover"}


def test_the_search_shows_what_is_not_issued_last_with_its_word(after: Watched) -> None:
    page = after.open("index.html", PHONE)
    page.locator("#page_search-words").fill("look at the hatch again")
    items = page.locator("#page_search-found li")
    expect(items.last).to_contain_text("Procedure, ")
    texts = items.all_inner_texts()
    behind = [at for at, text in enumerate(texts) if "not issued" in text or "withdrawn" in text]
    assert behind == list(range(len(texts) - len(behind), len(texts)))
    assert "Look at the hatch again" in texts[behind[0]]


def test_overdue_reviews_are_told_by_the_devices_clock(after: Watched) -> None:
    for clock, late in (("2027-03-01T12:00:00+13:00", 0), ("2027-03-02T01:00:00+13:00", 1)):
        page = after.blank()
        page.clock.set_fixed_time(clock)
        page.goto(after.url("due.html"))
        assert page.locator(".overdue").count() == late
        assert page.locator(".banner").all_inner_texts() == ["1 of 1 is overdue."] * late
