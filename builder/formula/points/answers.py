"""Points and settings -> what a calculator of points answers; and its proofs, worked out again."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

from builder.formula.answer import Answer, Result
from builder.formula.codes import BAD_POINTS, PROOF_FAILS
from builder.formula.fault import Fault
from builder.formula.inputs import read_quantity
from builder.formula.no_answer import NoAnswer
from builder.formula.numbers import exact, to_float
from builder.formula.points.compiling import PointTable, measured_kinds
from builder.formula.points.deviations import LENGTHS, Fitted, Point, compare
from builder.formula.program import Program
from builder.formula.proofs import Expected
from builder.formula.run import as_taken, difference, run, take
from builder.model.records.calculator import Proof

DO = "find which is wrong, the points or the proof"


class PointAnswer(NamedTuple):
    """What comes of the points, and what the calculator's formulas make of it."""

    fitted: Fitted
    answer: Answer
    refused: str = ""
    """Why no fit was made, in the record's words; every output then has no answer."""


def run_points(program: Program, points: Sequence[Point], given: Mapping[str, str]) -> PointAnswer:
    """Fit the points, then work the calculator out. Where an input is at fault the answer says so."""
    table = program.points
    assert table is not None
    values, faults = take(program, given)
    inputs = as_taken(program, given, values)
    tolerance = values.get(table.record.tolerance)
    if faults or not isinstance(tolerance, float):
        return PointAnswer(Fitted((), None, {}), Answer(inputs, {}, (), {}, tuple(faults)))
    own = to_float(exact(tolerance) / table.reader.unit.factor)
    fitted = compare(points, own, table.least_breadth, table.mirror)
    if fitted.refused:
        why = str(getattr(table.record.refuse, fitted.refused))
        found = run(program, given, dict.fromkeys(measured_kinds(program.record), NoAnswer(why)))
        return PointAnswer(fitted, replace(found, warnings=()), why)
    return PointAnswer(fitted, run(program, given, dict(_in_base(table, fitted))))


def _in_base(table: PointTable, fitted: Fitted) -> Iterator[tuple[str, float]]:
    """Lengths in base units, as formulas take them."""
    for name, value in fitted.facts.items():
        yield name, to_float(exact(value) * table.reader.unit.factor) if name in LENGTHS else value


def start_faults(program: Program) -> tuple[Fault, ...]:
    """Return why the points that fill the page at first cannot be fitted, where they cannot."""
    table = program.points
    if table is None:
        return ()
    given = {name: question.start for name, question in program.questions.items() if question.start is not None}
    found = run_points(program, table.start, given)
    if not found.refused:
        return ()
    message = f"these points cannot be fitted: {found.refused.rstrip('.')}"
    return (Fault(BAD_POINTS, message, "correct the places, or which points are sound", path=("points", "start")),)


def prove_points(program: Program) -> tuple[Fault, ...]:
    """Fit the points of every proof again; return a fault for each number that is not as it should be."""
    faults = [*start_faults(program)]
    assert program.points is not None
    for number, (checked, proof) in enumerate(zip(program.proofs, program.record.proofs, strict=True)):
        found = run_points(program, program.points.proofs[number], checked.given)
        wrong = [*_output_faults(found, checked.expected), *_deviation_faults(program.points, found, proof)]
        faults += [fault.under(("proofs", number)) for fault in wrong]
    return tuple(faults)


def _output_faults(found: PointAnswer, expected: Mapping[str, Expected]) -> Iterator[Fault]:
    yield from found.answer.faults
    for name, one in expected.items():
        result = found.answer.outputs.get(name)
        message = difference(name, one, result) if result is not None else None
        if message is not None:
            yield Fault(PROOF_FAILS, message, DO, path=("expect", name))


def _deviation_faults(table: PointTable, found: PointAnswer, proof: Proof) -> Iterator[Fault]:
    own = table.reader.unit
    lengths = {row.name: row.length for row in found.fitted.deviations}
    for name, text in proof.deviations.items():
        wanted = read_quantity(text, own)
        within = read_quantity(proof.deviations_within, own)
        assert not isinstance(wanted, str)
        assert not isinstance(within, str)
        result = Result(lengths.get(name), own.name, "", found.refused or None)
        message = difference(name, Expected(to_float(wanted.own), to_float(within.own)), result)
        if message is not None:
            yield Fault(PROOF_FAILS, message, DO, path=("deviations", name))


