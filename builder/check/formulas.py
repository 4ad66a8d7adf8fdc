"""Calculators, tables, rules and methods -> programs that run, and every fault of their formulas and proofs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.formula import TRUTH, Fault, Program, check_expression, compile_calculator, compile_table, prove
from builder.formula.facts import Scales, fact_kinds
from builder.formula.kinds import Kind
from builder.model.ledger import EVERY, Fact, mark_of
from builder.model.problem import Problem
from builder.model.records import Record
from builder.model.records.calculator import Calculator
from builder.model.records.law import Ban, Need, Owed, Rule, State
from builder.model.records.table import Table
from builder.model.reference import Ref
from builder.model.shelf import of_kind
from builder.model.summary import Locate, Path

KIND_MEANT = {
    "closes": "cavity", "panels": "panel", "openings": "opening", "neighbours": "panel", "seams": "seam",
    "joints": "seam",
}  # fmt: skip
"""Whose facts a condition is about, where its `of` says so; of `any` and `other-side` the state's record does."""


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


def program_facts(
    programs: Mapping[str, Program], shelf: Mapping[Ref, Record], said: Mapping[Ref, bytes]
) -> Iterator[tuple[Fact, bytes]]:
    """Yield of each calculator, by all its names, a mark of what it and the tables it reads say."""
    tables_of = {
        name: said[ref] for ref, record in of_kind(shelf, "table", Table) for name in (ref.id, *record.was)
    }  # fmt: skip
    for name, program in programs.items():
        tables = [tables_of.get(id_, b"") for id_ in program.record.tables.values()]
        yield ("program", name), mark_of(b"".join([said[Ref("calculator", program.id)], *tables]))
    yield ("program", EVERY), mark_of(sorted(programs))


def expression_faults(shelf: Mapping[Ref, Record], scales: Scales) -> Iterator[tuple[Ref, Fault]]:
    """Check the conditions of rules over the facts they may use; methods are checked where their plans are."""
    for ref in sorted(shelf):
        record = shelf[ref]
        if isinstance(record, Rule):
            yield from _rule_faults(ref, record, shelf, scales)


def _rule_faults(ref: Ref, rule: Rule, shelf: Mapping[Ref, Record], scales: Scales) -> Iterator[tuple[Ref, Fault]]:
    if rule.when.where is not None:
        yield from _checked(ref, rule.when.where, fact_kinds(rule.when.on or "", scales), TRUTH, ("when", "where"))
    excuse = rule.unless.state if rule.unless is not None else None
    conditions: tuple[tuple[Path, Need | Ban | Owed | None], ...] = (
        (("needs",), rule.needs), (("forbids",), rule.forbids), (("owes",), rule.owes), (("unless", "state"), excuse),
    )  # fmt: skip
    for path, condition in conditions:
        if condition is not None and condition.where is not None:
            kinds = fact_kinds(_whose_facts(condition, rule, shelf), scales)
            yield from _checked(ref, condition.where, kinds, TRUTH, (*path, "where"))


def _whose_facts(condition: Need | Ban | Owed, rule: Rule, shelf: Mapping[Ref, Record]) -> str:
    """Return the kind of subject whose facts a condition is about."""
    if condition.of == "same":
        return rule.when.on or ""
    state = shelf.get(Ref("state", condition.state))
    if condition.of in KIND_MEANT:
        return KIND_MEANT[condition.of]
    return state.of[0] if isinstance(state, State) and len(state.of) == 1 else ""


def _checked(
    ref: Ref, text: str, kinds: Mapping[str, Kind], wanted: Kind, path: Path
) -> Iterator[tuple[Ref, Fault]]:
    for fault in check_expression(text, kinds, wanted).faults:
        yield ref, fault.under(path)


def problem_of_fault(ref: Ref, fault: Fault, locate: Locate) -> Problem:
    """Place a fault of a formula in its file."""
    span = locate(ref, fault.path, fault.start, fault.end)
    return Problem(fault.code, span, fault.message, fault.do, level=fault.level)
