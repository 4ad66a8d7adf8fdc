"""Pages of points: typed in, pasted, loaded and saved, worked out as one types, drawn, and read in both units."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.watched import DESK, NARROW, PHONE, Watched
from tests.site.building import seambook_here

PATH, OTHER = "calculators/datum-fit.html", "calculators/side-compare.html"
HEAD = "name;x;y;z;x_measured;y_measured;z_measured;use"
SET = f"""{HEAD}
A;14;-5;7;0;0;0;yes
B;995,458;166,410;59,336;1000;0;0;yes
C;855,185;955,523;89,217;1000;800;0;yes
D;-130,273;782,113;34,881;0;800;0;yes
E;419,958;464,226;346,515;500;400;300;yes
F;79,135;711,888;189,566;200;700;150;yes
"""
DEVIATIONS = [1.798301, 2.300794, 1.383707, 2.184030, 1.994307, 1.589664]
"""Worked out with SciPy; see tests/outside/point_fits.json."""


@pytest.fixture
def page(kept: Watched) -> Iterator[Page]:
    opened = kept.again(PATH)
    yield opened
    assert kept.troubles == []


def paste(page: Page, text: str) -> None:
    if not page.locator("#points_text").is_visible():
        page.locator("#points_details summary").click()
    page.locator("#points_text").fill(text)


def column(page: Page, at: int) -> list[str]:
    return page.locator(f"#points_rows tr td:nth-child({at})").all_inner_texts()


def numbers(page: Page) -> list[float]:
    return [float(text) for text in column(page, 5)]


def cell(page: Page, row: int, part: str, axis: int = 0) -> str:
    return page.locator(f".point >> nth={row}").locator(f"[data-cell={part}]").nth(axis).input_value()


def test_a_pasted_table_is_worked_out(page: Page) -> None:
    paste(page, SET)
    assert numbers(page) == pytest.approx(DEVIATIONS, abs=0.0501)
    expect(page.locator("#answer_rms")).to_have_text("1.90\u00a0mm")
    expect(page.locator("#answer_about_z")).to_have_text("10.01°")
    expect(page.locator(".point")).to_have_count(6)
    assert cell(page, 1, "stated") == "995.458"
    expect(page.locator("#points_text-fault")).to_have_text("6 points are taken over, bare numbers in mm.")


def test_the_page_and_the_command_say_the_same(page: Page, tmp_path: Path) -> None:
    table = page.locator("#points_text").input_value()
    (tmp_path / "points.csv").write_text(table, "utf-8")
    said = seambook_here("calc", "datum-fit", "--csv", "points.csv", "tolerance=3 mm", "--json", folder=tmp_path)
    answer = json.loads(said.out)
    assert numbers(page) == pytest.approx([row["length"] for row in answer["points"]], abs=0.0501)
    assert column(page, 6) == [row["verdict"] for row in answer["points"]]
    assert column(page, 2) == [f"{row['x']:.1f}".replace("-0.0", "0.0") for row in answer["points"]]
    for name in ("rms", "largest", "shift_x", "about_y"):
        shown = float(page.locator(f"#answer_{name}").inner_text().rstrip("°").partition("\u00a0")[0])
        assert shown == pytest.approx(answer["outputs"][name]["value"], abs=0.0501), name


def test_a_number_is_typed_and_a_mark_taken_away(page: Page) -> None:
    paste(page, SET.replace("1000;800;0;yes", "1000;800;-15;yes"))
    first = page.locator(".point").nth(2)
    page.locator("#ask_tolerance").fill("8")
    assert "Doubtful as a sound point" in column(page, 6)[2]
    assert "Look at this one first." in column(page, 6)[2]
    expect(page.locator("#answer_cautions .caution-stop")).to_have_count(1)
    first.locator("[data-cell=sound]").uncheck()
    expect(page.locator("#answer_cautions .caution-stop")).to_have_count(0)
    expect(page.locator("#answer_sound")).to_have_text("5")
    assert column(page, 6)[2] == "Beyond tolerance"
    first.locator("[data-cell=measured]").nth(2).fill("0")
    first.locator("[data-cell=sound]").check()
    assert numbers(page) == pytest.approx(DEVIATIONS, abs=0.0501)


def test_the_tolerance_is_a_setting(page: Page) -> None:
    paste(page, SET)
    expect(page.locator("#answer_beyond")).to_have_text("0")
    page.locator("#ask_tolerance").fill("2")
    expect(page.locator("#answer_beyond")).to_have_text("2")
    assert [text.startswith("Beyond") for text in column(page, 6)] == [False, True, False, True, False, False]


def test_points_are_added_and_taken_out(page: Page) -> None:
    paste(page, SET)
    page.locator("#points_add").click()
    expect(page.locator(".point")).to_have_count(7)
    expect(page.locator(".point").nth(6).locator("[data-cell=name]")).to_be_focused()
    assert len(numbers(page)) == 6, "an empty card counts for nothing"
    page.keyboard.type("G")
    expect(page.locator("#points_fault")).to_have_text("One point is left out; it says why.")
    for axis, value in enumerate(("100", "200", "300")):
        page.locator(".point").nth(6).locator("[data-cell=stated]").nth(axis).fill(value)
        page.locator(".point").nth(6).locator("[data-cell=measured]").nth(axis).fill(value)
    expect(page.locator("#points_fault")).to_be_hidden()
    assert len(numbers(page)) == 7
    page.get_by_role("button", name="Take out G").click()
    expect(page.locator(".point")).to_have_count(6)
    assert numbers(page) == pytest.approx(DEVIATIONS, abs=0.0501)


def test_what_cannot_be_read_is_left_out_and_said(page: Page) -> None:
    paste(page, SET)
    card = page.locator(".point").nth(4)
    card.locator("[data-cell=measured]").nth(1).fill("4oo")
    fault = card.locator(".fault")
    expect(fault).to_contain_text('Measured, Width y: "4oo" cannot be used')
    expect(card.locator("[data-cell=measured]").nth(1)).to_have_attribute("aria-invalid", "true")
    assert len(numbers(page)) == 5
    card.locator("[data-cell=measured]").nth(1).fill("400")
    expect(fault).to_be_hidden()
    assert len(numbers(page)) == 6


def test_nothing_is_fitted_on_fewer_than_three(page: Page) -> None:
    page.locator("#points_clear").click()
    expect(page.locator(".point")).to_have_count(1)
    expect(page.locator("#answer_rms")).to_contain_text("no answer")
    expect(page.locator("#answer_rms")).to_contain_text("Fewer than three points are marked as sound")
    assert column(page, 1) == []
    expect(page.locator("#points_drawing")).to_be_hidden()


def test_a_table_with_mistakes_changes_nothing(page: Page) -> None:
    before = numbers(page)
    paste(page, f"{HEAD}\nA;1;2;3;4;5;6;yes\nA;l;2;3;4;5;6;yes\n")
    faults = page.locator("#points_text-fault li").all_inner_texts()
    assert [re.sub(r"^× ?", "", text).partition(":")[0] for text in faults] == [
        "line 3, column name", "line 3, column x", "The points above are as they were.",
    ]  # fmt: skip
    assert numbers(page) == before


def test_a_file_is_loaded_and_saved(page: Page, tmp_path: Path) -> None:
    page.locator("#points_file").set_input_files({"name": "a.csv", "mimeType": "text/csv", "buffer": SET.encode()})
    expect(page.locator("#points_text-fault")).to_contain_text("6 points are taken over")
    with page.expect_download() as waiting:
        page.locator("#points_save").click()
    assert waiting.value.suggested_filename == "points.csv"
    waiting.value.save_as(tmp_path / "points.csv")
    answer = json.loads(seambook_here("calc", "datum-fit", "--csv", "points.csv", "--json", folder=tmp_path).out)
    assert [row["length"] for row in answer["points"]] == pytest.approx(DEVIATIONS, abs=1e-6)


def test_a_file_of_another_encoding_is_refused(page: Page) -> None:
    before = numbers(page)
    bad = SET.replace("A;", "Säule;").encode("latin-1")
    page.locator("#points_file").set_input_files({"name": "a.csv", "mimeType": "text/csv", "buffer": bad})
    expect(page.locator("#points_text-fault")).to_contain_text("a.csv is not UTF-8; save the table as UTF-8.")
    assert numbers(page) == before


def test_inches_and_back(page: Page) -> None:
    paste(page, SET)
    page.locator("#page_units").click()
    table = page.locator("#points_text").input_value()
    assert table.startswith("name, x (mm), y (mm), z (mm), ")
    assert numbers(page) == pytest.approx([value / 25.4 for value in DEVIATIONS], abs=0.000501)
    assert float(cell(page, 1, "stated")) == pytest.approx(995.458 / 25.4, abs=0.000501)
    expect(page.locator("#points_unit")).to_have_text("in")
    assert page.locator("#points_rows").inner_text().count("mm") == 0
    # What is typed now is read in inches.
    page.locator(".point").nth(0).locator("[data-cell=measured]").nth(2).fill("1")
    page.locator("#page_units").click()
    assert cell(page, 0, "measured", 2) == "25.4"
    page.locator(".point").nth(0).locator("[data-cell=measured]").nth(2).fill("0")
    assert page.locator("#points_text").input_value() == table
    assert numbers(page) == pytest.approx(DEVIATIONS, abs=0.0501)


def test_the_drawing(page: Page) -> None:
    paste(page, SET.replace("300;yes", "300;no").replace("D;-130,273", "D;-180,273"))
    views = page.locator("#points_drawing svg")
    expect(views).to_have_count(2)
    for at in range(2):
        assert views.nth(at).locator("circle").count() == 5
        assert views.nth(at).locator("rect").count() == 1
        assert views.nth(at).get_attribute("aria-label")
    words = page.locator("#points_drawing .note").inner_text()
    factor = int(re.findall(r"drawn (\d+) times", words)[0])
    assert factor >= 1
    written = " ".join(views.nth(0).locator("text").all_text_contents())
    x, y = (float(column(page, at)[3]) for at in (2, 3))
    length = re.search(r"4: ([0-9.]+)", written)
    assert length is not None
    assert float(length[1]) == pytest.approx((x**2 + y**2) ** 0.5, abs=0.1)


def test_the_other_side_is_mirrored(kept: Watched) -> None:
    page = kept.again(OTHER)
    paste(page, """name,x,y,z,x_damaged,y_damaged,z_damaged,use
A,0,500,200,0,-500,200,yes
B,3000,520,300,3000,-520,300,yes
C,1500,700,900,1500,-700,900,yes
L,611,452,318,612,-455,310,no
""")
    assert numbers(page) == pytest.approx([0, 0, 0, 8.602], abs=0.0501)
    assert [column(page, at)[3] for at in (2, 3, 4)] == ["1.0", "-3.0", "-8.0"]
    expect(page.locator("#answer_cautions")).to_contain_text("The sound side was mirrored at the centre plane")
    assert kept.troubles == []


@pytest.mark.parametrize("path", [PATH, OTHER])
def test_without_javascript(book: Watched, path: str) -> None:
    page = book.open(path, scripts=False)
    names = page.locator(".point [data-cell=name]").evaluate_all("all => all.map((one) => one.value)")
    assert len(names) >= 5
    assert [text.partition(" ")[2].partition(" Sound")[0] for text in column(page, 1)] == names
    assert all(verdict.startswith(("Within", "Beyond")) for verdict in column(page, 6))
    assert any(verdict.startswith("Beyond") for verdict in column(page, 6))
    expect(page.locator("#answer_beyond")).to_have_text("2")
    expect(page.locator("#points_tools")).to_be_hidden()
    expect(page.locator(".point [data-cell=name]").first).to_be_disabled()


@pytest.mark.parametrize("width", [NARROW, *(pytest.param(one, marks=pytest.mark.soak) for one in (PHONE, DESK))])
@pytest.mark.parametrize("path", [PATH, OTHER])
def test_the_page_never_scrolls_sideways(book: Watched, path: str, width: int) -> None:
    page = book.open(path, width)
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    small = page.locator(".points input:visible, .points button:visible, .points a.control:visible").evaluate_all(
        "all => all.filter((one) => one.type !== 'checkbox' && one.type !== 'file'"
        " && one.getBoundingClientRect().height < 59.5).map((one) => one.outerHTML)"
    )
    assert small == []
    clipped = page.locator(".point [data-cell=stated], .point [data-cell=measured]").evaluate_all(
        "all => all.filter((one) => one.scrollWidth > one.clientWidth).map((one) => one.value)"
    )
    assert clipped == []
