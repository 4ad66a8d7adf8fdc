"""Layouts and strips on the page are those that Python draws, mark by mark, and follow what is measured on the car."""

from __future__ import annotations

import json
import re
import xml.etree.ElementTree as ET
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from builder.model.laid import LaidSegment, WeldLayout
from builder.model.said import Said
from builder.model.work import WeldRow
from builder.render.drawings import layout, strip
from builder.view.layout import row_data
from builder.view.lengths import said_length
from tests.browser.gallery import UNITS, layout_data, layouts, row, strip_data, strips
from tests.browser.test_plots import NUMBER, marks_of, unlike
from tests.browser.watched import DESK, PHONE, Watched
from tests.render.test_section import SVG, elements

SEAM, STRIP = "seams/rocker-lower.html", "strips/rocker-lower_resistance-spot.html"
READ = """(root) => [...root.children].filter((mark) => !['title', 'desc', 'defs'].includes(mark.tagName))
  .map((mark) => [mark.tagName, Object.fromEntries([...mark.attributes].map((one) => [one.name, one.value])),
    mark.textContent])"""
RESPACED = """(detail) => document.dispatchEvent(new CustomEvent('seambook:respaced', { detail }))"""


def in_python(svg: str, system: str) -> list[Any]:
    """The marks of a drawing as the page has them in one system of units."""
    found = marks_of(elements(svg))
    marks = [[tag.removeprefix(SVG), attributes, text] for tag, attributes, text in found]
    marks = [mark for mark in marks if mark[0] not in ("title", "desc", "defs")]
    if system == "us":
        for mark in marks:
            if "data-q" in mark[1]:
                mark[1]["data-q"], mark[2] = mark[2], mark[1]["data-q"]
    return marks


def from_script(marks: list[dict[str, Any]]) -> list[Any]:
    return [[mark["tag"], mark["attributes"], mark.get("text", "")] for mark in marks]


def assert_alike(found: list[Any], wanted: list[Any], name: str) -> None:
    assert len(found) == len(wanted), name
    assert [pair for pair in zip(found, wanted, strict=True) if unlike(*pair)] == [], name


def opened(book: Watched, path: str, system: str) -> Page:
    page = book.open(path, DESK)
    if system == "us":
        page.locator("#page_units").click()
    return page


@pytest.mark.sweep(2)
@pytest.mark.parametrize("system", ["metric", "us"])
def test_every_layout_is_drawn_alike(book: Watched, system: str) -> None:
    page = opened(book, SEAM, system)
    for name, one in layouts():
        found = page.evaluate("(data) => seambook.layout.draw(data)", layout_data(one))
        svg = layout.draw(one, "Title", Said("Words"))
        assert_alike(from_script(found["marks"]), in_python(svg, system), name)
        assert abs(found["height"] - layout.marks_of(one)[1]) < 0.01


@pytest.mark.sweep(2)
@pytest.mark.parametrize("system", ["metric", "us"])
def test_every_strip_is_drawn_alike_to_a_hundredth_of_a_millimetre(book: Watched, system: str) -> None:
    page = opened(book, STRIP, system)
    for name, one in strips():
        found = page.evaluate("(data) => seambook.strip.sheets(data)", strip_data(one))
        wanted = strip.sheets(one)
        assert len(found) == len(wanted), name
        for sheet, svg in zip(found, wanted, strict=True):
            marks, expected = from_script(sheet["marks"]), in_python(svg, system)
            assert_alike(marks, expected, name)
            for (_, own, _), (_, other, _) in zip(marks, expected, strict=True):
                pairs = zip(NUMBER.findall(own.get("d", "")), NUMBER.findall(other.get("d", "")), strict=True)
                assert all(abs(float(a) - float(b)) <= 0.0101 for a, b in pairs), name
            title = next(elements(svg).iter(f"{SVG}title"))
            assert sheet["title"] == title.text


def test_what_is_compared_reaches_every_sort_of_mark() -> None:
    # Else the tests above would compare less than they say.
    drawn = " ".join(layout.draw(one, "", Said("")) for _, one in layouts())
    for mark in ("solid weld", "hole", "tick-fine", 'class="tick"', "band unknown", "factory"):
        assert mark in drawn, mark
    assert "made, as far as there is room" in " ".join(re.sub("<[^>]*>", " ", drawn).split())
    printed = " ".join(sheet for _, one in strips() for sheet in strip.sheets(one))
    for mark in ("Sheet 3 of ", ">A1<", "Front end", "Rear end", "stopped by a limit", "upside down", "Cut the strip",
                 "…"):  # fmt: skip
        assert mark in printed, mark


def shown(page: Page, method: str) -> tuple[list[Any], list[str], str]:
    section = page.locator(f"#layout-{method}_figure")
    marks = section.locator("svg").evaluate(READ)
    cells = section.locator("tbody tr").nth(0).locator("td").evaluate_all("(all) => all.map((one) => one.textContent)")
    return marks, cells, section.locator("desc").text_content() or ""


def data_of(page: Page, method: str) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(page.locator(f"#layout-{method}_figure").get_attribute("data-layout") or "")
    return found


def told(segment: dict[str, Any], **changes: Any) -> LaidSegment:
    """A segment as the page's data has it, with what was measured."""
    given = {**segment, **changes}
    found, length = given["row"], given["length"]
    says = (said_length(UNITS, found.first), said_length(UNITS, found.spacing)) if found else ()
    return LaidSegment(given["label"], length, said_length(UNITS, length), given["factory"], found, given["why"], *says)


def test_a_measured_length_re_spaces_the_layout_its_numbers_and_its_words(book: Watched) -> None:
    page = book.open(SEAM, PHONE)
    method = "resistance-spot"
    before, others = shown(page, method), shown(page, "mag-plug")
    data = data_of(page, method)
    measured = row(1083.5, 38)
    page.evaluate(RESPACED, {"segment": 1, "method": method, "row": row_data(measured)})
    marks, cells, words = shown(page, method)
    rest = data["segments"][1]
    rest["row"] = WeldRow(**{**rest["row"], "order": tuple(rest["row"]["order"])})
    segments = (told(data["segments"][0], length=1083.5, row=measured), told(rest))
    wanted = layout.draw(WeldLayout(data["id"], "spot", segments), "", Said(""))
    assert_alike(marks, in_python(wanted, "metric"), "re-spaced")
    assert marks != before[0]
    spacing = f"{(1083.5 - 20) / 37:.1f}\u00a0mm"
    assert cells[1:7] == ["1083.5\u00a0mm", "38", "28", "10\u00a0mm", spacing, "10\u00a0mm"]
    assert cells[7] == ", ".join(map(str, measured.order))
    assert f"Front and middle: 1083.5\u00a0mm, 38 welds, the first at 10\u00a0mm, {spacing} apart" in words
    assert shown(page, "mag-plug") == others, "the other method is left alone"
    page.evaluate(RESPACED, {"segment": 1, "method": method, "row": None})
    assert shown(page, method)[1][2] == "not planned"
    page.evaluate(RESPACED, {"segment": 1, "method": method, "row": row_data(measured), "isStopped": True})
    assert shown(page, method)[1][1:3] == ["1083.5\u00a0mm", "stopped by a limit"]
    page.evaluate(RESPACED, {"segment": 1, "method": method, "row": row_data(measured)})
    assert shown(page, method)[1][2] == "stopped by a limit", "unless somebody says otherwise"
    page.evaluate(RESPACED, {"segment": 1, "method": method, "row": row_data(measured), "isStopped": False})
    assert shown(page, method)[0] == marks


def test_the_strip_follows_the_link_that_the_measured_seam_gives(book: Watched) -> None:
    page = book.open(SEAM, DESK)
    page.evaluate(RESPACED, {"segment": 1, "method": "resistance-spot", "row": row_data(row(1083.5, 38))})
    page.locator("#layout-resistance-spot_figure .to-strip a").click()
    page.wait_for_url("**/strips/**")
    assert page.locator("#strip_measured").is_visible()
    assert page.locator("#strip_fault").is_hidden()
    said = " ".join(page.locator(".strip-sheet text").all_text_contents())
    assert "Front and middle 1083.5\u00a0mm, 38 welds" in said
    places = page.locator("#strip_places p").first.text_content() or ""
    last = 10 + 37 * (1083.5 - 20) / 37
    assert places.endswith(f", {last:.1f}".removesuffix(".0"))


NO_STRIP = ["", "1060", "1060~37~10~28.9,-360", "1060~37~10~28.9,360~x~10~28", "0~3~1~1,360",
            "1060~37~10~40,360", "1060~2000~0~0.1,360", "1060~3.5~10~20,360", "%E0%A4%A"]
"""Rows of an address that no strip can be drawn of."""


def test_an_address_that_is_no_strip_is_told_and_draws_what_is_recorded(book: Watched) -> None:
    page = book.open(STRIP, PHONE)
    recorded, fault = page.locator(".strip-sheet").first.evaluate(READ), page.locator("#strip_fault")
    for rows in NO_STRIP:
        page.evaluate("() => { window.location.hash = ''; }")
        expect(fault).to_be_hidden()
        page.evaluate("(hash) => { window.location.hash = hash; }", f"rows={rows}")
        expect(fault).to_be_visible()
        assert page.locator("#strip_measured").is_hidden()
        assert page.locator(".strip-sheet").first.evaluate(READ) == recorded


def test_without_scripts_layout_and_strip_stand_and_read(book: Watched) -> None:
    page = book.open(SEAM, PHONE, scripts=False)
    assert page.locator("#layout-resistance-spot_figure svg text").count() > 8
    assert page.locator("#layout-resistance-spot_figure tbody tr").count() == 2
    page.goto(book.url(STRIP))
    assert page.locator(".strip-sheet").count() == 2
    assert page.locator("#strip_print").is_hidden()


def test_ids_of_a_page_are_unique(book: Watched) -> None:
    page = book.open(STRIP, DESK)
    for path in (SEAM, STRIP):
        page.goto(book.url(path))
        ids = page.evaluate("[...document.querySelectorAll('[id]')].map((one) => one.id)")
        assert len(ids) == len(set(ids)), path


def test_the_drawings_are_well_formed() -> None:
    for _, one in strips():
        for sheet in strip.sheets(one):
            assert isinstance(elements(sheet), ET.Element)
