"""The one table of the language: operators and functions, each with arity, unit rule, Python and JavaScript.

To add a function: one row here, its meaning in `meanings`, its twin of the same name in formula.js.
"""

from __future__ import annotations

import math
import operator
from collections.abc import Callable
from enum import Enum, auto
from typing import Any, NamedTuple

from builder.formula import meanings, rules, turns


class Form(Enum):
    """How a function takes its arguments."""

    PLAIN = auto()
    CONSTANT = auto()
    """A name without brackets."""
    UNIT = auto()
    """Its second argument is a unit, which reaches its meaning as three numbers: multiply by, divide by, offset."""
    TABLE = auto()
    """A table, a column, and one value for each key."""


class Row(NamedTuple):
    """One operator or function."""

    name: str
    least: int
    most: int | None
    rule: rules.Rule | None
    """None where the kinds do not decide alone: ** looks at its exponent, table at its columns."""
    python: Callable[..., Any] | None
    """None where arguments are not all worked out: and, or, table."""
    javascript: str
    """With {0} and {1} for an operator's operands; for a function, what is called with the arguments."""
    example: str
    is_exact: bool = False
    """Both targets agree to the last bit."""
    form: Form = Form.PLAIN

    def takes(self) -> str:
        """Say how many arguments it takes."""
        if self.form is Form.CONSTANT:
            return "takes no arguments"
        if self.most is None:
            return f"takes {self.least} or more arguments"
        return f"takes {self.least} argument{'s' if self.least > 1 else ''}"


_OPERATORS = (
    Row("+", 2, 2, rules.add, meanings.add, "F.finite({0} + {1})", "a + b", True),
    Row("-", 2, 2, rules.subtract, meanings.subtract, "F.finite({0} - {1})", "a - b", True),
    Row("*", 2, 2, rules.product, meanings.multiply, "F.finite({0} * {1})", "a * b", True),
    Row("/", 2, 2, rules.quotient, meanings.divide, "F.divide({0}, {1})", "a / b", True),
    Row("**", 2, 2, None, meanings.power, "F.power({0}, {1})", "a ** 2"),
    Row("==", 2, 2, rules.equal, operator.eq, "({0} === {1})", "a == b", True),
    Row("!=", 2, 2, rules.equal, operator.ne, "({0} !== {1})", "a != b", True),
    Row("<", 2, 2, rules.compared, operator.lt, "({0} < {1})", "a < b", True),
    Row("<=", 2, 2, rules.compared, operator.le, "({0} <= {1})", "a <= b", True),
    Row(">", 2, 2, rules.compared, operator.gt, "({0} > {1})", "a > b", True),
    Row(">=", 2, 2, rules.compared, operator.ge, "({0} >= {1})", "a >= b", True),
    Row("and", 2, 2, rules.truths, None, "F.and(() => {0}, () => {1})", "a and b", True),
    Row("or", 2, 2, rules.truths, None, "F.or(() => {0}, () => {1})", "a or b", True),
)
_SIGNS = (
    Row("-", 1, 1, rules.amount, meanings.negate, "(-{0})", "-a", True),
    Row("not", 1, 1, rules.truths, meanings.negation, "(!{0})", "not a", True),
)
_FUNCTIONS = (
    Row("min", 1, None, rules.alike, meanings.least, "F.min", "min(a, b)", True),
    Row("max", 1, None, rules.alike, meanings.greatest, "F.max", "max(a, b)", True),
    Row("abs", 1, 1, rules.amount, meanings.absolute, "F.abs", "abs(a)", True),
    Row("floor", 1, 1, rules.bare, meanings.floor, "F.floor", "floor(a)", True),
    Row("ceil", 1, 1, rules.bare, meanings.ceil, "F.ceil", "ceil(a)", True),
    Row("round", 1, 1, rules.bare, meanings.round_half_away, "F.round", "round(a)", True),
    Row("sqrt", 1, 1, rules.root, meanings.sqrt, "F.sqrt", "sqrt(a)", True),
    Row("exp", 1, 1, rules.bare, meanings.exp, "F.exp", "exp(a)"),
    Row("ln", 1, 1, rules.bare, meanings.ln, "F.ln", "ln(a)"),
    Row("log10", 1, 1, rules.bare, meanings.log10, "F.log10", "log10(a)"),
    Row("sin", 1, 1, rules.bare, math.sin, "F.sin", "sin(angle)"),
    Row("cos", 1, 1, rules.bare, math.cos, "F.cos", "cos(angle)"),
    Row("tan", 1, 1, rules.bare, math.tan, "F.tan", "tan(angle)"),
    Row("atan2", 2, 2, rules.direction, math.atan2, "F.atan2", "atan2(rise, run)"),
    Row("median", 1, None, rules.alike, meanings.median, "F.median", "median(a, b, c)", True),
    Row("turns", 2, 2, rules.written, turns.turns, "F.turns", "turns(count, halvings)", True),
    Row("turn_rounds", 2, 2, rules.bare, turns.rounds, "F.turnRounds", "turn_rounds(count, halvings)", True),
    Row("table", 3, None, None, None, "F.table", "table(name, column, key)", True, Form.TABLE),
    Row("in_unit", 2, 2, rules.in_unit, meanings.in_unit, "F.inUnit", "in_unit(a, mm)", True, Form.UNIT),
    Row("with_unit", 2, 2, rules.with_unit, meanings.with_unit, "F.withUnit", "with_unit(3, mm)", True, Form.UNIT),
    Row("pi", 0, 0, rules.bare, meanings.pi, "F.pi", "pi", True, Form.CONSTANT),
)

OPERATORS = {row.name: row for row in _OPERATORS}
SIGNS = {row.name: row for row in _SIGNS}
FUNCTIONS = {row.name: row for row in _FUNCTIONS}
