"""A calculator put to work with a segment's facts -> its answers, or what is wrong with what it was given."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Any, Literal, NamedTuple

from builder.formula import (
    TRUTH,
    Answer,
    ChoiceKind,
    Fault,
    Kind,
    NoAnswer,
    Program,
    Usual,
    Value,
    check_expression,
    choice,
    evaluate_expression,
    run,
)
from builder.formula.facts import METHOD, UNKNOWN_FACT, Scales, plan_kinds
from builder.formula.inputs import Question
from builder.formula.inputs import answer as answer_to
from builder.formula.numbers import plain
from builder.formula.plan_script import is_literal
from builder.formula.points.answers import run_points
from builder.model.decided import Chosen
from builder.model.ledger import Ledger, Remembered
from builder.model.near import listed, offer
from builder.model.records import Record
from builder.model.records.law import Method
from builder.model.records.planning import Planning
from builder.model.records.working import Working
from builder.model.reference import Ref
from builder.model.shelf import of_kind
from builder.model.summary import KEY
from builder.model.work import Remark, WorkedOut
from builder.model.work import Value as Shown
from builder.work import codes
from builder.work.naming import Naming, named_answers
from builder.work.points import point_rows
from builder.work.steps import step_values

Given = str | float | NoAnswer
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
    planning: Planning | None = None
    """How jobs are planned; None where no layer says it."""
    is_drawn: bool = True
    """Whether pages are made of it; else what only a page shows is not worked out, and only faults are asked for."""
    known: dict[tuple[object, ...], Result] = field(default_factory=dict)
    """Worked out before: the same calculator with the same values gives the same answers."""
    checked: dict[tuple[object, ...], tuple[Fault, ...]] = field(default_factory=dict)
    """Checked before."""
    sound: Remembered[str, bool] = field(default_factory=Remembered)
    """Of each method asked for before, whether it can be worked out."""
    decisions: Remembered[str, tuple[Fault, ...]] = field(default_factory=Remembered)
    """Of each decision asked for before, what is wrong with it."""
    facts: Remembered[str, dict[str, Kind]] = field(default_factory=Remembered)
    """What every plan, and every value of a step, may name, once it was asked for."""
    uses: Remembered[tuple[object, ...], tuple[Any, ...]] = field(default_factory=Remembered)
    """What a seam takes of supplies, once it was asked for: by act, method and seam."""
    taking: Remembered[str, frozenset[str]] = field(default_factory=Remembered)
    """The acts for which any plan takes supplies, once they were asked for."""
    chosen: dict[tuple[object, ...], Chosen] = field(default_factory=dict)
    """Decided before: the same decision with the same inputs known and open leaves the same."""

    def noting(self, ledger: Ledger) -> Shop:
        """Return the same, its memories still empty, noting what they rest on."""
        return replace(
            self, sound=Remembered(ledger), decisions=Remembered(ledger), facts=Remembered(ledger),
            uses=Remembered(ledger), taking=Remembered(ledger),
        )  # fmt: skip

    @property
    def scales_told(self) -> Scales:
        """The scales, and the ids of the methods beside them: the words that facts may be."""
        return {**self.scales, METHOD: tuple(ref.id for ref, _ in of_kind(self.shelf, "method", Method))}

    def naming(self, subject: str = "seam") -> Naming:
        """Return the names at the beginning of a plan, or of a step's values."""
        return Naming(self.facts.get(subject, lambda: plan_kinds(self.scales_told, subject)))


def faults_of(working: Working, program: Program, shop: Shop, naming: Naming) -> tuple[Fault, ...]:
    """Check what a calculator is given and asked for, over the facts of a segment and what the plan has named."""
    key = (_key(working), tuple(naming.added.items()))
    found = shop.checked.get(key)
    if found is None:
        found = shop.checked[key] = (*_faults_of(working, program, naming),)
    return found


def _key(working: Working) -> tuple[object, ...]:
    return (working.calculator, working.say, working.when, working.show, working.otherwise, working.quiet,
            *working.with_.items())  # fmt: skip


def _faults_of(working: Working, program: Program, naming: Naming) -> list[Fault]:
    if program.points is not None:
        message = f"{program.id} works on a table of points, which a seam does not have"
        return [Fault(codes.POINTS_NEEDED, message, "link to its page in place of it", path=("calculator",))]
    faults = [] if working.when is None else [
        fault.under(("when",)) for fault in check_expression(working.when, naming.over(working.when), TRUTH).faults
    ]  # fmt: skip
    given = [*_given_faults(working, program, naming)]
    faults += given
    for name, question in program.questions.items():
        if question.default is None and name not in working.with_ and not given:
            message = f'{program.id} needs the input "{name}": {question.ask}'
            faults.append(Fault(codes.MISSING_INPUT, message, f"add {name}: to with", path=("with",)))
    for at, name in enumerate(working.show):
        if name not in program.outputs:
            do = offer(name, program.outputs, f"show one of: {listed(program.outputs)}")
            message = f'{program.id} has no answer "{name}"'
            faults.append(Fault(codes.UNKNOWN_OUTPUT, message, do, path=("show", at)))
    return faults


def _given_faults(working: Working, program: Program, naming: Naming) -> Iterator[Fault]:
    questions = program.questions
    for name, text in working.with_.items():
        question = questions.get(name)
        if question is None:
            do = offer(name, questions, f"use one of: {listed(questions)}")
            yield Fault(codes.UNKNOWN_INPUT, f'{program.id} has no input "{name}"', do, path=("with", name, KEY))
        elif not is_literal(text, question):
            found = check_expression(text, naming.over(text), _wanted(question)).faults
            yield from (fault.under(("with", name)) for fault in found)
        elif isinstance(value := answer_to(question, text), Fault):
            yield Fault(codes.BAD_GIVEN, f"{program.id}: {value.message}", value.do, path=("with", name))


def _wanted(question: Question) -> Kind:
    """What an input takes: its choices, and `unknown`, which is no answer to a calculator that does not ask for it."""
    kind = question.kind
    return choice(kind.ids | {UNKNOWN_FACT}) if isinstance(kind, ChoiceKind) else kind


class Result(NamedTuple):
    """A calculator worked out: what is shown, and what later formulas may name."""

    shown: WorkedOut | None
    """None where it is left out."""
    named: Mapping[str, Value]
    wrong: Fault | None = None
    """What of the given the calculator does not admit."""
    answer: Answer | None = None
    """All that the calculator answers, for what is not shown; None where it is left out."""


def work_out(
    working: Working, program: Program, values: Mapping[str, Value], segment: str, shop: Shop
) -> Result:
    """Work a calculator out. What it is given and does not admit is no answer to it, and the reason is said."""
    if working.when is not None and evaluate_expression(working.when, values) is False:
        return Result(None, named_answers(working, program, {}))
    given = dict(_given(working, program, values))
    key = (segment, working.as_, *_key(working), *given.values())
    found = shop.known.get(key)
    if found is None:
        found = shop.known[key] = _work_out(working, program, given, segment)
    return found


def _given(working: Working, program: Program, values: Mapping[str, Value]) -> Iterator[tuple[str, Given]]:
    for name, text in working.with_.items():
        question = program.questions[name]
        if is_literal(text, question):
            yield name, text
            continue
        found = evaluate_expression(text, values)
        is_foreign = found == UNKNOWN_FACT and found not in question.choices
        yield name, NoAnswer("it is unknown") if is_foreign else _as_given(found)


def _work_out(working: Working, program: Program, given: Mapping[str, Given], segment: str) -> Result:
    answer, wrong = run(program, given), None
    if answer.faults:
        first = answer.faults[0]
        message = f"{segment or program.id}: {first.message}"
        wrong = Fault(codes.BAD_GIVEN, message, first.do, path=("with", *first.path[1:]))
        lost = {str(fault.path[-1]): NoAnswer(f"{fault.message}; {fault.do}") for fault in answer.faults}
        answer = run(program, {**given, **lost})
    shown = WorkedOut(
        calculator=program.id,
        say=working.say or program.record.title,
        segment=segment,
        given=tuple(_given_shown(program, answer, name) for name in working.with_),
        answers=tuple(
            _answer_shown(program, answer, name)._replace(instead=working.otherwise or "") for name in working.show
        ),
        remarks=() if working.quiet else remarks_of(answer),
        fragment=_fragment(answer, working.with_),
        names=working.show,
    )
    return Result(shown, named_answers(working, program, answer.values), wrong, answer)


def _as_given(value: Value) -> Given:
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


