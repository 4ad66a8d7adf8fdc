"""Compiling in hand: what is known of a calculator so far, filled section by section, and the faults found."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from builder.formula.check import Scope, check
from builder.formula.codes import UNREACHABLE_ROW
from builder.formula.decision import Branch, Decision, form_faults
from builder.formula.evaluate import Worker, worker_of
from builder.formula.expressions import disagreement
from builder.formula.fault import Fault, Path
from builder.formula.inputs import Question, compile_fixed, compile_input
from builder.formula.kinds import TRUTH, Kind, choice
from builder.formula.lookup import CompiledTable, LookupTable, compile_table
from builder.formula.order import in_order
from builder.formula.parse import parse
from builder.formula.points.compiling import measured_kinds
from builder.formula.reach import unreachable_rows
from builder.model.expression import Expression, names_read
from builder.model.records.calculator import Calculator, Row
from builder.model.records.table import Table


class Step(NamedTuple):
    """One formula or one decision."""

    name: str
    node: Expression | None
    worker: Worker | None
    decision: Decision | None


@dataclass
class Compiling:
    """The state of one compilation; only `compile_calculator` drives it."""

    record: Calculator
    records: Mapping[str, Table]
    questions: dict[str, Question] = field(default_factory=dict)
    fixed: dict[str, float] = field(default_factory=dict)
    constants: dict[str, Fraction] = field(default_factory=dict)
    tables: dict[str, LookupTable | None] = field(default_factory=dict)
    kinds: dict[str, Kind | None] = field(default_factory=dict)
    trees: dict[Path, Expression] = field(default_factory=dict)
    """Every formula that could be parsed, by its field."""
    steps: list[Step] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)

    def fault(self, faults: Iterable[Fault]) -> None:
        """Keep faults."""
        self.faults.extend(faults)

    def questions_and_constants(self) -> None:
        """Read inputs and fixed values, and take the names that a fit of points gives."""
        self.kinds.update(measured_kinds(self.record))
        for name, asked in self.record.inputs.items():
            question, faults = compile_input(name, asked)
            self.fault(faults)
            self.kinds[name] = question.kind if question else None
            if question:
                self.questions[name] = question
        for name, fixed in self.record.fixed.items():
            self.kinds[name] = None
            constant = compile_fixed(fixed)
            if isinstance(constant, Fault):
                self.fault([constant.under(("fixed", name))])
                continue
            self.kinds[name], self.fixed[name] = constant.kind, constant.reading.base
            if constant.is_bare:
                self.constants[name] = constant.reading.own

    def lookups(self) -> None:
        """Compile the tables; one that is missing or broken is told elsewhere."""
        for name, id_ in self.record.tables.items():
            record = self.records.get(id_)
            self.tables[name] = _table(id_, _Held(record)).table if record is not None else None

    def formulas(self) -> None:
        """Parse formulas and decisions, then check each after what it needs."""
        needs: dict[str, list[str]] = {}
        for name, text in self.record.work.items():
            needs[name] = self.names([self.parsed(("work", name), text)])
        for name, rows in self.record.decide.items():
            self.fault(fault.under(("decide", name)) for fault in form_faults(rows))
            fields = [(("decide", name, number, "if"), row.if_) for number, row in enumerate(rows)]
            needs[name] = self.names(self.parsed(path, text) for path, text in fields if text is not None)
        order, faults = in_order(needs, self.record)
        self.fault(faults)
        self.kinds.update(dict.fromkeys(needs))
        for name in order:
            if name in self.record.work:
                self.formula(name)
            else:
                self.decision(name, self.record.decide[name])

    def parsed(self, path: Path, text: str) -> Expression | None:
        """Parse one field's formula and keep its tree or its fault."""
        tree = parse(text)
        if isinstance(tree, Fault):
            self.fault([tree.under(path)])
            return None
        self.trees[path] = tree
        return tree

    def names(self, trees: Iterable[Expression | None]) -> list[str]:
        """Return the names that formulas read, each once."""
        found = (node.name for tree in trees if tree is not None for node in names_read(tree))
        return list(dict.fromkeys(found))

    def checked(self, path: Path, wanted: Kind | None = None) -> Kind | None:
        """Check one field's formula; None where it is at fault."""
        tree = self.trees.get(path)
        if tree is None:
            return None
        kind, faults = check(tree, Scope(self.kinds, self.tables, self.constants))
        if kind is not None and wanted is not None:
            faults += disagreement(kind, wanted)
        self.fault(fault.under(path) for fault in faults)
        return None if faults else kind

    def worker(self, path: Path) -> Worker:
        """Return the function of a formula that was checked without fault."""
        return worker_of(self.trees[path], {name: table for name, table in self.tables.items() if table is not None})

    def formula(self, name: str) -> None:
        """Check one formula and make its step."""
        path: Path = ("work", name)
        kind = self.kinds[name] = self.checked(path)
        if kind is not None:
            self.steps.append(Step(name, self.trees[path], self.worker(path), None))

    def decision(self, name: str, rows: tuple[Row, ...]) -> None:
        """Check one decision, its rows' reachability too, and make its step."""
        branches: list[Branch] = []
        conditions: list[Expression] = []
        is_sound = bool(rows)
        for number, row in enumerate(rows):
            path: Path = ("decide", name, number, "if")
            answer = row.answer or row.otherwise or ""
            if row.if_ is None:
                branches.append(Branch(None, None, answer, row.say, row.because))
            elif self.checked(path, TRUTH) is None:
                is_sound = False
            else:
                conditions.append(self.trees[path])
                branches.append(Branch(self.trees[path], self.worker(path), answer, row.say, row.because))
        if not is_sound:
            return
        decision = Decision(tuple(branches))
        self.kinds[name] = choice(decision.ids)
        self.steps.append(Step(name, None, None, decision))
        for number in unreachable_rows(conditions, self.kinds):
            do = "put it above the rows that take its cases, or take it out"
            place = ("decide", name, number, "if")
            self.fault([Fault(UNREACHABLE_ROW, "this row is never reached", do, path=place)])

    def decisions(self) -> set[str]:
        """Return the names that are decisions."""
        return set(self.record.decide)

    def warnings(self) -> list[tuple[Expression, Worker]]:
        """Check the conditions of the warnings; shorter than the record's list where one is at fault."""
        made = []
        for number, caution in enumerate(self.record.warnings):
            path: Path = ("warnings", number, "if")
            if self.parsed(path, caution.if_) is not None and self.checked(path, TRUTH) is not None:
                made.append((self.trees[path], self.worker(path)))
        return made


@dataclass(frozen=True, slots=True, eq=False)
class _Held:
    """A table record that a cache can hold: records hold dicts and cannot be hashed."""

    record: Table

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Held) and other.record is self.record

    def __hash__(self) -> int:
        return id(self.record)


@lru_cache(maxsize=256)
def _table(id_: str, held: _Held) -> CompiledTable:  # noqa: ARG001 - the id keeps two tables apart
    return compile_table(held.record)
