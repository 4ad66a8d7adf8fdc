"""Every calculator of the book answers in Chromium what Python answers: its proofs, and inputs made up at random.

Python is held to published figures by tests/outside; here the page is held to Python, digit by digit.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, given, settings

from builder import layers, pipeline
from builder.formula import Answer, Program, run
from builder.formula.points.answers import run_points
from tests.browser.made_up import Given, given_to
from tests.browser.watched import DESK, PHONE, Watched
from tests.outside.opened import as_offered
from tests.site.building import CONTENT, ROOT
from tests.sweeps import is_soak

NAMES = sorted(path.stem for path in (CONTENT / "calculators").glob("*.yaml"))
MANY = 200
"""Inputs made up for each calculator."""
ASKED = MANY if is_soak() else 40
ASK = """([name, all]) => all.map((given) => {
  const answer = seambook.formula.run(seambook.calculators[name], given);
  return {outputs: answer.outputs, warnings: answer.warnings, faults: Object.keys(answer.faults).sort()};
})"""


@pytest.fixture(scope="module")
def programs() -> Mapping[str, Program]:
    found, problems = pipeline.calculators(layers.choose(("supplied",), ROOT).layers)
    assert not problems
    assert sorted(found) == NAMES
    return found


def as_python(found: Answer) -> dict[str, Any]:
    return {
        "outputs": {
            name: {"value": one.value, "unit": one.unit, "text": one.text, "why": one.why, "because": one.because}
            for name, one in found.outputs.items()
        },
        "warnings": [
            {"level": one.level, "say": one.say, "holds": one.holds, "why": one.why} for one in found.warnings
        ],
        "faults": sorted(str(fault.path[-1]) for fault in found.faults),
    }


def differing(page: dict[str, Any], python: dict[str, Any]) -> list[str]:
    """In what two answers differ; numbers may by one part in 1e9, since sines and logarithms do in the last bit."""
    found = [part for part in ("warnings", "faults") if page[part] != python[part]]
    if page["outputs"].keys() != python["outputs"].keys():
        return [*found, "outputs"]
    for name, one in python["outputs"].items():
        other = page["outputs"][name]
        found += [f"{name}.{part}" for part in ("unit", "why", "because") if one[part] != other[part]]
        if isinstance(one["value"], float) and isinstance(other["value"], int | float):
            is_same = math.isclose(one["value"], other["value"], rel_tol=1e-9, abs_tol=1e-12)
            found += [] if is_same and _is_said_alike(one, other) else [name]
        elif (one["value"], one["text"]) != (other["value"], other["text"]):
            found.append(name)
    return found


def _is_said_alike(one: dict[str, Any], other: dict[str, Any]) -> bool:
    """Where the last bit differs, a value half way between two roundings may be said as either."""
    if one["text"] == other["text"]:
        return True
    last_digit = 10 ** -len(one["text"].partition(".")[2])
    apart = abs(float(one["text"]) - float(other["text"]))
    return bool(one["value"] != other["value"] and apart < 1.001 * last_digit)


@pytest.mark.sweep(12)
@pytest.mark.parametrize("name", NAMES)
def test_inputs_made_up_at_random(kept: Watched, programs: Mapping[str, Program], name: str) -> None:
    program = programs[name]
    page = kept.again(f"calculators/{name}.html")
    asked: list[Given] = []

    @settings(max_examples=ASKED, derandomize=True, database=None, phases=(Phase.generate,),
              suppress_health_check=list(HealthCheck))  # fmt: skip
    @given(given_to(program))
    def make(made: Given) -> None:
        asked.append(made)

    make()
    seen: Counter[str] = Counter()
    for made, answer in zip(asked, page.evaluate(ASK, [name, asked]), strict=True):
        python = run(program, made)
        assert differing(answer, as_python(python)) == [], made
        seen["asked"] += 1
        seen["admitted"] += not python.faults
        seen["answered"] += any(one.value is not None for one in python.outputs.values())
    assert seen["asked"] >= ASKED
    # Else it compared less than it says.
    assert seen["admitted"] > ASKED * 2 / 5, seen  # hypothesis repeats nothing, and some admit a few whole numbers only
    assert seen["answered"] > ASKED / 8 or program.points is not None, seen


@pytest.mark.sweep(24)
@pytest.mark.parametrize("name", NAMES)
def test_some_of_the_inputs_made_up_are_refused(programs: Mapping[str, Program], name: str) -> None:
    # Else nothing would show that both refuse the same.
    program = programs[name]
    refused = []

    @settings(max_examples=MANY, derandomize=True, database=None, phases=(Phase.generate,),
              suppress_health_check=list(HealthCheck))  # fmt: skip
    @given(given_to(program))
    def ask(made: Given) -> None:
        refused.append(bool(run(program, made).faults))

    ask()
    is_limited = any(question.high is not None for question in program.questions.values())
    assert sum(refused) > 3 or not is_limited, sum(refused)


@pytest.mark.sweep(36)
@pytest.mark.parametrize("name", NAMES)
def test_proofs_typed_into_the_page(book: Watched, programs: Mapping[str, Program], name: str) -> None:
    program = programs[name]
    page = book.open(f"calculators/{name}.html", PHONE)
    signs = {output: _sign(page.locator(f"#answer_{output}").inner_text()) for output in program.outputs}
    for at, proof in enumerate(program.proofs):
        if program.points is not None:
            page.locator("#points_details").evaluate("details => { details.open = true; }")
            page.locator("#points_text").fill(program.record.proofs[at].points or "")
        for id_, text in as_offered(program, proof.given).items():
            field = page.locator(f"#ask_{id_}")
            if program.questions[id_].choices or program.questions[id_].one_of:
                field.select_option(text)
            else:
                field.fill(text)
        for id_ in program.questions.keys() - proof.given.keys():  # those with a default, left empty
            field = page.locator(f"#ask_{id_}")
            if program.questions[id_].choices or program.questions[id_].one_of:
                field.select_option("")
            else:
                field.fill("")
        for output, result in worked_out(program, at).outputs.items():
            shown = " ".join(page.locator(f"#answer_{output}").inner_text().split("\n"))
            if result.value is None:
                assert shown == f"no answer {result.why}", (output, proof.given)
            elif isinstance(result.value, str):
                assert shown == " ".join(filter(None, (result.text, result.because))), (output, proof.given)
            else:
                assert shown.partition("\u00a0")[0].removesuffix("°") == result.text, (output, proof.given)
                assert not signs[output] or _sign(shown) == signs[output], (output, proof.given)


def worked_out(program: Program, at: int) -> Answer:
    """What Python makes of a proof's inputs, and of its points where it has them."""
    given = program.proofs[at].given
    table = program.points
    return run(program, given) if table is None else run_points(program, table.proofs[at], given).answer


def _sign(shown: str) -> str:
    return shown.partition("\u00a0")[2]


@pytest.mark.sweep(18)
@pytest.mark.parametrize("name", NAMES)
def test_the_printed_answers_are_those_of_the_values_shown(book: Watched, name: str) -> None:
    read = "() => Object.fromEntries([...document.querySelectorAll('.answers dd[id], #answer_cautions')].map(" \
           "(one) => [one.id, one.innerText.trim()]))"  # fmt: skip
    printed = book.open(f"calculators/{name}.html", DESK, scripts=False).evaluate(read)
    assert len(printed) >= 2
    assert book.open(f"calculators/{name}.html", DESK).evaluate(read) == printed
