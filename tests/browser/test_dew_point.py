"""The dew-point page computes as one types, takes numbers as people write them, and explains what it cannot use."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import unquote

import pytest
from playwright.sync_api import Page, expect

from tests.browser.watched import Watched
from tests.site.building import seambook_here
from tests.sweeps import share

PATH = "calculators/dew-point.html"


@pytest.fixture
def page(kept: Watched) -> Iterator[Page]:
    yield kept.again(PATH)
    assert kept.troubles == []


def type_in(page: Page, name: str, text: str) -> None:
    """Key by key, as a person does, in place of what stands there."""
    field = page.locator(f"#ask_{name}")
    field.click()
    page.keyboard.press("Control+A")
    page.keyboard.type(text)


def number(page: Page, name: str) -> float:
    return float(page.locator(f"#answer_{name}").inner_text().partition("\u00a0")[0].replace("−", "-"))


def test_it_computes_as_one_types_what_calc_computes(page: Page, tmp_path: Path) -> None:
    for air, humidity, surface in (("31", "78", "12.5"), ("-4", "35", "-1"), ("9.5", "100", "9")):
        for name, text in (("air", air), ("humidity", humidity), ("surface", surface)):
            type_in(page, name, text)
        words = (f"air={air} degC", f"humidity={humidity} percent", f"surface={surface} degC")
        answer = json.loads(seambook_here("calc", "dew-point", *words, "--json", folder=tmp_path).out)
        for name in ("dew_point", "margin", "least_surface"):
            assert number(page, name) == pytest.approx(answer["outputs"][name]["value"], abs=0.0501), name
        levels = [warning["level"] for warning in answer["warnings"]]
        shown = page.locator("#answer_cautions li").evaluate_all("all => all.map((one) => one.className)")
        assert shown == [f"caution-{level}" for level in levels]


def test_each_key_changes_the_answer(page: Page) -> None:
    type_in(page, "air", "")
    seen = []
    for key in "30":
        page.keyboard.type(key)
        seen.append(number(page, "dew_point"))
    # WMO-8 formula at 3 and at 30 degC, 60 percent: -4.0 and 21.4 (tests/outside/test_wmo_8.py proves the formula).
    assert seen == [pytest.approx(-4.0, abs=0.1), pytest.approx(21.4, abs=0.1)]


ALIKE = ["22.5", "22,5", "22 1/2", "45/2", "22.5 degC", "72.5 degF", " 22,50 ", "22.5\u00a0degC"]
"""Ways to write one temperature."""


def test_a_number_as_people_write_it(page: Page) -> None:
    for text in ALIKE:
        page.locator("#ask_air").fill("22.5")
        plain = page.locator("#answer_dew_point").inner_text()
        page.locator("#ask_air").fill("10")
        assert page.locator("#answer_dew_point").inner_text() != plain
        page.locator("#ask_air").fill(text)
        assert page.locator("#answer_dew_point").inner_text() == plain


BAD = [
    ("warm", "cannot be used"), ("61", "too large"), ("-20.5", "too small"), ("", "Nothing is written here"),
    ("20 mm", "not offered"), ("1e999", ""), ("20 20", ""), ("<b>20</b>", "cannot be used"),
]
"""What cannot be used, and what is said of it."""


def test_a_bad_entry_is_explained_beside_its_field(page: Page) -> None:
    field, fault = page.locator("#ask_air"), page.locator("#ask_air-fault")
    for text, said in BAD:
        assert fault.is_hidden()
        field.fill(text)
        assert fault.is_visible()
        assert said in fault.inner_text()
        assert fault.inner_text().endswith(".")
        assert field.get_attribute("aria-invalid") == "true"
        assert "ask_air-fault" in (field.get_attribute("aria-describedby") or "").split()
        # Right below the field it speaks of, and no old answer stands as if it held.
        under = fault.bounding_box()
        above = field.bounding_box()
        assert under is not None
        assert above is not None
        assert 0 <= under["y"] - (above["y"] + above["height"]) < 120
        assert page.locator("#answer_dew_point").inner_text() == "–"
        assert page.locator("#answer_cautions li").count() == 0
        assert page.locator("#ask_humidity-fault").is_hidden()
        field.fill("20")
        assert fault.is_hidden()
        assert field.get_attribute("aria-invalid") is None
        assert number(page, "dew_point") == pytest.approx(12.0, abs=0.1)


def test_what_is_worked_out_is_said_once_the_typing_stops(page: Page) -> None:
    type_in(page, "air", "25")
    said = page.locator("#answer_said")
    expect(said).to_contain_text(page.locator("#answer_dew_point").inner_text())
    assert said.get_attribute("aria-live") == "polite"
    page.locator("#ask_air").fill("warm")
    expect(said).to_have_text("An entry cannot be used.")


def test_a_link_carries_inputs(book: Watched, page: Page) -> None:
    page.goto("about:blank")
    page.goto(book.url(f"{PATH}#in=air:68~degF,humidity:60,surface:18"))
    assert [page.locator(f"#ask_air{part}").input_value() for part in ("", "-unit")] == ["68", "degF"]
    assert number(page, "dew_point") == pytest.approx(12.0, abs=0.1)
    # What is typed goes into the address, so that it can be sent on; opening that shows the same.
    type_in(page, "surface", "13,25 degC")
    kept, margin = page.evaluate("window.location.href"), page.locator("#answer_margin").inner_text()
    assert kept.endswith("#in=air:68~degF,humidity:60,surface:13%2C25~degC")
    page.goto("about:blank")
    page.goto(kept)
    assert [page.locator(f"#ask_surface{part}").input_value() for part in ("", "-unit")] == ["13,25", "degC"]
    assert page.locator("#answer_margin").inner_text() == margin


@pytest.mark.sweep(2)
@pytest.mark.parametrize("fragment", [
    "in=", "in=:", "in=air", "in=air:%E0%A4%A", "in=nothing:5", "in=__proto__:5,constructor:x", "in=air:<img src=x>",
    "answer_sheet", "in=air:" + "9" * 5000,
])  # fmt: skip
def test_a_hostile_link_does_no_harm(book: Watched, page: Page, fragment: str) -> None:
    page.goto("about:blank")
    page.goto(book.url(f"{PATH}#{fragment}"))
    page.locator("#ask_air").fill("20")
    assert number(page, "dew_point") == pytest.approx(12.0, abs=0.1)
    assert page.locator("main img").count() == 0


def test_a_step_s_link_opens_with_the_step_s_own_values(book: Watched) -> None:
    page = book.open("procedures/renew-rocker-outer.html")
    links = page.locator('a[href*="#in="]')
    assert links.count() > 3
    there = book.blank()
    for href in share(sorted(set(links.evaluate_all("all => all.map((one) => one.getAttribute('href'))"))), 3):
        there.goto(book.url(f"procedures/{href}"))
        assert there.locator("[aria-invalid]").count() == 0, href
        name, _, given = href.partition("#in=")[2].split(",")[-1].partition(":")
        assert there.locator("#link_fault").is_hidden(), href
        number, _, unit = unquote(given).partition("~")
        assert there.locator(f"#ask_{name}").input_value() == number, href
        chosen = there.locator(f"select#ask_{name}-unit")
        assert chosen.count() == 0 or chosen.input_value() == unit, href
