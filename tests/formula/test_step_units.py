"""The unit in which each value on the way to an answer is shown: where it is taken from, in which order."""

from __future__ import annotations

import pytest
from pydantic import TypeAdapter

from builder.formula import Program, compile_calculator, make_usual, run, step_units
from builder.formula.dimension import BASES, unit_text
from builder.formula.kinds import NumberKind
from builder.formula.numbers import plain
from builder.formula.units import unit
from builder.model.records.calculator import Calculator
from builder.model.records.units import UnitSettings

USUAL, _ = make_usual(UnitSettings(to_us=(), to_metric=(), same=(), usual=("mm**3", "kN", "min")))
RECORD = {
    "title": "Blank", "asks": "How much?",
    "inputs": {
        "width": {"ask": "Width", "unit": "cm", "start": "12"}, "run": {"ask": "Run", "unit": "m", "start": "3"},
        "air": {"ask": "Air", "unit": "degF", "start": "68"},
        "share": {"ask": "Share", "unit": "percent", "start": "5"},
        "form": {"ask": "Form", "choose": {"flat": "Flat sheet", "bent": "Bent sheet"}, "start": "flat"},
    },
    "fixed": {
        "rise": {"value": "4", "unit": "delta_degC", "source": "s"},
        "load": {"value": "2", "unit": "MPa", "source": "s"},
        "pace": {"value": "2", "unit": "m/s", "source": "s"},
    },
    "work": {
        "bead": "width / 2", "reach": "run + bead", "both": "bead + reach", "warm": "air + rise",
        "ratio": "share * 2", "area": "width * run", "solid": "area * width", "push": "load * area",
        "wait": "run / pace", "stiff": "push / run", "is_wide": "width > bead",
        "shape": "form if is_wide else 'bent'", "out": "1 if warm > air and shape == 'flat' else ratio + solid / solid",
        "used": "both * stiff * wait / (both * stiff * wait)",
    },
    "outputs": {"out": {"say": "Out"}, "used": {"say": "Used"}, "area": {"say": "Area", "unit": "m**2", "digits": 2}},
    "warnings": "none", "sources": ["s"],
    "proofs": [{"given": {"width": "12", "run": "3", "air": "68", "share": "5", "form": "flat"},
                "expect": {"area": "0.36", "out": "1", "used": "1"}, "source": "s"}],
}  # fmt: skip


@pytest.fixture(scope="module")
def program() -> Program:
    found, faults = compile_calculator(TypeAdapter(Calculator).validate_python(RECORD), {}, "blank")
    assert found is not None, faults
    return found


@pytest.mark.parametrize(("step", "name", "digits", "why"), [
    ("area", "m**2", 2, "an output shows its own unit and digits"),
    ("bead", "cm", None, "it is made of the width"),
    ("reach", "m", None, "it reads the run first"),
    ("both", "cm", None, "it reads a formula that is shown in cm"),
    ("warm", "degF", None, "a reading takes the unit of a reading, not of a difference"),
    ("ratio", "", None, "a number alone stays bare: its percent is an input's"),
    ("push", "kN", None, "the record has no force, the book's usual one is taken"),
    ("solid", "mm**3", None, "the same of a volume"),
    ("wait", "min", None, "the same of a time"),
    ("stiff", "kg/s**2", None, "nothing is usual for force by length: base units written out"),
    ("out", "", 3, "an output without a unit"),
])  # fmt: skip
def test_where_a_unit_is_taken_from(program: Program, step: str, name: str, digits: int | None, why: str) -> None:
    found = step_units(program, USUAL)[step]
    assert (found.unit.name, found.digits) == (name, digits), why


def test_what_is_no_number_has_no_unit(program: Program) -> None:
    assert {"is_wide", "shape"}.isdisjoint(step_units(program, USUAL))
    values = run(program, {"width": "12", "run": "3", "air": "68", "share": "5", "form": "flat"}).values
    assert (values["is_wide"], values["shape"]) == (True, "flat")


def test_without_a_list_of_usual_units_base_units_are_written_out(program: Program) -> None:
    found = step_units(program)
    assert [found[name].unit.name for name in ("push", "solid", "wait")] == ["m*kg/s**2", "m**3", "s"]


@pytest.mark.parametrize("powers", [(1, 0, 0), (-1, 0, 0), (2, 1, -3), (-2, -1, 4), (0, 0, -2), (3, -1, 0)])
def test_base_units_written_out_are_a_unit_of_that_dimension(powers: tuple[int, int, int]) -> None:
    length, mass, time = powers
    dimension = (length, mass, time, *(0,) * (len(BASES) - 3))
    found = unit(unit_text(dimension))  # type: ignore[arg-type]
    assert found is not None
    assert list(found.dimension) == list(dimension)
    assert found.factor == 1


def test_a_usual_unit_that_is_none_or_comes_twice_is_told() -> None:
    settings = UnitSettings(to_us=(), to_metric=(), same=(), usual=("mm", "ell", "inch", "degC", "delta_degC", "mm"))
    found, faults = make_usual(settings)
    assert [one.name for one in found.values()] == ["mm", "degC", "delta_degC"]
    assert all(isinstance(kind, NumberKind) for kind in found)
    assert [(fault.code.name, fault.path) for fault in faults] == [
        ("unknown_unit", ("usual", 1)), ("unit_twice", ("usual", 2)), ("unit_twice", ("usual", 5)),
    ]  # fmt: skip


@pytest.mark.parametrize(("value", "said"), [
    (0.0, "0"), (2 / 3, "0.66667"), (12.5, "12.5"), (123456.7, "123457"), (-0.0123456, "-0.012346"),
    (99999.5, "100000"),
    (1.0, "1"), (0.000045678912, "0.000045679"),
])  # fmt: skip
def test_five_figures(value: float, said: str) -> None:
    assert plain(value, 5) == said
