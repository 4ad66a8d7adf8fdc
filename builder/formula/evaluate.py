"""Evaluating: from a checked tree a Python function that works the formula out over a mapping of values.

The tree is turned into nested functions once; each then runs without looking at the tree again.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from builder.formula.functions import FUNCTIONS, OPERATORS, SIGNS, Form
from builder.formula.lookup import LookupTable
from builder.formula.no_answer import NoAnswer, Unanswered, Value
from builder.formula.numbers import to_float
from builder.formula.units import unit
from builder.model.expression import Binary, Call, Choice, Conditional, Expression, Name, Number, Unary, UnitName

Values = Mapping[str, Value]
Worker = Callable[[Values], Any]
"""Works a formula out; raises `Unanswered` where it has no answer."""
NO_TABLES: Mapping[str, LookupTable] = {}


def evaluate(worker: Worker, values: Values) -> Value:
    """Run a worker; no answer is returned as the value it is."""
    try:
        found: Value = worker(values)
    except Unanswered as lost:
        return lost.answer
    return found


def worker_of(node: Expression, tables: Mapping[str, LookupTable] = NO_TABLES) -> Worker:
    """Turn a checked tree into a worker; numbers are in base units throughout."""
    match node:
        case Number():
            value = node.value
            return lambda _: value
        case Choice():
            text = node.id
            return lambda _: text
        case Name():
            return _name(node.name)
        case Unary():
            meaning, operand = SIGNS[node.operator].python, worker_of(node.operand, tables)
            assert meaning is not None
            return lambda values: meaning(operand(values))
        case Binary():
            return _binary(node.operator, worker_of(node.left, tables), worker_of(node.right, tables))
        case Conditional():
            condition, then = worker_of(node.condition, tables), worker_of(node.then, tables)
            otherwise = worker_of(node.otherwise, tables)
            return lambda values: then(values) if condition(values) else otherwise(values)
        case Call():
            return _call(node, tables)
        case UnitName():
            raise AssertionError("a unit stands only inside in_unit and with_unit")


def _name(name: str) -> Worker:
    def read(values: Values) -> object:
        value = values[name]
        if isinstance(value, NoAnswer):
            raise Unanswered(value)
        return value

    return read


def _binary(operator: str, left: Worker, right: Worker) -> Worker:
    if operator in ("and", "or"):
        return _logic(left, right, decisive=operator == "or")
    meaning = OPERATORS[operator].python
    assert meaning is not None
    return lambda values: meaning(left(values), right(values))


def _logic(left: Worker, right: Worker, decisive: bool) -> Worker:
    """One side may decide alone, though the other has no answer: false decides `and`, true decides `or`."""

    def judge(values: Values) -> Any:
        try:
            if left(values) is decisive:
                return decisive
        except Unanswered as lost:
            if evaluate(right, values) is decisive:
                return decisive
            raise lost from None
        return right(values)

    return judge


def _call(node: Call, tables: Mapping[str, LookupTable]) -> Worker:
    row = FUNCTIONS[node.function]
    if row.form is Form.TABLE:
        return _table(node, tables)
    meaning = row.python
    assert meaning is not None
    if row.form is Form.UNIT:
        number, named = node.arguments
        assert isinstance(named, UnitName)
        inner, (above, below, offset) = worker_of(number, tables), unit_numbers(named.name)
        return lambda values: meaning(inner(values), above, below, offset)
    if row.form is Form.CONSTANT:
        constant = meaning()
        return lambda _: constant
    arguments = tuple(worker_of(argument, tables) for argument in node.arguments)
    if len(arguments) == 1:
        only = arguments[0]
        return lambda values: meaning(only(values))
    return lambda values: meaning(*[argument(values) for argument in arguments])


def _table(node: Call, tables: Mapping[str, LookupTable]) -> Worker:
    named, column, *asked = node.arguments
    assert isinstance(named, Name)
    assert isinstance(column, Name)
    table, column_name = tables[named.name], column.name
    keys = tuple(worker_of(key, tables) for key in asked)
    return lambda values: table.find(column_name, tuple(key(values) for key in keys))


def unit_numbers(name: str) -> tuple[float, float, float]:
    """Return a unit as both targets hold it: multiply by, divide by, then add."""
    found = unit(name)
    assert found is not None
    return (*found.ratio, to_float(found.offset))
