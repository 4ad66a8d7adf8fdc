"""Compiled calculators: tables, decisions, no answer, proofs, and what is told of inputs that cannot be taken."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import TypeAdapter

from builder.formula import Fault as FormulaFault
from builder.formula import (
    NoAnswer,
    Program,
    check_expression,
    compile_calculator,
    evaluate_expression,
    number,
    parse,
    prove,
    run,
)
from builder.model.records.calculator import Calculator
from builder.model.records.table import Table
from builder.pipeline import calculators
from builder.supplied import layer
from tests.sweeps import examples

_TABLE, _CALCULATOR = TypeAdapter(Table), TypeAdapter(Calculator)

REST = {"title": "T", "sources": ["s"]}
DEW_POINT = calculators((layer("supplied", Path()),))[0]["dew-point"]


def table(match: str, rows: dict[str, str], unit: str = "mm") -> Table:
    return _TABLE.validate_python({
        **REST, "keys": {"k": {"say": "K", "unit": unit, "match": match}}, "columns": {"x": {"say": "X"}},
        "rows": [{"k": key, "x": cell} for key, cell in rows.items()],
    })  # fmt: skip


def program(tables: dict[str, Table] | None = None, **changes: Any) -> Program:
    """Compile a small calculator of one length; a key given replaces that section."""
    record = {
        "title": "C", "asks": "What?", "inputs": {"length": {"ask": "Length", "unit": "mm", "start": "1"}},
        "tables": {name: name for name in tables or {}}, "work": {"out": "length / length"},
        "outputs": {"out": {"say": "Out"}}, "warnings": "none", "sources": ["s"],
        "proofs": [{"given": {"length": "1 mm"}, "expect": {"out": "no answer"}, "source": "s"}], **changes,
    }  # fmt: skip
    found, faults = compile_calculator(_CALCULATOR.validate_python(record), tables or {}, "c")
    assert found is not None, faults
    return found


@pytest.mark.parametrize(("match", "asked", "found"), [
    ("exact", "1 mm", 10), ("exact", "0.1 cm", 10), ("exact", "1.0000000005 mm", 10), ("exact", "1.1 mm", None),
    ("up", "0.5 mm", 10), ("up", "1 mm", 10), ("up", "1.01 mm", 20), ("up", "4.1 mm", None),
    ("down", "1 mm", 10), ("down", "1.99 mm", 10), ("down", "9 mm", 40), ("down", "0.9 mm", None),
    ("between", "1.5 mm", 15), ("between", "1 mm", 10), ("between", "4 mm", 40), ("between", "3 mm", None),
    ("between", "0.99 mm", None), ("between", "4.01 mm", None),
])  # fmt: skip
def test_a_table_is_read_by_its_match_and_never_past_its_ends(match: str, asked: str, found: float | None) -> None:
    """Between 2 and 3 mm the cell at 3 mm is `-`: there is nothing to draw a line to."""
    rows = {"1": "10", "2": "20", "3": "-", "4": "40"}
    reads = program({"t": table(match, rows)}, work={"out": "table(t, x, length)"})
    result = run(reads, {"length": asked}).outputs["out"]
    assert result.value == (pytest.approx(found) if found is not None else None)
    if found is None:
        assert result.why
        assert "table" in result.why


def test_the_floor_trap_in_every_unit() -> None:
    """960 mm at 40 mm pitch is 24 spaces and 25 welds, though 0.96 / 0.04 is 23.999999999999996 in binary."""
    asked = {"length": {"ask": "L", "unit": "mm", "start": "1"}, "pitch": {"ask": "P", "unit": "mm", "start": "1"}}
    welds = program(
        inputs=asked, work={"out": "floor(length / pitch) + 1"},
        proofs=[{"given": {"length": "960 mm", "pitch": "40 mm"}, "expect": {"out": "25"}, "source": "s"}],
    )  # fmt: skip
    assert prove(welds) == ()
    for length, pitch in (("960 mm", "40 mm"), ("96 cm", "4 cm"), ("0.96 m", "0.04 m"), ("0.96 m", "40 mm"),
                          ("37.79527559055118 inch", "40 mm"), ("960", "4 cm")):  # fmt: skip
        assert run(welds, {"length": length, "pitch": pitch}).outputs["out"].value == 25


@pytest.mark.parametrize(("text", "value"), [
    ("lost > 0 and 1 > 2", False), ("1 > 2 and lost > 0", False),
    ("lost > 0 and 2 > 1", None), ("2 > 1 and lost > 0", None),
    ("lost > 0 or 2 > 1", True), ("2 > 1 or lost > 0", True), ("lost > 0 or 1 > 2", None), ("1 > 2 or lost > 0", None),
    ("not (lost > 0)", None), ("1 if lost > 0 else 2", None), ("1 if 2 > 1 else lost", 1), ("lost + 1", None),
    ("max(1, lost)", None),
])  # fmt: skip
def test_no_answer_passes_through_and_only_what_is_known_decides(text: str, value: object) -> None:
    assert check_expression(text, {"lost": number()}).faults == ()
    found = evaluate_expression(text, {"lost": NoAnswer("it is unknown")})
    if value is None:
        assert isinstance(found, NoAnswer)
        assert found.why == "it is unknown"
    else:
        assert found == value


def test_a_decision_takes_the_first_row_that_holds_and_says_why() -> None:
    rows = [
        {"if": "length < with_unit(2, mm)", "answer": "small", "say": "Small.", "because": "It is under two."},
        {"if": "length < with_unit(10, mm)", "answer": "middle", "say": "Middle.", "because": "It is under ten."},
        {"otherwise": "large", "say": "Large.", "because": "It is neither."},
    ]
    decides = program(
        work={}, decide={"size": rows}, outputs={"size": {"say": "Size"}},
        proofs=[{"given": {"length": "1 mm"}, "expect": {"size": "small"}, "source": "s"}],
    )  # fmt: skip
    assert prove(decides) == ()
    expected = (("1.9", "small", "under two"), ("2", "middle", "under ten"), ("99", "large", "neither"))
    for asked, answer, because in expected:
        result = run(decides, {"length": asked}).outputs["size"]
        assert (result.value, because in (result.because or "")) == (answer, True)


def test_a_number_that_tells_a_word_is_shown_as_it_and_handed_on_as_the_number() -> None:
    tells = {"1": "it fits", "0": "it does not fit"}
    made = program(work={"out": "1 if length > with_unit(2, mm) else 0"}, outputs={"out": {"say": "O", "tells": tells}},
                   proofs=[{"given": {"length": "3 mm"}, "expect": {"out": "1"}, "source": "s"}])  # fmt: skip
    fits, fails = (run(made, {"length": text}).outputs["out"] for text in ("3 mm", "1 mm"))
    assert (fits.value, fits.text, fails.value, fails.text) == (1, "it fits", 0, "it does not fit")
    half = program(work={"out": "length / with_unit(2, mm)"}, outputs={"out": {"say": "O", "tells": tells}})
    assert run(half, {"length": "1 mm"}).outputs["out"].text == "0.500"  # no word for it


@pytest.mark.parametrize(("output", "message"), [
    ({"unit": "mm", "tells": {"1": "long"}}, "only a bare number tells words"),
    ({"tells": {"one": "long"}}, '"one" is no number as it would be shown'),
    ({"tells": {"1.0": "long"}}, '"1.0" is no number as it would be shown'),
])  # fmt: skip
def test_words_that_no_number_tells(output: dict[str, Any], message: str) -> None:
    made = {"unit": "mm"} if "unit" in output else {}
    record = {
        "title": "C", "asks": "What?", "inputs": {"length": {"ask": "Length", "unit": "mm", "start": "1"}},
        "work": {"out": "length" if made else "length / length"}, "outputs": {"out": {"say": "O", **output}},
        "warnings": "none", "sources": ["s"],
        "proofs": [{"given": {"length": "1 mm"}, "expect": {"out": "no answer"}, "source": "s"}],
    }  # fmt: skip
    _, faults = compile_calculator(_CALCULATOR.validate_python(record), {}, "c")
    assert message in [fault.message for fault in faults]


def test_a_warning_without_an_answer_says_it_cannot_be_judged() -> None:
    warned = program(
        {"t": table("exact", {"1": "10"})}, work={"out": "table(t, x, length)"},
        warnings=[{"if": "out > 2", "level": "stop", "say": "Too much."}],
    )  # fmt: skip
    assert [judged.holds for judged in run(warned, {"length": "1"}).warnings] == [True]
    lost, = run(warned, {"length": "2"}).warnings
    assert lost.holds is None
    assert lost.why


def test_a_proof_that_fails_tells_expected_got_and_difference() -> None:
    wrong = program(proofs=[{"given": {"length": "2 mm"}, "expect": {"out": "3"}, "within": "0.5", "source": "s"}])
    fault, = prove(wrong)
    assert fault.code.name == "proof_fails"
    assert fault.path[:2] == ("proofs", 0)
    assert all(part in fault.message for part in ("3", "1", "2"))


HOSTILE = ["10**10**10", "9**9**9**9", "(" * 10_000 + "1" + ")" * 10_000, "-" * 10_000 + "1", "a" * 100_000, "1e400",
           "[" * 5000, "max(" * 60 + "1" + ")" * 60, "a if " * 200, "\x00", "\ud800", "__import__('os')", "a.b", "a[0]",
           "lambda: 1", "f'{a}'", "'" * 9999, "1" * 4000]  # fmt: skip


@pytest.mark.parametrize("text", HOSTILE, ids=range(len(HOSTILE)))
def test_hostile_formulas_end_in_faults_or_no_answer_and_soon(text: str) -> None:
    found = check_expression(text, {"a": number()})
    if not found.faults:
        assert isinstance(evaluate_expression(text, {"a": 1.0}), (NoAnswer, float))


@settings(max_examples=examples(500))
@given(st.text(max_size=60) | st.text(st.sampled_from("a1+-*/()<>=! 'ifelsandornot,.\n"), max_size=60))
def test_checking_never_fails_on_any_text(text: str) -> None:
    tree = parse(text)
    if not isinstance(tree, FormulaFault):
        check_expression(text, {"a": number("mm")})


@given(air=st.integers(0, 59), humidity=st.integers(1, 100), surface=st.integers(-19, 89))
def test_the_unit_an_input_is_written_in_changes_no_answer(air: int, humidity: int, surface: int) -> None:
    rest = {"humidity": f"{humidity} percent", "surface": f"{surface} degC"}
    one = run(DEW_POINT, {"air": f"{air} degC", **rest}).outputs["dew_point"]
    other = run(DEW_POINT, {"air": f"{air * 18 + 320}/10 degF", **rest}).outputs["dew_point"]
    assert one.value == pytest.approx(other.value, abs=1e-9)
