"""Checking: from a formula's tree and the kinds of its names the kind of its value, with every fault at its place."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from builder.formula.codes import (
    UNITS_DISAGREE,
    UNKNOWN_CHOICE,
    UNKNOWN_NAME,
    UNKNOWN_UNIT,
    WRONG_ARGUMENTS,
    WRONG_KIND,
)
from builder.formula.fault import Fault
from builder.formula.functions import FUNCTIONS, OPERATORS, SIGNS
from builder.formula.kinds import BARE, ChoiceKind, Kind, NumberKind, TruthKind, choice, describe
from builder.formula.lookup import LookupTable
from builder.formula.rules import Argument, Complaint, Rule, raised, truths
from builder.formula.units import Unit, unit, unit_advice
from builder.model.expression import Binary, Call, Choice, Conditional, Expression, Name, Number, Unary, UnitName
from builder.model.near import near_names, offer


@dataclass(frozen=True, slots=True)
class Scope:
    """What a formula may name."""

    kinds: Mapping[str, Kind | None]
    """None is a name that is known but broken elsewhere: it makes no second fault."""
    tables: Mapping[str, LookupTable | None] = field(default_factory=dict)
    constants: Mapping[str, Fraction] = field(default_factory=dict)
    """Bare fixed values, which may be exponents."""


def check(node: Expression, scope: Scope) -> tuple[Kind | None, tuple[Fault, ...]]:
    """Return the kind of the formula's value, None where a fault hides it, and all faults."""
    checker = _Checker(scope)
    kind = checker.kind(node)
    return kind, tuple(checker.faults)


@dataclass
class _Checker:
    scope: Scope
    faults: list[Fault] = field(default_factory=list)

    def kind(self, node: Expression) -> Kind | None:
        match node:
            case Number():
                return BARE
            case Choice():
                return choice([node.id])
            case Name():
                return self.name(node)
            case Unary():
                return self.ruled(SIGNS[node.operator].rule, (node.operand,), node.at, node.at + len(node.operator))
            case Binary():
                return self.binary(node)
            case Conditional():
                return self.conditional(node)
            case Call():
                return self.call(node)
            case UnitName():
                raise AssertionError("a unit stands only inside in_unit and with_unit")

    def name(self, node: Name) -> Kind | None:
        if node.name in self.scope.kinds:
            return self.scope.kinds[node.name]
        if node.name in self.scope.tables:
            self.fault(WRONG_KIND, f"{node.name} is a table", f"write table({node.name}, column, key)", node)
            return None
        do = offer(node.name, self.scope.kinds, "write one of " + ", ".join(sorted(self.scope.kinds)))
        if unit(node.name) is not None and not near_names(node.name, self.scope.kinds):
            do = "a unit stands only second in in_unit and with_unit: with_unit(3, " + node.name + ")"
        self.fault(UNKNOWN_NAME, f'there is no "{node.name}" here', do, node)
        return None

    def binary(self, node: Binary) -> Kind | None:
        if node.operator in ("==", "!="):
            self.possible(node)
        start, end = node.at, node.at + len(node.operator)
        if node.operator != "**":
            return self.ruled(OPERATORS[node.operator].rule, (node.left, node.right), start, end)
        base, exponent = self.kind(node.left), self.kind(node.right)
        if base is None or exponent is None:
            return None
        found = raised(base, exponent, self.constant(node.right))
        return self.settled(found, (node.left, node.right), start, end)

    def ruled(self, rule: Rule | None, operands: tuple[Expression, ...], start: int, end: int) -> Kind | None:
        """Apply a row's unit rule to what the operands are; units stand for themselves."""
        arguments: list[Argument] = []
        for operand in operands:
            found = self.unit(operand) if isinstance(operand, UnitName) else self.kind(operand)
            if found is not None:
                arguments.append(found)
        if rule is None or len(arguments) < len(operands):
            return None
        return self.settled(rule(arguments), operands, start, end)

    def settled(self, found: Kind | Complaint, operands: tuple[Expression, ...], start: int, end: int) -> Kind | None:
        if not isinstance(found, Complaint):
            return found
        if found.argument is not None:
            start, end = operands[found.argument].start, operands[found.argument].end
        self.faults.append(Fault(found.code, found.message, found.do, start, end))
        return None

    def unit(self, node: UnitName) -> Unit | None:
        found = unit(node.name)
        if found is None:
            self.fault(UNKNOWN_UNIT, f'there is no unit "{node.name}"', unit_advice(node.name), node)
        return found

    def possible(self, node: Binary) -> None:
        """A quoted id must be one that the other side can be."""
        for mine, other in ((node.left, node.right), (node.right, node.left)):
            if not isinstance(mine, Choice) or isinstance(other, Choice):
                continue
            kind = _Checker(self.scope).kind(other)
            if isinstance(kind, ChoiceKind) and mine.id not in kind.ids:
                do = offer(mine.id, kind.ids, "write one of " + ", ".join(sorted(kind.ids)))
                self.fault(UNKNOWN_CHOICE, f'this is never "{mine.id}"', do, mine)

    def conditional(self, node: Conditional) -> Kind | None:
        condition = self.kind(node.condition)
        if condition is not None:
            self.settled(truths([condition]), (node.condition,), node.at, node.at + 2)
        then, otherwise = self.kind(node.then), self.kind(node.otherwise)
        if then is None or otherwise is None:
            return None
        if isinstance(then, ChoiceKind) and isinstance(otherwise, ChoiceKind):
            return choice(then.ids | otherwise.ids)
        if then != otherwise:
            message = f"one branch is {describe(then)}, the other {describe(otherwise)}"
            self.faults.append(
                Fault(UNITS_DISAGREE, message, "make both branches alike", node.otherwise.start, node.otherwise.end)
            )
            return None
        if isinstance(then, TruthKind):
            self.fault(WRONG_KIND, "the branches are conditions", "write them with and, or, not", node)
            return None
        return then

    def call(self, node: Call) -> Kind | None:
        if node.function == "table":
            return self.table(node)
        return self.ruled(FUNCTIONS[node.function].rule, node.arguments, node.start, node.start + len(node.function))

    def table(self, node: Call) -> Kind | None:
        """The table and its column must exist, and each key must be of the key's kind."""
        named, column, *asked = node.arguments
        assert isinstance(named, Name)
        assert isinstance(column, Name)
        kinds = [self.kind(key) for key in asked]
        if named.name not in self.scope.tables:
            do = offer(named.name, self.scope.tables, "name the table under tables")
            self.fault(UNKNOWN_NAME, f'there is no table "{named.name}" here', do, named)
            return None
        table = self.scope.tables[named.name]
        if table is None:
            return None
        if len(asked) != len(table.keys):
            names = ", ".join(key.name for key in table.keys)
            do = f"write table({named.name}, {column.name}, {names})"
            self.fault(WRONG_ARGUMENTS, f"the table has {len(table.keys)} keys, {len(asked)} are given", do, node)
            return None
        for node_asked, kind, key in zip(asked, kinds, table.keys, strict=True):
            self.key(node_asked, kind, key.kind, key.name)
        if column.name not in table.columns:
            do = offer(column.name, table.columns, "write one of " + ", ".join(table.columns))
            self.fault(UNKNOWN_NAME, f'the table has no column "{column.name}"', do, column)
            return None
        return table.columns[column.name].kind

    def key(self, node: Expression, given: Kind | None, wanted: Kind, name: str) -> None:
        if given is None or given == wanted:
            return
        if isinstance(given, ChoiceKind) and isinstance(wanted, ChoiceKind):
            if not given.ids & wanted.ids:
                do = "write one of " + ", ".join(sorted(wanted.ids))
                self.fault(UNKNOWN_CHOICE, f"the table's {name} is never one of these", do, node)
            return
        code = UNITS_DISAGREE if isinstance(given, NumberKind) and isinstance(wanted, NumberKind) else WRONG_KIND
        self.fault(code, f"the key {name} is {describe(wanted)}, not {describe(given)}", "give it what it asks", node)

    def constant(self, node: Expression) -> Fraction | None:
        """Return an exponent that does not depend on inputs, exactly."""
        match node:
            case Number():
                return Fraction(node.text)
            case Name():
                return self.scope.constants.get(node.name)
            case Unary(operator="-"):
                value = self.constant(node.operand)
                return None if value is None else -value
            case Binary(operator="/"):
                above, below = self.constant(node.left), self.constant(node.right)
                return None if above is None or not below else above / below
        return None

    def fault(self, code: object, message: str, do: str, node: Expression) -> None:
        self.faults.append(Fault(code, message, do, node.start, node.end))  # type: ignore[arg-type]
