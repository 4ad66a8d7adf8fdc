"""Every calculator of the book answers in Chromium what Python answers: its proofs, and inputs made up at random.

Python is held to published figures by tests/outside; here the page is held to Python, digit by digit.
"""

from __future__ import annotations

import math
import random
from collections import Counter
from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any

import pytest

from builder import layers, pipeline
from builder.formula import Answer, Program, offered_units, run
from builder.formula.inputs import Question, answer
from builder.formula.units import Unit
from tests.browser.watched import DESK, PHONE, Watched
from tests.site.building import CONTENT, ROOT

NAMES = sorted(path.stem for path in (CONTENT / "calculators").glob("*.yaml"))
MANY = 50
ASK = """([name, many]) => many.map((given) => {
  const answer = seambook.formula.run(seambook.calculators[name], given);
  return {outputs: answer.outputs, warnings: answer.warnings, faults: Object.keys(answer.faults).sort()};
})"""
Given = dict[str, str]


@pytest.fixture(scope="module")
def programs() -> Mapping[str, Program]:
    found, problems = pipeline.calculators(layers.choose(("supplied",), ROOT).layers)
    assert not problems
    assert sorted(found) == NAMES
    return found


def made_up(program: Program, seed: str) -> Iterator[Given]:
    """Inputs for a calculator: most are admitted, some lie on a limit or beyond, some are written in another way."""
    chance = random.Random(f"{program.id} {seed}")
    for _ in range(MANY):
        yield {
            name: _answer(question, chance)
            for name, question in program.questions.items()
            if question.default is None or chance.random() < 0.7
        }


def _answer(question: Question, chance: random.Random) -> str:
    if question.choices:
        return chance.choice(sorted(question.choices))
    if question.one_of:
        return _written(chance.choice(question.one_of), question.unit, chance)
    low = question.low if question.low is not None else question.unit.to_base(Fraction(0))
    high = question.high if question.high is not None else low + 100 * float(question.unit.factor)
    value = chance.choice((low, high)) if chance.random() < 0.1 else chance.uniform(low, high)
    if chance.random() < 0.04:
        value += high - low  # beyond the limit: both sides must refuse it
    if question.whole:
        return str(round(question.unit.from_base(value)))
    return _written(value, question.unit, chance)


def _written(value: float, own: Unit, chance: random.Random) -> str:
    """A value as a person writes it, alone or in any of the units offered, now and then with a comma."""
    unit = chance.choice(offered_units(own)) if own.name and chance.random() < 0.3 else None
    number = (unit or own).from_base(value)
    text = f"{number:.{chance.choice((0, 1, 3))}f}" if abs(number) < 1e9 else repr(number)
    if chance.random() < 0.1:
        text = text.replace(".", ",")
    return f"{text} {unit.name}" if unit is not None else text


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


@pytest.mark.parametrize("name", NAMES)
def test_inputs_made_up_at_random(book: Watched, programs: Mapping[str, Program], name: str) -> None:
    program = programs[name]
    given = [*(as_offered(program, proof.given) for proof in program.proofs), *made_up(program, "2026")]
    page = book.open(f"calculators/{name}.html")
    answers = page.evaluate(ASK, [name, given])
    assert len(answers) == len(given) >= MANY + 2
    wrong = [
        (one, found, shown)
        for one, shown in zip(given, answers, strict=True)
        if (found := differing(shown, as_python(run(program, one))))
    ]
    assert wrong == []


def test_the_inputs_made_up_reach_every_sort_of_answer(programs: Mapping[str, Program]) -> None:
    # Else the test above would compare less than it says.
    seen: Counter[str] = Counter()
    for program in programs.values():
        answers = [run(program, one) for one in made_up(program, "2026")]
        seen["refused"] += sum(bool(found.faults) for found in answers)
        seen["no answer"] += sum(one.value is None for found in answers for one in found.outputs.values())
        seen["warned"] += sum(bool(one.holds) for found in answers for one in found.warnings)
        assert sum(not found.faults for found in answers) > MANY / 2, program.id
    assert all(seen[sort] > 10 for sort in ("refused", "no answer", "warned")), seen


@pytest.mark.parametrize("name", NAMES)
def test_proofs_typed_into_the_page(book: Watched, programs: Mapping[str, Program], name: str) -> None:
    program = programs[name]
    page = book.open(f"calculators/{name}.html", PHONE)
    signs = {output: _sign(page.locator(f"#answer_{output}").inner_text()) for output in program.outputs}
    for proof in program.proofs:
        for id_, text in as_offered(program, proof.given).items():
            field = page.locator(f"#ask_{id_}")
            if program.questions[id_].choices or program.questions[id_].one_of:
                field.select_option(text)
            else:
                field.fill(text)
        for id_ in program.questions.keys() - proof.given.keys():  # those with a default, left empty
            page.locator(f"#ask_{id_}").fill("")
        for output, result in run(program, proof.given).outputs.items():
            shown = " ".join(page.locator(f"#answer_{output}").inner_text().split("\n"))
            if result.value is None:
                assert shown == f"no answer {result.why}", (output, proof.given)
            elif isinstance(result.value, str):
                assert shown == " ".join(filter(None, (result.text, result.because))), (output, proof.given)
            else:
                assert shown.partition("\u00a0")[0] == result.text, (output, proof.given)
                assert not signs[output] or _sign(shown) == signs[output], (output, proof.given)


def as_offered(program: Program, given: Mapping[str, str]) -> Given:
    """A proof's inputs, those in a unit that its page does not offer in the one it asks for."""
    found = {}
    for name, text in given.items():
        question = program.questions[name]
        offered = {unit.name for unit in offered_units(question.unit)}
        own = text.split(" ", 1)[-1]
        base = None if question.choices or " " not in text or own in offered else answer(question, text)
        found[name] = repr(question.unit.from_base(base)) if isinstance(base, float) else text
    return found


def _sign(shown: str) -> str:
    return shown.partition("\u00a0")[2]


@pytest.mark.parametrize("name", NAMES)
def test_the_printed_answers_are_those_of_the_values_shown(book: Watched, name: str) -> None:
    read = "() => Object.fromEntries([...document.querySelectorAll('.answers dd, #answer_cautions')].map(" \
           "(one) => [one.id, one.innerText.trim()]))"  # fmt: skip
    printed = book.open(f"calculators/{name}.html", DESK, scripts=False).evaluate(read)
    assert len(printed) >= 2
    assert book.open(f"calculators/{name}.html", DESK).evaluate(read) == printed
