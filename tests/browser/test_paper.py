"""Every kind of page on paper: what each sheet says of itself, its code, its boxes; and nothing is parted badly."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

import pytest
import yaml
from playwright.sync_api import Page

from tests.browser.conftest import BASE
from tests.browser.on_paper import SIZES, Sheet, codes, pictures, printed
from tests.browser.watched import DESK, PHONE, Watched
from tests.site.building import CONTENT
from tests.sweeps import share

pytestmark = pytest.mark.slow
PROCEDURE = "procedures/renew-rocker-outer.html"
RECORD = yaml.load((CONTENT / "procedures/renew-rocker-outer.yaml").read_text("utf-8"), yaml.CSafeLoader)
KINDS = (
    PROCEDURE, "seams/rocker-lower.html", "lessons/first-freed-flange.html", "panels/rocker-outer.html",
    "calculators/dew-point.html", "pages/questions.html",
)  # fmt: skip
CODED = (
    "procedures/weld-cover.html", "seams/cover-edge.html", "lessons/first-cover.html", "panels/cover.html",
    "calculators/holes.html", "strips/cover-edge_plug.html",
)  # fmt: skip
JOB = "jobs.html#example=dented-cover"
EDGE = 5.0
"""Nothing is nearer to the edge of a sheet than a printer can print, in mm."""
NOT_KEPT = 0.2
BESIDE = 31.0
"""What stands further left than this, in mm, is a step's number or its box."""
NOON = "2026-11-27T01:00:00Z"


def squeezed(text: str) -> str:
    return re.sub(r"\s", "", text)


def tokens(text: str) -> Counter[str]:
    """Words without their order, which a reader of PDF loses where things stand side by side."""
    return Counter(re.findall(r"\w+", text))


def each_sheet_says(sheets: list[Sheet], *told: str) -> None:
    """Every sheet has its number, the day, where the current revision is, and what else is told."""
    for at, sheet in enumerate(sheets, 1):
        said = squeezed(sheet.text)
        for part in (*told, f"Printed 27 Nov 2026 · {at} of {len(sheets)}", "Check the current revision:"):
            assert squeezed(part) in said, (at, part, sheet.text)


def within_its_edges(sheet: Sheet) -> list[str]:
    """Words that stand on the edge of the sheet or over it."""
    return [word.text for word in sheet.words if word.left < EDGE or word.right > sheet.width - EDGE
            or word.top < EDGE - NOT_KEPT or word.foot > sheet.height - EDGE + NOT_KEPT]  # fmt: skip


def opened(book: Watched, path: str, paper: str) -> Page:
    """A page on the paper that the device was switched to."""
    page = book.blank(DESK)
    page.clock.set_fixed_time(NOON)
    page.goto(book.url(path))
    button = page.locator("#page_paper")
    if (button.get_attribute("aria-pressed") == "true") != (paper == "Letter"):
        button.click()
    return page


@pytest.mark.sweep(5)
@pytest.mark.parametrize("paper", SIZES)
@pytest.mark.parametrize("path", KINDS)
def test_every_sheet_says_what_it_is_of(book: Watched, tmp_path: Path, path: str, paper: str) -> None:
    page = opened(book, path, paper)
    title = page.locator("h1").inner_text()
    edition = page.locator(".page-edition").inner_text().rpartition(" ")[2]
    sheets = printed(page, tmp_path / "page.pdf")
    id_ = path.rpartition("/")[2].removesuffix(".html")
    own = f"Revision {RECORD['revision']['number']}, {RECORD['revision']['date']}, issued"
    if path != PROCEDURE:
        own = f"edition {edition}"
    each_sheet_says(sheets, title, f"{id_}, {own}", path)
    for sheet in sheets:
        assert (sheet.width, sheet.height) == pytest.approx(SIZES[paper], abs=0.5)
        assert within_its_edges(sheet) == []
    assert not page.locator(".paper-address").count(), "a book that is on no server has no code"


def test_a_step_keeps_its_number_its_dangers_and_what_to_do_on_one_sheet(book: Watched, tmp_path: Path) -> None:
    steps = [step for phase in RECORD["phases"] for step in phase["steps"]]
    for paper in SIZES:
        page = opened(book, PROCEDURE, paper)
        page.emulate_media(media="print")
        dangers = page.locator("article.step").evaluate_all(
            "all => all.map((one) => [...one.querySelectorAll('.message, .brief')].map((said) => said.innerText))"
        )
        sheets = printed(page, tmp_path / "steps.pdf")
        words = [tokens(sheet.text) for sheet in sheets]
        boxes = sum(word.text == "initials" and word.left < BESIDE for sheet in sheets for word in sheet.words)
        found = 0
        for number, (step, said) in enumerate(zip(steps, dangers, strict=True), 1):
            own = [at for at, sheet in enumerate(sheets) if has_number(sheet, number)]
            assert len(own) == 1, (paper, number, "its number stands on one sheet")
            do = re.sub(r"\[([^\]]*)\]\([^)]*\)", r"\1", step["do"])
            for part in (do, *said):
                assert not tokens(part) - words[own[0]], (paper, number, part)
            found += len(said)
        assert found > 40, "the procedure has dangers to keep together"
        # A box for a tick and initials beside every step.
        assert boxes == len(steps)


def has_number(sheet: Sheet, number: int) -> bool:
    """Whether a step's large number stands in the margin of the steps."""
    return any(word.text == str(number) and word.left < BESIDE and word.foot - word.top > 7 for word in sheet.words)


def test_no_heading_stands_alone_at_the_foot_of_a_sheet(book: Watched, tmp_path: Path) -> None:
    page = opened(book, PROCEDURE, "Letter")
    phases = page.locator(".phase > h3 > span:first-child").all_inner_texts()
    sheets = printed(page, tmp_path / "phases.pdf")
    assert len(phases) > 3
    for phase in phases:
        own = [sheet for sheet in sheets if squeezed(phase) in squeezed(sheet.text)]
        words = [word for word in own[0].words if word.foot < own[0].height - 14]
        last = max(word.foot for word in words)
        head = [word for word in words if word.text == phase.split()[-1]]
        assert any(last - word.foot > 15 for word in head), phase


def test_a_measure_has_a_box_to_write_in(book: Watched) -> None:
    page = book.open(PROCEDURE, DESK)
    page.emulate_media(media="print")
    boxes = page.locator(".measures dd").evaluate_all("""all => all.map((one) => {
      const box = getComputedStyle(one, "::after");
      return [box.content, parseFloat(box.width), parseFloat(box.height), parseFloat(box.borderTopWidth)];
    })""")
    assert len(boxes) > 10
    assert all(content == '""' and width > 100 and height > 28 and edge > 0 for content, width, height, edge in boxes)
    initials = page.locator(".hold .initials").all()
    assert initials
    assert all(one.is_visible() for one in initials)


@pytest.mark.sweep(2)
@pytest.mark.parametrize("path", CODED)
def test_the_first_sheet_carries_the_way_to_its_page(served: Watched, tmp_path: Path, path: str) -> None:
    page = opened(served, path, "Letter")
    assert not page.locator(".paper-address").first.is_visible(), "on the screen one is there already"
    pdf = tmp_path / "coded.pdf"
    sheets = printed(page, pdf, "Letter")
    each_sheet_says(sheets, f"{BASE}/{path}")
    assert codes(pictures(pdf, 300, 1, 1)[0]) == [f"{BASE}/{path}"]


def test_a_job_on_paper_says_its_number_and_leads_back_to_it(served: Watched, tmp_path: Path) -> None:
    page = served.blank(DESK)
    page.clock.set_fixed_time(NOON)
    page.goto(served.url(JOB))
    page.locator("#job_view-plan").wait_for()
    way = f"{BASE}/jobs.html#job="
    for size in share(list(SIZES), len(SIZES)):
        for view in ("plan", "steps", "take-off", "as-built", "print"):
            page.locator(f"#job_view-{view}").click()
            page.locator(f".job-view-{view} .only-paper").first.wait_for(state="attached")
            pdf = tmp_path / f"{view}-{size}.pdf"
            sheets = printed(page, pdf, size)
            upright = [sheet for sheet in sheets if sheet.width < sheet.height]
            assert all("Job " in sheet.text for sheet in upright)
            each_sheet_says(sheets)
            assert (sheets[0].width, sheets[0].height) == pytest.approx(SIZES[size], abs=0.5)
            found = codes(pictures(pdf, 300, 1, 1)[0])
            assert [one.startswith(way) for one in found] == [True], (view, size, found)
            assert [within_its_edges(sheet) for sheet in sheets] == [[]] * len(sheets), (view, size)
        page.locator("#job_view-customer").click()
        page.locator(".job-view-customer > *").first.wait_for()
        sheets = printed(page, tmp_path / "customer.pdf", size)
        assert "Check the current revision" not in sheets[0].text, "a customer has no revision to check"
        assert codes(pictures(tmp_path / "customer.pdf", 200, 1, 1)[0]) == []


def test_the_paper_is_the_shops_until_the_device_says_another(served: Watched, tmp_path: Path) -> None:
    page = served.open("pages/reading.html", PHONE)
    button = page.locator("#page_paper")
    assert button.get_attribute("aria-pressed") == "true"
    assert printed(page, tmp_path / "page.pdf")[0].width == pytest.approx(SIZES["Letter"][0], abs=0.5)
    box = button.bounding_box()
    assert box is not None
    assert box["height"] >= 60
    button.focus()
    page.keyboard.press("Enter")
    assert button.get_attribute("aria-pressed") == "false"
    page.goto(served.url("lessons/first-cover.html"))
    assert page.locator("#page_paper").get_attribute("aria-pressed") == "false", "kept for the whole book"
    assert printed(page, tmp_path / "page.pdf")[0].width == pytest.approx(SIZES["A4"][0], abs=0.5)


def test_without_scripts_a_sheet_has_its_foot_all_the_same(served: Watched, tmp_path: Path) -> None:
    page = served.open("procedures/weld-cover.html", DESK, scripts=False)
    pdf = tmp_path / "plain.pdf"
    sheets = printed(page, pdf)
    for at, sheet in enumerate(sheets, 1):
        said = squeezed(sheet.text)
        assert squeezed(f"Check the current revision: {BASE}/procedures/weld-cover.html") in said
        assert f"{at}of{len(sheets)}" in said
    assert codes(pictures(pdf, 200, 1, 1)[0]) == [f"{BASE}/procedures/weld-cover.html"]


def test_ways_are_written_out_where_paper_cannot_be_pressed(book: Watched, tmp_path: Path) -> None:
    page = opened(book, "pages/questions.html", "A4")
    said = page.locator(".prose a[data-page]")
    ways = said.evaluate_all("all => all.map((one) => [one.textContent, one.dataset.page])")
    assert len(ways) > 10
    text = squeezed(" ".join(sheet.text for sheet in printed(page, tmp_path / "ways.pdf")))
    for called, title in ways:
        assert called.casefold() != title.casefold(), "what is called by its title is not said twice"
        assert squeezed(f"{called} ({title})") in text, (called, title)
