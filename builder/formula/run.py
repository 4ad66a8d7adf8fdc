"""Running: from a program and what is given its answer; and from its proofs what no longer agrees with them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from types import MappingProxyType

from builder.formula.answer import Answer, Judged, Result, Taken
from builder.formula.codes import GIVEN_MISSING, GIVEN_UNKNOWN, PROOF_FAILS
from builder.formula.compiling import Step
from builder.formula.decision import Branch
from builder.formula.evaluate import evaluate
from builder.formula.fault import Fault
from builder.formula.inputs import Question, answer
from builder.formula.lookup import SAME
from builder.formula.no_answer import TOO_LARGE, NoAnswer, Unanswered, Value
from builder.formula.numbers import fixed, plain
from builder.formula.outputs import Shown
from builder.formula.points.compiling import measured_kinds
from builder.formula.program import Program
from builder.formula.proofs import Expected
from builder.model.near import offer

NO_POINTS = NoAnswer("no points were given")
Given = Mapping[str, str | float | NoAnswer]
"""Inputs by id: text as somebody wrote it (`20 degC`, `3/16 inch`, an id), or a value in base units, or no answer."""


def run(program: Program, given: Given, measured: Mapping[str, Value] = MappingProxyType({})) -> Answer:
    """Work a calculator out. Where an input is at fault nothing is worked out and `faults` says what is admitted.

    `measured` holds, in base units, what a fit of points gives to formulas.
    """
    values, faults = take(program, given)
    inputs = as_taken(program, given, values)
    values.update(measured or dict.fromkeys(measured_kinds(program.record), NO_POINTS))
    if faults:
        return Answer(inputs, {}, (), {}, tuple(faults))
    branches = _work_all(program, values)
    outputs = {
        name: _result(shown, values[name], branches.get(name)) for name, shown in program.outputs.items()
    }
    rows = {
        step.name: step.decision.branches.index(branches[step.name])
        for step in program.steps if step.decision is not None and step.name in branches
    }  # fmt: skip
    return Answer(inputs, outputs, tuple(_judge(program, values)), values, rows=rows)


def rework(program: Program, values: Mapping[str, Value], name: str, value: float) -> Mapping[str, Value]:
    """Work an answer's values out again with another value, in base units, of one input that admits it."""
    again = {**values, name: value}
    _work_all(program, again)
    return again


def _work_all(program: Program, values: dict[str, Value]) -> dict[str, Branch]:
    branches: dict[str, Branch] = {}
    for step in program.steps:
        values[step.name] = _work(step, values, branches)
    return branches


def take(program: Program, given: Given) -> tuple[dict[str, Value], list[Fault]]:
    """Read the inputs: the values in base units, constants among them; and what is at fault."""
    values: dict[str, Value] = dict(program.fixed)
    faults = [
        Fault(GIVEN_UNKNOWN, f'there is no input "{name}"', offer(name, program.questions, _ask_for(program)),
              path=("given", name))
        for name in given if name not in program.questions
    ]  # fmt: skip
    for name, question in program.questions.items():
        if name not in given and question.usual is not None:
            values[name] = question.usual
            continue
        text = given.get(name, question.default)
        if text is None:
            faults.append(Fault(GIVEN_MISSING, f"{name} is missing: {question.ask}", f"give {question.admits}",
                                path=("given", name)))  # fmt: skip
            continue
        value = text if isinstance(text, NoAnswer) else answer(question, text)
        if isinstance(value, Fault):
            faults.append(value)
            continue
        values[name] = value
    return values, faults


def as_taken(program: Program, given: Given, values: Mapping[str, Value]) -> dict[str, Taken]:
    """Return the inputs that were not at fault, in the units asked for."""
    return {
        name: _taken(question, values[name], name not in given)
        for name, question in program.questions.items() if name in values
    }  # fmt: skip


def _ask_for(program: Program) -> str:
    return "give " + ", ".join(program.questions) if program.questions else "give nothing"


def _taken(question: Question, value: Value, is_default: bool) -> Taken:
    if isinstance(value, float):
        return Taken(question.unit.from_base(value), question.unit.name, is_default)
    return Taken(value if isinstance(value, str) else None, "", is_default)


def _work(step: Step, values: Mapping[str, Value], branches: dict[str, Branch]) -> Value:
    if step.decision is None:
        assert step.worker is not None
        return evaluate(step.worker, values)
    try:
        branch = step.decision.branch(values)
    except Unanswered as lost:
        return lost.answer
    branches[step.name] = branch
    return branch.answer


def _result(shown: Shown, value: Value, branch: Branch | None) -> Result:
    if isinstance(value, NoAnswer):
        return Result(None, shown.unit.name, "", value.why)
    if isinstance(value, str):
        text = branch.say if branch else shown.labels.get(value, value)
        return Result(value, "", text, because=branch.because if branch else None)
    number = shown.unit.from_base(value)
    if not math.isfinite(number):
        return Result(None, shown.unit.name, "", TOO_LARGE)
    told = shown.labels.get(plain(number)) if shown.labels else None
    return Result(number, shown.unit.name, told or fixed(number, shown.digits))


def _judge(program: Program, values: Mapping[str, Value]) -> Iterator[Judged]:
    for warned in program.warnings:
        holds = evaluate(warned.worker, values)
        if isinstance(holds, NoAnswer):
            yield Judged(warned.level, warned.say, None, holds.why)
        else:
            yield Judged(warned.level, warned.say, bool(holds))


def prove(program: Program) -> tuple[Fault, ...]:
    """Work every proof out again; return a fault for each output that differs by more than the proof's tolerance."""
    faults = []
    usual = {name: asked.usual for name, asked in program.questions.items() if asked.usual is not None}
    points = dict.fromkeys(measured_kinds(program.record), NO_POINTS)
    for number, proof in enumerate(program.proofs):
        values = {**program.fixed, **usual, **proof.values, **points}
        branches = _work_all(program, values)
        for name, expected in proof.expected.items():
            result = _result(program.outputs[name], values[name], branches.get(name))
            message = difference(name, expected, result)
            if message is not None:
                do = "find which is wrong, the formula or the proof"
                faults.append(Fault(PROOF_FAILS, message, do, path=("proofs", number, "expect", name)))
    return tuple(faults)


def difference(name: str, expected: Expected, found: Result) -> str | None:
    """Return how a result differs from what a proof expects; None where it agrees."""
    unit = f" {found.unit}" if found.unit else ""
    if isinstance(found.value, float) and isinstance(expected.value, float):
        difference = abs(found.value - expected.value)
        if difference <= expected.within + SAME * max(abs(expected.value), abs(found.value)):
            return None
        told = f"{plain(difference)}{unit} off, {plain(expected.within)} admitted"
        return f"{name} should be {plain(expected.value)}{unit} and is {plain(found.value)}{unit} ({told})"
    if found.value == expected.value:
        return None
    wanted = "no answer" if expected.value is None else f"{_told(expected.value)}{unit if found.value is None else ''}"
    got = f"no answer ({found.why})" if found.value is None else f"{_told(found.value)}{unit}"
    return f"{name} should be {wanted} and is {got}"


def _told(value: float | str) -> str:
    return plain(value) if isinstance(value, float) else value
