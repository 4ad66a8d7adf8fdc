"""What kind a formula is, and where the checker points when units or kinds do not fit."""

import pytest
from pydantic import TypeAdapter

from builder.formula import TRUTH, Fault, Kind, check_expression, choice, compile_table, describe, number, parse
from builder.formula.check import Scope, check
from builder.model.records.table import Table
from tests.formula.cases import Case, cases

KINDS: dict[str, Kind] = {
    "length": number("mm"), "width": number("mm"), "thickness": number("mm"), "pull": number("kN"),
    "air": number("degC"), "panel": number("degF"), "warming": number("delta_degC"), "count": number(),
    "joint": choice(["lap", "butt"]), "noise": number("dB"),
}  # fmt: skip
GAUGES = TypeAdapter(Table).validate_python({
    "title": "Gauges", "keys": {"gauge": {"say": "Gauge", "match": "exact"}},
    "columns": {"thickness": {"say": "Thickness", "unit": "mm"}},
    "rows": [{"gauge": "18", "thickness": "1.2"}], "sources": "none",
})  # fmt: skip
SCOPE = Scope(KINDS, {"gauges": compile_table(GAUGES).table})


@pytest.mark.parametrize("case", cases("kinds.txt"))
def test_kinds_and_faults(case: Case) -> None:
    text, wanted, *do = case.columns
    tree = parse(text)
    assert not isinstance(tree, Fault), tree
    kind, faults = check(tree, SCOPE)
    if not do:
        assert faults == ()
        assert kind is not None
        assert describe(kind) == wanted
        return
    assert [f"{fault.code.name}: {text[fault.start : fault.end]}" for fault in faults] == [wanted]
    assert do[0] in faults[0].do


def test_all_faults_at_once() -> None:
    found = check_expression("length + count > 2 and joint == 'lab' or widht > length", KINDS)
    assert [fault.code.name for fault in found.faults] == ["units_disagree", "unknown_choice", "unknown_name"]


def test_a_condition_may_be_asked_for() -> None:
    assert check_expression("length", KINDS, TRUTH).faults[0].message == "this is a length, and a condition is needed"
    assert check_expression("'lap'", KINDS, choice(["lap", "hem"])).faults == ()
    assert check_expression("joint", KINDS, choice(["lap"])).faults != ()
