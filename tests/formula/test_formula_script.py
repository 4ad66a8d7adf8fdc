"""The plain scripts in Node against Python: formulas, numbers read and shown, whole answers; no browser needed."""

from __future__ import annotations

import json
import math
from collections import Counter
from random import Random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import TypeAdapter

from builder.formula import Answer, Program, compile_calculator, emit_calculator, run, unit
from builder.formula.javascript import text
from builder.formula.numbers import exact, fixed, plain, read_written, to_float
from builder.formula.unit_data import unit_data
from builder.formula.units import COMMON
from builder.model.records.calculator import Calculator
from builder.model.records.table import Table
from tests.formula.cases import Case, cases
from tests.formula.node import run_node
from tests.formula.parity import Example, batch, example, tables_script
from tests.sweeps import is_soak

_TABLE, _CALCULATOR = TypeAdapter(Table), TypeAdapter(Calculator)

REASONS = (
    "division by zero", "root of a negative number", "logarithm of a number not above zero",
    "power of a negative number", "the number is too large", "outside the table", "it is unknown",
)  # fmt: skip


def differing(worked: list[dict[str, Any]]) -> list[tuple[str, Any, Any, Any]]:
    """Run one batch in one Node process; return the cases on which it says something else than Python."""
    listed = ",\n".join(f"[{case['js']}, {text(case['inputs'])}]" for case in worked)
    shown = run_node(f"""
        const {{F, NoAnswer, settled}} = seambook.formula;
        const tables = {tables_script()};
        return [{listed}].map(([work, v]) => {{
          v.lost = new NoAnswer(v.lost.why);
          const found = settled(() => work(v, F, tables));
          return found instanceof NoAnswer ? {{why: found.why}} : found;
        }});""")
    return [
        (case["formula"], case["inputs"], case["expected"], found)
        for case, found in zip(worked, shown, strict=True) if not agrees(case, found)
    ]  # fmt: skip


def agrees(case: dict[str, Any], found: object) -> bool:
    expected = case["expected"]
    if case["exact"] or not isinstance(expected, float) or not isinstance(found, float):
        return bool(expected == found)
    return math.isclose(expected, found, rel_tol=0, abs_tol=1e-9 * case["largest"])


examples = st.randoms(use_true_random=False).map(example)


@pytest.mark.slow
@settings(max_examples=25 if is_soak() else 12)
@given(st.lists(examples, min_size=1, max_size=60))
def test_both_languages_agree_on_made_up_formulas(made: list[Example]) -> None:
    assert differing(batch(made)) == []


@pytest.mark.slow
def test_both_languages_agree_on_a_large_batch_that_meets_everything() -> None:
    worked = batch(960, 4000 if is_soak() else 2000)
    assert differing(worked) == []
    met = Counter("exact" if case["exact"] else "loose" for case in worked if isinstance(case["expected"], float))
    met.update(case["expected"]["why"].partition(":")[0] for case in worked if isinstance(case["expected"], dict))
    assert all(met[sort] > (100 if is_soak() else 50) for sort in ("exact", "loose")), met
    assert all(met[reason] > 5 for reason in REASONS), met


def test_a_difference_would_be_seen() -> None:
    worked = batch(40, 50)
    worked[0] = {**worked[0], "expected": -12.25, "exact": True}
    assert [case[2] for case in differing(worked)] == [-12.25]


WRITTEN = cases("written.txt")


@pytest.fixture(scope="module")
def read_by_the_script() -> dict[str, Any]:
    """What the script reads of each number as it is written."""
    asked = [case.columns[0] for one in WRITTEN for case in one.values if isinstance(case, Case)]
    found = run_node(f"""return {json.dumps(asked)}.map((written) => {{
        const found = seambook.numbers.readWritten(written);
        if (typeof found === "string") {{ return "! " + found; }}
        return [String(found.number.n), String(found.number.d), found.unit];
    }});""")
    return dict(zip(asked, found, strict=True))


@pytest.mark.parametrize("case", WRITTEN)
def test_numbers_are_read_alike(case: Case, read_by_the_script: dict[str, Any]) -> None:
    written, wanted = case.columns
    found = read_by_the_script[written]
    if wanted.startswith("!"):
        assert found == f"! {read_written(written)}"
    else:
        one = read_written(written)
        assert not isinstance(one, str)
        n, d, name = found
        assert (int(n) * one.number.denominator, name) == (one.number.numerator * int(d), one.unit)


def _floats(random: Random) -> float:
    sort = random.randrange(4)
    if sort == 0:
        return random.uniform(-1, 1) * 10.0 ** random.randint(-320, 308)
    if sort == 1:
        return random.randint(-(10**7), 10**7) / 10.0 ** random.randint(0, 6)
    return (random.randint(0, 10**6) + 0.5) / 10.0 ** random.randint(0, 5) if sort == 2 else 0.0


def test_numbers_are_shown_alike() -> None:
    random = Random(25)
    values = [(_floats(random), random.randint(0, 8)) for _ in range(2000)]
    shown = run_node(f"""
        const {{exact, fixed, plain, toFloat}} = seambook.numbers;
        return {json.dumps(values)}.map(([x, digits]) => [fixed(x, digits), plain(x), toFloat(exact(x))]);""")
    assert shown == [[fixed(x, digits), plain(x), to_float(exact(x))] for x, digits in values]


def test_units_convert_alike_to_the_last_bit() -> None:
    random = Random(4)
    asked = []
    for name in COMMON:
        found = unit(name)
        assert found is not None
        asked += [(unit_data(found), found, f"{random.randint(-99999, 99999)}.{random.randint(0, 999):03d}")] * 2
    shown = run_node(f"""
        const {{exact, fromBase, readWritten, toBase, toFloat}} = seambook.numbers;
        return {json.dumps([(data, number) for data, _, number in asked])}.map(([unit, number]) => {{
          const base = toFloat(toBase(readWritten(number).number, unit));
          return [base, toFloat(fromBase(exact(base), unit))];
        }});""")
    for (_, own, number), (base, back) in zip(asked, shown, strict=True):
        written = read_written(number)
        assert not isinstance(written, str)
        assert (own.to_base(written.number), own.from_base(base)) == (base, back), (own.name, number)


def weld() -> Program:
    """A calculator with every sort of input, a table, a decision, a warning, and text that would end a script."""
    table = {
        "title": "T", "sources": ["s"], "keys": {"thickness": {"say": "Thickness", "unit": "mm", "match": "up"}},
        "columns": {"force": {"say": "Force", "unit": "kN"}},
        "rows": [{"thickness": t, "force": force} for t, force in (("0.8", "1.9"), ("1.2", "-"), ("3", "5"))],
    }  # fmt: skip
    record = {
        "title": "Weld </script> \u2028", "asks": "What?",
        "inputs": {
            "thickness": {"ask": "Thickness", "unit": "mm", "start": "1", "from": "0.5", "to": "6"},
            "count": {"ask": "Count", "start": "3", "whole": "yes", "default": "2"},
            "mains": {"ask": "Mains", "unit": "Hz", "one_of": ["50 Hz", "60 Hz"], "start": "50 Hz"},
            "coating": {"ask": "Coating", "choose": {"bare": "Bare", "constructor": "Odd"}, "start": "bare"},
        },
        "tables": {"forces": "forces"},
        "work": {"force": "table(forces, force, thickness) * count", "cycles": "count * mains * with_unit(1, s)",
                 "kind": '"constructor" if coating == "constructor" else "bare"'},
        "decide": {"advice": [
            {"if": 'force > with_unit(10, kN) and coating == "bare"', "answer": "press", "say": "Press </b>.",
             "because": "It is heavy."},
            {"otherwise": "weld", "say": "Weld.", "because": "It is light."},
        ]},
        "outputs": {"force": {"say": "Force", "unit": "kN", "digits": "1"}, "cycles": {"say": "Cycles", "digits": "0"},
                    "advice": {"say": "Advice"}, "kind": {"say": "Kind"}},
        "warnings": [{"if": "force > with_unit(10, kN)", "level": "stop", "say": "Too much."}],
        "sources": ["s"],
        "proofs": [{"given": {"thickness": "0.8", "mains": "50 Hz", "coating": "bare"}, "expect": {"force": "3.8 kN"},
                    "source": "s"}],
    }  # fmt: skip
    tables = {"forces": _TABLE.validate_python(table)}
    program, faults = compile_calculator(_CALCULATOR.validate_python(record), tables, "weld")
    assert program is not None, faults
    return program


WELD = weld()


def as_script(found: Answer) -> dict[str, Any]:
    return {
        "outputs": {name: one._asdict() for name, one in found.outputs.items()},
        "warnings": [one._asdict() for one in found.warnings],
        "faults": {str(fault.path[-1]): {"message": fault.message, "do": fault.do} for fault in found.faults},
    }  # fmt: skip


GIVEN = {
    "thickness": ["0.8", "1,2 mm", "3/64 inch", "2", "3.0000000001", "3.1 mm", "0.4", "7", "abc", "1,250", "1e999",
                  "0.03 inch"],
    "count": ["1", "3", "2.5", "-4", "4.0000000000001", "1/3"],
    "mains": ["50 Hz", "60", "3000 1/min", "55", "0.05e3 Hz"],
    "coating": ["bare", "constructor"],
}  # fmt: skip


def test_whole_answers_are_alike_refusals_included() -> None:
    random = Random(12)
    many = []
    for _ in range(400):
        chosen = {name: random.choice(texts) for name, texts in GIVEN.items()}
        many.append({name: value for name, value in chosen.items() if random.random() < 0.97})
    shown = run_node(f"""{emit_calculator(WELD)}
        return {json.dumps(many)}.map((given) => {{
          const {{outputs, warnings, faults}} = seambook.formula.run(seambook.calculators.weld, given);
          return {{outputs, warnings, faults}};
        }});""")
    for one, found in zip(many, shown, strict=True):
        assert found == as_script(run(WELD, one)), one
    assert any(answer["faults"] for answer in shown)
    assert {answer["warnings"][0]["holds"] for answer in shown if answer["warnings"]} == {True, False, None}


def test_emitted_text_cannot_end_a_script_nor_run() -> None:
    script = emit_calculator(WELD)
    assert "</" not in script
    assert script.isascii()
    assert "eval" not in script
    assert "new Function" not in script
    assert "document" not in script


def test_switching_a_unit_keeps_the_measure() -> None:
    shown = run_node(f"""{emit_calculator(WELD)}
        const input = seambook.calculators.weld.inputs[0];
        const {{convert}} = seambook.formula;
        return [convert(input, "25.4", "inch"), convert(input, "1 inch", "mm"), convert(input, "x", "mm"),
          convert(input, "1 kg", "mm")];""")
    assert shown == ["1", "25.4", None, None]
    assert math.isclose(float(shown[1]), 25.4)
