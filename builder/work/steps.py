"""A calculator worked out -> the value of each of its steps, in the order in which they are worked out."""

from __future__ import annotations

import math
from collections.abc import Mapping

from builder.formula import Answer, NoAnswer, Program, StepUnit, Usual, step_units
from builder.formula import Value as Worked
from builder.formula.no_answer import TOO_LARGE
from builder.formula.numbers import fixed
from builder.model.work import StepValue, Value

NOT_GIVEN = "an input is missing"
TRUTHS = {True: "yes", False: "no"}


def step_values(program: Program, answer: Answer, usual: Usual) -> tuple[StepValue, ...]:
    """Return the values; each step uses only inputs, fixed values and steps before it."""
    units = step_units(program, usual)
    return tuple([
        StepValue(step.name, _value(program, step.name, answer, units), answer.rows.get(step.name))
        for step in program.steps
    ])  # fmt: skip


def _value(program: Program, name: str, answer: Answer, units: Mapping[str, StepUnit]) -> Value:
    found: Worked = answer.values.get(name, NoAnswer(NOT_GIVEN))
    if isinstance(found, NoAnswer):
        # Its unit is told all the same: it stands behind the number that comes when other values are given.
        return Value(name, "", units[name].unit.name if name in units else "", why=found.why)
    if isinstance(found, bool):
        return Value(name, TRUTHS[found])
    if isinstance(found, str):
        return Value(name, _label(program, found))
    unit, digits = units[name]
    number = unit.from_base(found)
    if not math.isfinite(number):
        return Value(name, "", why=TOO_LARGE)
    return Value(name, "" if digits is None else fixed(number, digits), unit.name, number=number)


def _label(program: Program, id_: str) -> str:
    """The label of a choice: an id has one meaning within a calculator."""
    labels = (question.choices[id_] for question in program.questions.values() if id_ in question.choices)
    return next(labels, id_)
