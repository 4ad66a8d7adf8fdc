"""Lessons -> what their questions and tests name that no calculator has, and what gives nothing to ask or to judge.

That a record or a step exists at all is told where references are resolved.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.check import codes
from builder.formula import ChoiceKind, Fault, NumberKind, Program
from builder.formula.inputs import Question, answer, read_quantity, read_tolerance
from builder.formula.kinds import TextKind
from builder.formula.outputs import Shown
from builder.model.links import Catalogue
from builder.model.near import listed, offer
from builder.model.records import Record
from builder.model.records.lesson import Lesson, Practical
from builder.model.reference import Ref, parse_reference
from builder.model.summary import KEY, Summary

WITHDRAWN = "withdrawn"
LEAST_STEPS = 4
"""Fewer steps have too few orders to ask for."""
BETWEEN = " to "
Programs = Mapping[str, Program]


def lesson_faults(
    shelf: Mapping[Ref, Record], catalogue: Catalogue, programs: Programs, *, is_trained: bool
) -> Iterator[tuple[Ref, Fault]]:
    """Check every lesson of the book; `is_trained` says whether a layer has a `training.yaml`."""
    for ref in sorted(shelf):
        lesson = shelf[ref]
        if isinstance(lesson, Lesson):
            yield from ((ref, fault) for fault in _faults(lesson, catalogue, programs))
            if lesson.questions is not None and not is_trained:
                yield ref, Fault(codes.NO_TRAINING, "no layer says how many questions a lesson asks",
                                 "copy training.yaml of the supplied library beside your folders of records",
                                 path=("questions", KEY), level="warning")  # fmt: skip


def _faults(lesson: Lesson, catalogue: Catalogue, programs: Programs) -> Iterator[Fault]:
    yield from _procedure_faults(lesson, catalogue)
    yield from _calculator_faults(lesson, programs)
    yield from _range_faults(lesson, programs)
    for at, practical in enumerate(lesson.practical):
        program = programs.get(practical.calculator)
        if program is not None:
            yield from (fault.under(("practical", at)) for fault in _test_faults(practical, program))


def _procedure_faults(lesson: Lesson, catalogue: Catalogue) -> Iterator[Fault]:
    """Of all phases of a procedure that are named, or of the whole of it, there must be steps enough."""
    named: dict[Ref, list[tuple[int, Ref]]] = {}
    for at, text in enumerate(lesson.questions.procedures if lesson.questions is not None else ()):
        ref = parse_reference(text, "procedure")
        procedure = catalogue.find(ref) if ref is not None and ref.kind == "procedure" else None
        if ref is not None and procedure is not None and (not ref.anchor or ref.anchor in procedure.anchors):
            named.setdefault(procedure.ref, []).append((at, ref))
    for ref, several in named.items():
        if catalogue.summaries[ref].status == WITHDRAWN:
            message = f'its questions are drawn from "{catalogue.title(ref)}", which is withdrawn'
            yield Fault(codes.LEANS_ON_UNISSUED, message, "name what takes its place",
                        path=("questions", "procedures", several[0][0]), level="warning")  # fmt: skip
        count = _steps(catalogue.summaries[ref], [one.anchor for _, one in several])
        if count < LEAST_STEPS:
            where = "" if any(not one.anchor for _, one in several) else " in the phase of that step"
            message = f'"{catalogue.title(ref)}" has {count} step{"s" * (count != 1)}{where}, too few to put in order'
            yield Fault(codes.NOTHING_TO_ASK, message, "name the whole procedure, a longer phase, or a second one",
                        path=("questions", "procedures", several[0][0]))  # fmt: skip


def _steps(procedure: Summary, keys: list[str]) -> int:
    phases = {step.path[1] for step in procedure.steps if "" in keys or step.key in keys}
    return sum(step.path[1] in phases for step in procedure.steps)


def _calculator_faults(lesson: Lesson, programs: Programs) -> Iterator[Fault]:
    for at, id_ in enumerate(lesson.questions.calculators if lesson.questions is not None else ()):
        program = programs.get(id_)
        if program is None:
            continue
        path = ("questions", "calculators", at)
        if program.points is not None:
            yield _points(program, ("questions", "calculators", at))
        elif not any(isinstance(one.kind, NumberKind) or _is_decided(name, program)
                     for name, one in program.outputs.items()):  # fmt: skip
            yield Fault(codes.NOTHING_TO_ASK, f"{id_} answers with a text, which nobody can be asked for",
                        "name a calculator that answers with a number or a decision", path=path)  # fmt: skip


def _is_decided(name: str, program: Program) -> bool:
    return name in program.record.decide


def _points(program: Program, path: tuple[str | int, ...]) -> Fault:
    message = f"{program.id} works on a table of points, which a question or a test does not have"
    return Fault(codes.NOTHING_TO_ASK, message, "name another calculator", path=path)


def _range_faults(lesson: Lesson, programs: Programs) -> Iterator[Fault]:
    asked = lesson.questions
    if asked is None or not {*asked.calculators, *asked.from_} <= programs.keys():
        return  # a misspelt name has a message of its own, and may be meant for the other
    for id_, ranges in asked.from_.items():
        path = ("questions", "from", id_)
        if id_ not in asked.calculators:
            yield Fault(codes.TEST_NAMES_NOTHING, f"no question is drawn from {id_}",
                        offer(id_, asked.calculators, "add it to calculators, or take it out"),
                        path=(*path, KEY))  # fmt: skip
            continue
        program = programs[id_]
        for name, text in ranges.items():
            question = program.questions.get(name)
            if question is None:
                yield _no_input(name, program, (*path, name, KEY))
            elif (wrong := _wrong_range(question, text)) is not None:
                yield Fault(codes.TEST_GIVES_WRONG, *wrong, path=(*path, name))


def _wrong_range(question: Question, text: str) -> tuple[str, str] | None:
    if question.choices:
        return f"{question.id} is chosen and not counted", "take it out: every choice is drawn"
    values = []
    for end in text.split(BETWEEN, 1):
        value = answer(question, end.strip())
        if isinstance(value, Fault):
            return value.message, value.do
        values.append(value)
    is_downwards = float(values[0]) > float(values[1])
    return (f'"{text}" goes downwards', "write the smaller one first") if is_downwards else None


def _no_input(name: str, program: Program, path: tuple[str | int, ...]) -> Fault:
    do = offer(name, program.questions, f"use one of: {listed(program.questions)}")
    return Fault(codes.TEST_NAMES_NOTHING, f'{program.id} has no input "{name}"', do, path=path)


def _test_faults(practical: Practical, program: Program) -> Iterator[Fault]:
    if program.points is not None:
        yield _points(program, ("calculator",))
        return
    yield from _given_faults(practical, program)
    for name, text in practical.passes.items():
        shown = program.outputs.get(name)
        if shown is None:
            yield _no_answer(name, program, ("passes", name, KEY))
        elif (wrong := _wrong_answer(name, shown, text)) is not None:
            yield Fault(codes.TEST_GIVES_WRONG, *wrong, path=("passes", name))
    for name, text in practical.compare.items():
        shown = program.outputs.get(name)
        if shown is None:
            yield _no_answer(name, program, ("compare", name, KEY))
        elif (wrong := _wrong_tolerance(name, shown, text)) is not None:
            yield Fault(codes.TEST_GIVES_WRONG, *wrong, path=("compare", name))
    if not practical.compare and not (practical.passes and practical.measured):
        lacks = "is passed with nothing" if not practical.passes else "has nothing that is measured or worked out"
        yield Fault(codes.TEST_JUDGES_NOTHING, f"this test {lacks}",
                    "write measured and passes, or compare", path=("key",))  # fmt: skip


def _given_faults(practical: Practical, program: Program) -> Iterator[Fault]:
    for name, values in practical.given.items():
        question = program.questions.get(name)
        if question is None:
            yield _no_input(name, program, ("given", name, KEY))
            continue
        if name in practical.measured:
            yield Fault(codes.TEST_GIVES_WRONG, f"{name} is given and measured", "take it out of one of the two",
                        path=("given", name, KEY))  # fmt: skip
        for text in values:
            value = answer(question, text)
            if isinstance(value, Fault):
                yield Fault(codes.TEST_GIVES_WRONG, value.message, value.do, path=("given", name))
    for name in practical.measured:
        if name not in program.questions:
            yield _no_input(name, program, ("measured", name, KEY))
    told = {*practical.given, *practical.measured}
    # A misspelt name is told above, and is most often the one that is missing.
    for name, question in program.questions.items() if told <= program.questions.keys() else ():
        if question.default is None and name not in told:
            yield Fault(codes.TEST_GIVES_WRONG, f'{program.id} needs the input "{name}": {question.ask}',
                        f"add {name}: to given or to measured", path=("calculator",))  # fmt: skip


def _no_answer(name: str, program: Program, path: tuple[str | int, ...]) -> Fault:
    do = offer(name, program.outputs, f"use one of: {listed(program.outputs)}")
    return Fault(codes.TEST_NAMES_NOTHING, f'{program.id} has no answer "{name}"', do, path=path)


def _wrong_answer(name: str, shown: Shown, text: str) -> tuple[str, str] | None:
    """Return what is wrong with an answer that a test is passed with."""
    if isinstance(shown.kind, ChoiceKind):
        ids = sorted(shown.kind.ids)
        return None if text in ids else (f'{name} is never "{text}"', offer(text, ids, f"write one of: {listed(ids)}"))
    if isinstance(shown.kind, TextKind):
        return f"{name} is a text, which no test is passed with", "name a decision or a number"
    reading = read_quantity(text, shown.unit)
    return (f'"{text}" cannot be used: {reading}', "write the number") if isinstance(reading, str) else None


def _wrong_tolerance(name: str, shown: Shown, text: str) -> tuple[str, str] | None:
    if not isinstance(shown.kind, NumberKind):
        return f"{name} is no number, so none can be near it", "write it under passes, or take it out"
    reading = read_tolerance(text, name, shown.unit)
    return (reading, "write how far the answer may be off") if isinstance(reading, str) else None
