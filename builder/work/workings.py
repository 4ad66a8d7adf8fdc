"""A calculator put to work with a segment's facts -> its answers, or what is wrong with what it was given."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from builder.formula import (
    Answer,
    ChoiceKind,
    Fault,
    Kind,
    NoAnswer,
    Program,
    Usual,
    Value,
    check_expression,
    evaluate_expression,
    run,
)
from builder.formula.facts import METHOD, Scales, fact_kinds, fact_values
from builder.formula.inputs import Question
from builder.formula.numbers import plain
from builder.formula.points.answers import run_points
from builder.model.decided import Chosen
from builder.model.near import listed, offer
from builder.model.quantity import split_quantity
from builder.model.records import Record
from builder.model.records.working import Working
from builder.model.reference import Ref
from builder.model.summary import KEY, Facts
from builder.model.work import Remark, WorkedOut
from builder.model.work import Value as Shown
from builder.work import codes
from builder.work.points import point_rows
from builder.work.steps import step_values

GIVEN_FIGURES = 4
"""Figures shown of a given value; the answers are worked out from all of them."""


@dataclass(frozen=True, slots=True)
class Shop:
    """What working out needs beside the record in hand."""

    shelf: Mapping[Ref, Record]
    programs: Mapping[str, Program]
    scales: Scales
    usual: Usual = field(default_factory=dict)
    """The units of steps whose record names none."""
    is_drawn: bool = True
    """Whether pages are made of it; else what only a page shows is not worked out, and only faults are asked for."""
    known: dict[tuple[object, ...], WorkedOut | Fault] = field(default_factory=dict)
    """Worked out before: the same calculator with the same values over the same facts gives the same answers."""
    checked: dict[tuple[object, ...], tuple[Fault, ...]] = field(default_factory=dict)
    """Checked before."""
    chosen: dict[tuple[object, ...], Chosen] = field(default_factory=dict)
    """Decided before: the same decision with the same inputs known and open leaves the same."""

    @property
    def scales_told(self) -> Scales:
        """The scales, and the ids of the methods beside them: the words that facts may be."""
        return {**self.scales, METHOD: tuple(ref.id for ref in sorted(self.shelf) if ref.kind == "method")}


def faults_of(working: Working, program: Program, shop: Shop, subject: str = "seam") -> tuple[Fault, ...]:
    """Check what a calculator is given and asked for, over the facts of a seam's segment, or of a step on it."""
    key = (subject, *_key(working))
    found = shop.checked.get(key)
    if found is None:
        found = shop.checked[key] = _faults_of(working, program, fact_kinds(subject, shop.scales_told))
    return found


def _key(working: Working) -> tuple[object, ...]:
    return (working.calculator, working.say, working.show, *working.with_.items())


def _faults_of(working: Working, program: Program, kinds: Mapping[str, Kind]) -> tuple[Fault, ...]:
    if program.points is not None:
        message = f"{program.id} works on a table of points, which a seam does not have"
        return (Fault(codes.POINTS_NEEDED, message, "link to its page in place of it", path=("calculator",)),)
    faults: list[Fault] = []
    questions = program.questions
    for name, text in working.with_.items():
        question = questions.get(name)
        if question is None:
            do = offer(name, questions, f"use one of: {listed(questions)}")
            faults.append(Fault(codes.UNKNOWN_INPUT, f'{program.id} has no input "{name}"', do,
                                path=("with", name, KEY)))  # fmt: skip
        elif not _is_literal(text, question):
            found = check_expression(text, kinds, question.kind).faults
            faults += [fault.under(("with", name)) for fault in found]
    for name, question in questions.items():
        if question.default is None and name not in working.with_ and not faults:
            message = f'{program.id} needs the input "{name}": {question.ask}'
            faults.append(Fault(codes.MISSING_INPUT, message, f"add {name}: to with", path=("with",)))
    for at, name in enumerate(working.show):
        if name not in program.outputs:
            do = offer(name, program.outputs, f"show one of: {listed(program.outputs)}")
            message = f'{program.id} has no answer "{name}"'
            faults.append(Fault(codes.UNKNOWN_OUTPUT, message, do, path=("show", at)))
    return tuple(faults)


def _is_literal(text: str, question: Question) -> bool:
    if isinstance(question.kind, ChoiceKind):
        return text in question.choices
    return split_quantity(text) is not None


def work_out(working: Working, program: Program, facts: Facts, segment: str, shop: Shop) -> WorkedOut | Fault:
    """Work a calculator out; a fault is an input outside what the calculator admits."""
    key = (segment, *_key(working), *facts.values())
    found = shop.known.get(key)
    if found is None:
        found = shop.known[key] = _work_out(working, program, facts, segment)
    return found


def _work_out(working: Working, program: Program, facts: Facts, segment: str) -> WorkedOut | Fault:
    values = fact_values(facts)
    given: dict[str, str | float | NoAnswer] = {}
    for name, text in working.with_.items():
        found = text if _is_literal(text, program.questions[name]) else evaluate_expression(text, values)
        given[name] = _as_given(found)
    answer = run(program, given)
    if answer.faults:
        fault = answer.faults[0]
        message = f"{segment or program.id}: {fault.message}"
        return Fault(codes.BAD_GIVEN, message, fault.do, path=("with", *fault.path[1:]))
    return WorkedOut(
        calculator=program.id,
        say=working.say or program.record.title,
        segment=segment,
        given=tuple(_given_shown(program, answer, name) for name in working.with_),
        answers=tuple(_answer_shown(program, answer, name) for name in working.show),
        remarks=remarks_of(answer),
        fragment=_fragment(answer, working.with_),
    )


def _as_given(value: Value) -> str | float | NoAnswer:
    return value if isinstance(value, (str, NoAnswer)) else float(value)


def started(program: Program, usual: Usual) -> WorkedOut:
    """Work a calculator out for the values that fill its page at first."""
    given = starting_values(program)
    found = run_points(program, program.points.start, given) if program.points is not None else None
    answer = run(program, given) if found is None else found.answer
    return WorkedOut(
        calculator=program.id, say=program.record.title, segment="",
        given=tuple(_given_shown(program, answer, name) for name in given),
        answers=tuple(_answer_shown(program, answer, name) for name in program.outputs),
        remarks=remarks_of(answer), fragment="", points=point_rows(program, found) if found is not None else (),
        steps=step_values(program, answer, usual),
    )  # fmt: skip


def starting_values(program: Program) -> dict[str, str]:
    """Return what fills a calculator's page at first."""
    return {
        name: start for name, question in program.questions.items()
        if (start := question.start if question.start is not None else question.default) is not None
    }  # fmt: skip


def remarks_of(answer: Answer) -> tuple[Remark, ...]:
    """Return the warnings that hold, and those that cannot be judged."""
    return tuple(
        Remark(_level(judged.level), judged.say, unjudged=judged.holds is None)
        for judged in answer.warnings if judged.holds is not False
    )  # fmt: skip


def _level(level: str) -> Literal["stop", "care", "note"]:
    return "stop" if level == "stop" else "care" if level == "care" else "note"


def _given_shown(program: Program, answer: Answer, name: str) -> Shown:
    question, taken = program.questions[name], answer.inputs[name]
    if taken.value is None:
        return Shown(question.ask, "", why="it is unknown")
    if isinstance(taken.value, str):
        return Shown(question.ask, question.choices.get(taken.value, taken.value))
    return Shown(question.ask, plain(float(f"{taken.value:.{GIVEN_FIGURES}g}")), taken.unit)


def _answer_shown(program: Program, answer: Answer, name: str) -> Shown:
    say, result = program.record.outputs[name].say, answer.outputs[name]
    if result.value is None:
        return Shown(say, "", why=result.why or "no answer")
    number = result.value if isinstance(result.value, float) else None
    return Shown(say, result.text, result.unit, because=result.because or "", number=number)


def _fragment(answer: Answer, names: Mapping[str, str]) -> str:
    """Write the inputs so that the calculator's page can be opened with them."""
    parts = []
    for name in names:
        taken = answer.inputs[name]
        if isinstance(taken.value, str):
            parts.append(f"{name}:{taken.value}")
        elif taken.value is not None:
            parts.append(f"{name}:{plain(taken.value)}" + (f"~{taken.unit}" if taken.unit else ""))
    return "in=" + ",".join(parts)


