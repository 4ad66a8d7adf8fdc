"""Programs: from a calculator record and its tables what runs, or every fault that prevents it, each at its field.

`compile_calculator` is the entry point. It reads as a list: names, inputs, constants, formulas in the order they need
each other, outputs, warnings, proofs.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from builder.formula.charted import Charted, check_charts
from builder.formula.compiling import Compiling, Step
from builder.formula.evaluate import Worker
from builder.formula.fault import Fault
from builder.formula.inputs import Question
from builder.formula.kinds import Kind
from builder.formula.lookup import LookupTable
from builder.formula.outputs import Shown, check_outputs
from builder.formula.points.compiling import PointTable, compile_points
from builder.formula.proofs import CheckedProof, check_proofs
from builder.formula.sketched import Sketched, check_sketch
from builder.formula.sources import name_faults, number_faults, unused_faults
from builder.model.expression import Expression
from builder.model.records.calculator import Calculator
from builder.model.records.table import Table


class Warned(NamedTuple):
    """One warning, ready to be judged."""

    level: str
    say: str
    condition: Expression
    worker: Worker


@dataclass(frozen=True, slots=True)
class Program:
    """A calculator that runs; it holds functions, so each process compiles its own."""

    id: str
    record: Calculator
    questions: dict[str, Question]
    fixed: dict[str, float]
    """In base units."""
    tables: dict[str, LookupTable]
    """By the name used in formulas."""
    steps: tuple[Step, ...]
    """Formulas and decisions, each after what it needs."""
    kinds: dict[str, Kind]
    """Of every input, constant, formula and decision."""
    outputs: dict[str, Shown]
    warnings: tuple[Warned, ...]
    proofs: tuple[CheckedProof, ...]
    charts: dict[str, Charted] = field(default_factory=dict)
    sketch: Sketched | None = None
    points: PointTable | None = None
    """The table of points it works on, where it does."""


class Compiled(NamedTuple):
    """A program with its warnings, or None with the faults that prevent it.

    None without a fault means that one of its tables is missing or broken, which is told at the table.
    """

    program: Program | None
    faults: tuple[Fault, ...]


def compile_calculator(record: Calculator, tables: Mapping[str, Table], id: str = "") -> Compiled:
    """Compile a calculator; `tables` holds the table records by id, more than it uses if need be."""
    work = Compiling(record, tables)
    work.fault(name_faults(record))
    work.questions_and_constants()
    work.lookups()
    work.formulas()
    warnings = tuple(
        Warned(caution.level, caution.say, node, worker)
        for caution, (node, worker) in zip(record.warnings, work.warnings(), strict=False)
    )
    outputs, faults = check_outputs(record, work.kinds, work.decisions())
    work.fault(faults)
    work.fault(number_faults(work.trees))
    charts, faults = check_charts(record, work.questions, work.kinds, outputs)
    work.fault(faults)
    sketch, faults = check_sketch(record, work.kinds, outputs)
    work.fault(faults)
    points, faults = compile_points(record, work.questions)
    work.fault(faults)
    proofs: tuple[CheckedProof, ...] = ()
    if not any(fault.level == "error" for fault in work.faults):
        # What is unused or unproven because a formula is wrong is no second mistake.
        proofs, faults = check_proofs(record, work.questions, outputs)
        work.fault(faults)
        work.fault(unused_faults(record, work.trees))
    found = tuple(work.faults)
    kinds = {name: kind for name, kind in work.kinds.items() if kind is not None}
    lookups = {name: table for name, table in work.tables.items() if table is not None}
    if any(fault.level == "error" for fault in found) or len(lookups) < len(work.tables):
        return Compiled(None, found)
    steps = tuple(work.steps)
    program = Program(
        id, record, work.questions, work.fixed, lookups, steps, kinds, outputs, warnings, proofs, charts, sketch, points
    )
    return Compiled(program, found)
