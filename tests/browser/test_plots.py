"""Charts and sketches on the page are those that Python draws, mark by mark, at many values."""

from __future__ import annotations

import math
import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, Literal
from urllib.parse import quote

import pytest
from playwright.sync_api import Browser, Page, expect

from builder import pipeline, settings
from builder.formula import Program
from builder.formula.pairs import Pairs
from builder.model.files import Layer
from builder.model.views import Plotted
from builder.model.work import Worked
from builder.render.drawings import plot
from builder.view.plots import plots
from builder.view.quantities import Units
from builder.work.plots import plotted
from tests.books.laying import LABEL, TINY, build, lay
from tests.browser.watched import DESK, NARROW, PHONE, Watched

CONTENT = Path(__file__).with_name("plotted")
READ = """() => [...document.querySelectorAll('.plotted')].map((section) => ({
  id: section.id,
  marks: [...section.querySelectorAll('svg.drawing > *')]
    .filter((mark) => !['title', 'desc', 'defs'].includes(mark.tagName))
    .map((mark) => [mark.tagName, Object.fromEntries([...mark.attributes].map((one) => [one.name, one.value])),
      mark.textContent]),
  box: section.querySelector('svg').getAttribute('viewBox'),
  words: section.querySelector('desc').textContent,
  notes: [...section.querySelectorAll('figcaption p')].map((one) => one.textContent),
  rows: [...section.querySelectorAll('tr')].map((row) => [...row.cells].map((cell) => cell.textContent)),
}))"""
FRAME = "() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))"
NUMBER = re.compile(r"-?[0-9]+(?:\.[0-9]+)?")
GIVEN: dict[str, list[dict[str, str]]] = {
    "channel-blank": [{}, {"base": "12", "left": "200", "radius": "0"}, {"sheet": "6", "base": "5"}],
    "door-lean": [{}, {"lean": "-3"}, {"lean": "0"}, {"lean": "400", "width": "250"}, {"lean": "-400", "width": "100"}],
    "fold": [{"angle": angle} for angle in ("90", "179.9", "10", "1", "30", "120", "152", "160", "180")] + [
        {"radius": "0", "sheet": "3"}, {"radius": "500", "sheet": "0.1"}, {"radius": "8", "sheet": "12", "angle": "45"},
        {"angle": "180", "radius": "0"},
    ],
    "holes": [{}, {"length": "5000", "pitch": "5"}, {"length": "30"}, {"length": "15"}, {"sheet": "2"}],
    "patch-order": [{}, {"tacks": "1"}, {"tacks": "24", "most": "500"}, {"tacks": "1200", "edge": "held"},
                    {"tacks": "17", "heat": "0.1"}, {"tacks": "2"}],
    "root-gap": [{}, {"x": "-7"}, {"a": "0"}, {"a": "-10", "cold": "-40"}, {"x": "9.5", "a": "9.25"}],
}  # fmt: skip
"""For each calculator values that differ from those it starts with."""


@pytest.fixture(scope="module")
def content(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return lay(tmp_path_factory.mktemp("plots") / "content", TINY, CONTENT)


@pytest.fixture(scope="module")
def programs(content: Path) -> Mapping[str, Program]:
    found, problems = pipeline.calculators((Layer(content, LABEL),))
    assert not problems
    assert set(GIVEN) == set(found)
    return found


@pytest.fixture(scope="module")
def pairs(content: Path) -> Pairs:
    found, problems = settings.unit_pairs((Layer(content, LABEL),))
    assert not problems
    return found


@pytest.fixture(scope="module")
def drawn(chromium: Browser, content: Path) -> Iterator[Watched]:
    site = content.parent / "site"
    assert build(content, site, strict=True).published is not None
    watched = Watched(chromium, site)
    yield watched
    watched.close()
    assert watched.troubles == []


def in_python(program: Program, given: Mapping[str, str], units: Units) -> list[Plotted]:
    starts = {name: one.start if one.start is not None else one.default for name, one in program.questions.items()}
    charts, measured = plotted(program, {**{name: text for name, text in starts.items() if text is not None}, **given})
    return list(plots(units, program.record, Worked({}, charts=charts, measured=measured)))


def marks_of(svg: ET.Element) -> list[Any]:
    marks = [mark for mark in svg if mark.tag not in ("title", "desc", "defs")]
    return [[mark.tag, dict(mark.attrib), "".join(mark.itertext())] for mark in marks]


def unlike(one: Any, other: Any) -> bool:
    """Whether two marks differ by more than a last digit; sines and logarithms may differ in their last bit."""
    tag, attributes, text = one
    if [tag, sorted(attributes), text] != [other[0], sorted(other[1]), other[2]]:
        return True
    for name, value in attributes.items():
        if NUMBER.sub("#", value) != NUMBER.sub("#", other[1][name]):
            return True
        pairs = zip(NUMBER.findall(value), NUMBER.findall(other[1][name]), strict=True)
        if any(not math.isclose(float(a), float(b), rel_tol=0, abs_tol=0.1001) for a, b in pairs):
            return True
    return False


def opened(book: Watched, name: str, given: Mapping[str, str], system: str = "metric") -> Page:
    inputs = ",".join(f"{id_}:{quote(text)}" for id_, text in given.items())
    page = book.open(f"calculators/{name}.html#in={inputs}", DESK)
    if system == "us":
        page.locator("#page_units").click()
    page.evaluate(FRAME)
    return page


@pytest.mark.sweep(12)
@pytest.mark.parametrize("system", ["metric", "us"])
@pytest.mark.parametrize("name", sorted(GIVEN))
def test_the_page_draws_what_python_draws(
    drawn: Watched, programs: Mapping[str, Program], pairs: Pairs, name: str, system: Literal["metric", "us"]
) -> None:
    for given in GIVEN[name]:
        page = opened(drawn, name, given, system)
        expected = in_python(programs[name], given, Units(pairs, system))
        found = page.evaluate(READ)
        assert [one["id"] for one in found] == [one.anchor for one in expected]
        for shown, block in zip(found, expected, strict=True):
            svg = ET.fromstring(plot(block))
            wanted = marks_of(svg)
            assert len(shown["marks"]) == len(wanted), (given, block.anchor)
            assert [pair for pair in zip(shown["marks"], wanted, strict=True) if unlike(*pair)] == [], given
            assert shown["box"] == svg.attrib["viewBox"]
            assert shown["notes"] == list(block.notes)
            assert shown["rows"][0] == list(block.head)
            if system == "metric":  # elsewhere the page divides the range anew, into round numbers of what it shows
                assert shown["rows"][1:] == [list(row) for row in block.rows], (given, block.anchor)
                assert shown["words"] == block.words
        page.context.close()


def test_what_is_compared_reaches_every_sort_of_drawing(
    programs: Mapping[str, Program], pairs: Pairs
) -> None:
    # Else the test above would compare less than it says.
    blocks = [
        block for name, many in GIVEN.items() for given in many
        for block in in_python(programs[name], given, Units(pairs, "metric"))
    ]  # fmt: skip
    said = " ".join(note for block in blocks for note in block.notes)
    assert "lies outside the chart" in said
    assert "no answer from" in said
    svgs = " ".join(plot(block) for block in blocks)
    sorts = ("trace-3", "limit", "tick-fine", "hatch", "exaggerated", "its turn", "the first 1000 drawn", ">no answer<")
    for mark in sorts:
        assert mark in svgs, mark


def test_it_is_redrawn_with_every_key_and_by_the_keyboard_alone(drawn: Watched) -> None:
    page = drawn.open("calculators/door-lean.html", PHONE)
    drawing = page.locator("#sketch svg")
    page.locator("#ask_lean").focus()
    page.keyboard.press("Control+A")
    seen = []
    for key in "25":
        page.keyboard.type(key)
        page.evaluate(FRAME)
        seen.append(drawing.inner_html())
    assert seen[0] != seen[1]
    assert page.evaluate("document.activeElement.id") == "ask_lean", "the focus stays where one types"
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.id") == "ask_lean-unit"
    page.keyboard.type("c")
    page.keyboard.press("Enter")
    page.evaluate(FRAME)
    assert page.locator("#ask_lean").input_value() == "2.5"
    assert "2.5\u00a0cm" in drawing.locator("text").all_text_contents()
    assert page.evaluate("window.location.href").endswith("lean:2.5~cm")
    page.locator("#sketch summary").focus()
    page.keyboard.press("Enter")
    expect(page.locator("#sketch_table")).to_be_visible()


def test_what_cannot_be_used_takes_the_drawing_away_and_a_chart_over_it_stays(drawn: Watched) -> None:
    page = drawn.open("calculators/root-gap.html", PHONE)
    for text in ("far", "2"):
        page.locator("#ask_x").fill(text)
        page.evaluate(FRAME)
        is_whole = text == "2"
        assert page.locator("#chart_x svg").is_visible(), "the other entries hold"
        assert page.locator("#chart_x .here").count() == int(is_whole)
        assert page.locator("#chart_air svg").is_visible() == is_whole
        assert page.locator("#chart_air_notes").is_visible() == (not is_whole)


@pytest.mark.sweep(3)
@pytest.mark.parametrize("width", [NARROW, PHONE, DESK])
def test_no_word_of_a_drawing_leaves_it_or_meets_another(drawn: Watched, width: int) -> None:
    for name, many in GIVEN.items():
        page = drawn.open(f"calculators/{name}.html", width)
        for given in many:
            for id_, text in given.items():
                field = page.locator(f"#ask_{id_}")
                field.fill(text) if field.evaluate("one => one.tagName") == "INPUT" else field.select_option(text)
            page.evaluate(FRAME)
            met = page.evaluate("""() => [...document.querySelectorAll('.plotted svg')].flatMap((svg) => {
              const sheet = svg.getBoundingClientRect();
              const texts = [...svg.querySelectorAll('text')]
                .map((one) => ({ text: one.textContent, box: one.getBoundingClientRect() }));
              const out = texts.filter(({box}) => box.left < sheet.left - 1 || box.right > sheet.right + 1
                || box.top < sheet.top - 1 || box.bottom > sheet.bottom + 1);
              const pairs = texts.flatMap((one, at) => texts.slice(at + 1).filter(({box}) =>
                Math.min(one.box.right, box.right) - Math.max(one.box.left, box.left) > 1
                && Math.min(one.box.bottom, box.bottom) - Math.max(one.box.top, box.top) > one.box.height / 3)
                .map((other) => one.text + " / " + other.text));
              return [...out.map(({text}) => text), ...pairs];
            })""")
            assert met == [], (name, given)
        page.context.close()


def test_without_scripts_the_drawing_stands_and_reads(drawn: Watched) -> None:
    page = drawn.open("calculators/door-lean.html", PHONE, scripts=False)
    assert page.locator("#sketch svg text").count() > 4
    assert page.locator("#chart_lean svg .trace").count() == 2
    assert page.locator("#answer_unlike").inner_text() == "9.0\u00a0mm"
    assert page.locator(".answer-unit").first.is_hidden()
