"""Calculators, tables, rules and methods -> programs that run, and every fault of their formulas and proofs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.formula import TRUTH, Fault, Program, check_expression, compile_calculator, compile_table, number, prove
from builder.formula.facts import Scales, fact_kinds
from builder.formula.kinds import Kind, kind_of_unit
from builder.formula.units import unit
from builder.model.problem import Problem
from builder.model.records import Record
from builder.model.records.calculator import Calculator
from builder.model.records.law import Mark, Method, Rule
from builder.model.records.table import Table
from builder.model.reference import Ref
from builder.model.summary import Locate, Path


def compile_programs(shelf: Mapping[Ref, Record]) -> tuple[dict[str, Program], tuple[tuple[Ref, Fault], ...]]:
    """Compile and prove every calculator; those with a fault are left out. Old names lead to the same program."""
    tables: dict[str, Table] = {}
    faults: list[tuple[Ref, Fault]] = []
    for ref, record in shelf.items():
        if isinstance(record, Table):
            faults += [(ref, fault) for fault in compile_table(record).faults]
            tables.update(dict.fromkeys((ref.id, *record.was), record))
    programs: dict[str, Program] = {}
    for ref in sorted(shelf):
        record = shelf[ref]
        if isinstance(record, Calculator):
            compiled = compile_calculator(record, tables, ref.id)
            found = compiled.faults
            if compiled.program is not None:
                programs.update(dict.fromkeys((ref.id, *record.was), compiled.program))
                found += prove(compiled.program)
            faults += [(ref, fault) for fault in found]
    return programs, tuple(faults)


def expression_faults(shelf: Mapping[Ref, Record], scales: Scales) -> Iterator[tuple[Ref, Fault]]:
    """Check the conditions of rules and the formulas of methods over the facts they may use."""
    for ref in sorted(shelf):
        record = shelf[ref]
        if isinstance(record, Rule) and record.when.where is not None:
            kinds = fact_kinds(record.when.on or "", scales)
            yield from _checked(ref, record.when.where, kinds, TRUTH, ("when", "where"))
        elif isinstance(record, Method):
            kinds = fact_kinds("seam", scales)
            for at, limit in enumerate(record.limits):
                yield from _checked(ref, limit.if_, kinds, TRUTH, ("limits", at, "if"))
            if record.mark is not None:
                wanted = number("mm")
                yield from _checked(ref, record.mark.width, {**kinds, **_fixed(record.mark)}, wanted, ("mark", "width"))


def _fixed(mark: Mark) -> dict[str, Kind]:
    return {name: kind_of_unit(unit(fixed.unit) if fixed.unit else None) for name, fixed in mark.fixed.items()}


def _checked(
    ref: Ref, text: str, kinds: Mapping[str, Kind], wanted: Kind, path: Path
) -> Iterator[tuple[Ref, Fault]]:
    for fault in check_expression(text, kinds, wanted).faults:
        yield ref, fault.under(path)


def problem_of_fault(ref: Ref, fault: Fault, locate: Locate) -> Problem:
    """Place a fault of a formula in its file."""
    span = locate(ref, fault.path, fault.start, fault.end)
    return Problem(fault.code, span, fault.message, fault.do, level=fault.level)
