"""The way to the answers, as a page shows it while somebody types, against Python: every step at every proof."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

import pytest
from playwright.sync_api import Page

from builder import layers, pipeline, settings
from builder.formula import Program, run
from builder.view.quantities import Units
from builder.work.steps import step_values
from tests.browser.test_calculators import NAMES
from tests.browser.watched import DESK, Watched
from tests.outside.opened import as_offered
from tests.site.building import ROOT

OF_POINTS = {"datum-fit", "side-compare"}
"""What they work out comes of a table of points; tests/browser/test_points.py gives them one."""
READ = """() => ({
  values: Object.fromEntries([...document.querySelectorAll("[id^=step_]")].filter((one) => !one.hidden).map(
    (one) => [one.id.slice(5), one.innerText.replace(/\\s+/g, " ").trim()])),
  rows: Object.fromEntries([...document.querySelectorAll("[id^=rows_]")].map((one) => [one.id.slice(5),
    [...one.children].flatMap((row, at) => {
      const marks = [row.classList.contains("won"), !row.querySelector("strong").hidden];
      if (marks[0] !== marks[1]) throw new Error("a row is marked by half");
      return marks[0] ? [at] : [];
    })])),
})"""
FILL = """(given) => {
  const form = document.getElementById("ask_form");
  for (const [id, text] of Object.entries(given)) document.getElementById(`ask_${id}`).value = text;
  form.dispatchEvent(new Event("input", { bubbles: true }));
}"""
LAYERS = layers.choose(("supplied",), ROOT).layers
UNITS, USUAL = Units(settings.unit_pairs(LAYERS)[0]), settings.usual_units(LAYERS)


@pytest.fixture(scope="module")
def programs() -> Mapping[str, Program]:
    return pipeline.calculators(LAYERS)[0]


def expected(program: Program, given: Mapping[str, str], us: bool) -> dict[str, Any]:
    values: dict[str, str] = {}
    rows: dict[str, list[int]] = {}
    for step in step_values(program, run(program, given), USUAL):
        one = step.value
        if step.name in program.record.decide:
            rows[step.name] = [] if step.row is None else [step.row]
            if step.row is not None:
                continue
        if one.why:
            values[step.name] = f"no answer {one.why}"
            continue
        bare = one.number is not None and not one.text
        said = UNITS.figured(one.number or 0.0, one.unit) if bare else UNITS.answer(one.text, one.unit, one.number)
        values[step.name] = (said.other or said.text if us else said.text).replace("\u00a0", " ")
    return {"values": values, "rows": rows}


def shown(page: Page) -> dict[str, Any]:
    found: dict[str, Any] = page.evaluate(READ)
    return found


def proofs(program: Program) -> Iterator[dict[str, str]]:
    for proof in program.proofs:
        yield {**dict.fromkeys(program.questions, ""), **as_offered(program, proof.given)}


@pytest.mark.sweep(16)
@pytest.mark.parametrize("name", [name for name in NAMES if name not in OF_POINTS])
def test_every_step_at_every_proof_in_both_systems(
    book: Watched, programs: Mapping[str, Program], name: str
) -> None:
    program = programs[name]
    page = book.open(f"calculators/{name}.html", DESK)
    filled = list(proofs(program))
    assert filled
    for us in (False, True):
        if us:
            page.locator("#page_units").click()
        for fields in filled:
            # A bare number typed into a field would stand in the unit that is shown: each brings its own unit.
            given = {id_: text for id_, text in fields.items() if text}
            typed = {id_: _with_unit(program, id_, text) for id_, text in fields.items()}
            page.evaluate(FILL, typed)
            assert shown(page) == expected(program, given, us), (us, fields)


def _with_unit(program: Program, id_: str, text: str) -> str:
    question = program.questions[id_]
    is_bare = bool(text) and not question.choices and not question.one_of and " " not in text and question.unit.name
    return f"{text} {question.unit.name}" if is_bare else text


@pytest.mark.sweep(20)
@pytest.mark.parametrize("name", NAMES)
def test_what_is_printed_for_readers_without_scripts_is_what_the_script_shows_first(book: Watched, name: str) -> None:
    printed = shown(book.open(f"calculators/{name}.html", DESK, scripts=False))
    assert printed["values"]
    assert shown(book.open(f"calculators/{name}.html", DESK)) == printed


def test_an_entry_that_cannot_be_used_leaves_no_step_a_value(book: Watched) -> None:
    page = book.open("calculators/dew-point.html", DESK)
    page.locator("#ask_air").fill("warm")
    found = shown(page)
    assert set(found["values"].values()) == {"–"}
    assert set(map(len, found["rows"].values())) == {0}


def test_a_step_without_an_answer_says_why(book: Watched) -> None:
    page = book.open("calculators/bend.html", DESK)
    page.locator("#ask_angle").fill("180")
    assert shown(page)["values"]["setback"] == "no answer division by zero"
