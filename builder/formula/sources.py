"""Names and numbers: that every name is one thing and needed, and every number says where it comes from."""

from __future__ import annotations

import keyword
import math
from collections.abc import Iterator, Mapping

from builder.formula.codes import NAME_TAKEN, UNNAMED_NUMBER, UNUSED
from builder.formula.fault import Fault, Path
from builder.formula.functions import FUNCTIONS
from builder.formula.points.compiling import measured_kinds
from builder.model.expression import Binary, Expression, Number, Unary, children, names_read, tables_read
from builder.model.records.calculator import Calculator
from builder.model.summary import KEY

LARGEST_EXPONENT = 6
"""Whole exponents up to here are mathematics: the square of a radius needs no source."""


def name_faults(record: Calculator) -> Iterator[Fault]:
    """Inputs, constants, tables, formulas and decisions share one set of names."""
    seen: dict[str, str] = dict.fromkeys(measured_kinds(record), "results of the fit of its points")
    for section in ("inputs", "fixed", "tables", "work", "decide"):
        for name in getattr(record, section):
            if name in FUNCTIONS or keyword.iskeyword(name):
                message = f'"{name}" is a word of the formula language'
                yield Fault(NAME_TAKEN, message, "choose another name", path=(section, name, KEY))
            elif name in seen:
                message = f'"{name}" is already the name of one of the {seen[name]}'
                yield Fault(NAME_TAKEN, message, "rename one of them", path=(section, name, KEY))
            seen.setdefault(name, section)


def number_faults(trees: Mapping[Path, Expression]) -> Iterator[Fault]:
    """Numbers other than 0, 1, 2 and powers of ten are named under `fixed`."""
    for path, tree in trees.items():
        for node in _numbers(tree):
            if node.value not in (0, 1, 2) and not is_power_of_ten(node.value):
                message = f"the number {node.text} does not say where it comes from"
                yield Fault(UNNAMED_NUMBER, message, "name it under fixed, with its source", node.start, node.end, path)


def _numbers(node: Expression) -> Iterator[Number]:
    """Yield the numbers below, small whole exponents and halves left out."""
    if isinstance(node, Number):
        yield node
    if isinstance(node, Binary) and node.operator == "**":
        yield from _numbers(node.left)
        exponent = node.right.operand if isinstance(node.right, Unary) else node.right
        if not (isinstance(exponent, Number) and exponent.value in (0.5, *range(LARGEST_EXPONENT + 1))):
            yield from _numbers(node.right)
        return
    for child in children(node):
        yield from _numbers(child)


def is_power_of_ten(value: float) -> bool:
    """Tell whether a number is 1, 10, 100 ... or 0.1, 0.01 ..."""
    if value <= 0:
        return False
    return float(f"1e{round(math.log10(value))}") == value


def unused_faults(record: Calculator, trees: Mapping[Path, Expression]) -> Iterator[Fault]:
    """What nothing reads misleads whoever fills it in or looks for its effect."""
    used = {node.name for tree in trees.values() for node in names_read(tree)} | set(record.outputs)
    used |= {name for tree in trees.values() for name in tables_read(tree)}
    used |= {record.points.tolerance} if record.points else set()
    used |= {chart.limit for chart in record.charts.values() if chart.limit is not None}
    used |= set(record.sketch.with_.values()) if record.sketch else set()
    nouns = {"inputs": "input", "fixed": "fixed value", "tables": "table", "work": "formula", "decide": "decision"}
    for section, noun in nouns.items():
        for name in getattr(record, section):
            if name not in used:
                message = f"nothing uses the {noun} {name}"
                yield Fault(UNUSED, message, "use it or take it out", path=(section, name, KEY), level="warning")
