"""Parsing: from a formula's text to its tree, or to the one fault that says what to write instead.

`parse` is the entry point. Python's own grammar reads the text; every node of its tree that is not on the list here is
refused, and whatever Python's parser itself raises becomes one fault.
"""

from __future__ import annotations

import ast
import math
import re
import warnings
from dataclasses import dataclass
from functools import lru_cache

from builder.formula.codes import NOT_A_FORMULA, NOT_IN_LANGUAGE, TOO_BIG, UNKNOWN_FUNCTION, WRONG_ARGUMENTS
from builder.formula.fault import Fault
from builder.formula.functions import FUNCTIONS, Form
from builder.formula.words import LEFT_OUT, NAMES_LEFT_OUT, NOT_HERE, OPERATORS, refusal_of_character
from builder.model.expression import Binary, Call, Choice, Conditional, Expression, Name, Number, Unary, UnitName
from builder.model.near import offer
from builder.model.quantity import MAX_NUMBER_LENGTH
from builder.model.reference import ID_PATTERN

MAX_DEPTH = 50
MAX_NODES = 200
MAX_TEXT = 2000
TOO_DEEP = f"the formula is more than {MAX_DEPTH} levels deep"

_NUMBER = re.compile(r"(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?")
_LONG_NUMBER = re.compile(rf"(?<![A-Za-z0-9_.])(?=\.?[0-9])[A-Za-z0-9_.]{{{MAX_NUMBER_LENGTH + 1},}}")
_NAME = re.compile(r"[a-z][a-z0-9_]*")
_UNIT_NAME = re.compile(r"[A-Za-z][A-Za-z0-9_]*")
_ID = re.compile(ID_PATTERN)
_BLANKS = str.maketrans("\n\r\t\f\v", "     ")


class _Refused(Exception):  # noqa: N818 - it never leaves this module
    """Carries the fault out of the walk."""

    def __init__(self, fault: Fault) -> None:
        self.fault = fault


@lru_cache(maxsize=16384)
def parse(text: str) -> Expression | Fault:
    """Return the tree of a formula; a `Fault` with offsets in characters of `text` where it is none."""
    blank = text.translate(_BLANKS)
    lead = len(blank) - len(blank.lstrip(" "))
    try:
        _look_first(blank)
        return _Converter(blank, lead).expression(_python_tree(blank, lead), 1)
    except _Refused as refused:
        return refused.fault


def _look_first(text: str) -> None:
    """Refuse what must not reach Python's parser, because it would be read as something else or warned about."""
    if not text.strip():
        raise _Refused(Fault(NOT_A_FORMULA, "the formula is empty", "write a formula", 0, len(text)))
    if len(text) > MAX_TEXT:
        raise _Refused(Fault(TOO_BIG, f"the formula is longer than {MAX_TEXT} characters", "split it into named steps"))
    found = refusal_of_character(text)
    if found is not None:
        at, message, do = found
        raise _Refused(Fault(NOT_IN_LANGUAGE, message, do, at, at + 1))
    long = _LONG_NUMBER.search(text)
    if long is not None:
        message = f"a number has more than {MAX_NUMBER_LENGTH} characters"
        raise _Refused(Fault(TOO_BIG, message, "write fewer digits", long.start(), long.end()))


def _python_tree(text: str, lead: int) -> ast.expr:
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            return ast.parse(text.strip(" "), mode="eval").body
    except SyntaxError as error:
        raise _Refused(_syntax_fault(text, error.msg, lead, lead + (error.offset or 0) - 1)) from None
    except (ValueError, RecursionError, MemoryError, OverflowError):
        do = "split it into named steps, or take out what is no formula"
        raise _Refused(Fault(NOT_A_FORMULA, "this cannot be read as a formula", do)) from None


def _syntax_fault(text: str, said: str, lead: int, at: int) -> Fault:
    """Say in our own words where Python stopped; its messages speak of Python."""
    if "too many nested" in said or "too deep" in said:
        return Fault(TOO_BIG, TOO_DEEP, "split it into named steps")
    bracket = _unmatched_bracket(text)
    if bracket is not None:
        at = bracket
        what = "is never closed" if text[at] == "(" else "closes nothing"
        do = 'add ")"' if text[at] == "(" else 'take it out, or add "(" before it'
        return Fault(NOT_A_FORMULA, f'the bracket "{text[at]}" {what}', do, at, at + 1)
    assignment = re.search(r"(?<![=!<>])=(?!=)", text)
    if assignment is not None:
        at = assignment.start()
        return Fault(NOT_A_FORMULA, 'a single "=" compares nothing', "write == to compare", at, at + 1)
    quantity = re.search(r"(?<![A-Za-z0-9_.])([0-9.]+) ?([A-Za-z][A-Za-z_]*)", text)
    if quantity is not None and quantity[2] not in ("if", "else", "and", "or", "not"):
        do = f"write with_unit({quantity[1]}, {quantity[2]})"
        return Fault(NOT_A_FORMULA, "a number in a formula has no unit behind it", do, quantity.start(), quantity.end())
    if at < lead or not text[at:].strip():
        end = len(text.rstrip())
        return Fault(NOT_A_FORMULA, "the formula stops too early", "complete it", end - 1, end)
    do = "put an operator between two values, and a value on each side of an operator"
    return Fault(NOT_A_FORMULA, f'the formula cannot be read from "{text[at : at + 12].strip()}"', do, at, at + 1)


def _unmatched_bracket(text: str) -> int | None:
    """Return where the first bracket stands that has no partner, brackets in quotes left out."""
    opened: list[int] = []
    quote = ""
    for at, letter in enumerate(text):
        if quote:
            quote = "" if letter == quote else quote
        elif letter in "\"'":
            quote = letter
        elif letter == "(":
            opened.append(at)
        elif letter == ")":
            if not opened:
                return at
            opened.pop()
    return opened[-1] if opened else None


@dataclass
class _Converter:
    """Turns Python's nodes into ours, counting them."""

    text: str
    lead: int
    """Blanks before the first character that Python saw."""
    nodes: int = 0

    def expression(self, node: ast.expr, depth: int) -> Expression:
        """Convert one node and all below it."""
        self.nodes += 1
        if depth > MAX_DEPTH:
            raise self.refusal(node, TOO_BIG, TOO_DEEP, "split it into named steps")
        if self.nodes > MAX_NODES:
            raise self.refusal(node, TOO_BIG, f"the formula has more than {MAX_NODES} parts", "split it into steps")
        match node:
            case ast.Constant():
                return self.constant(node)
            case ast.Name():
                return self.name(node)
            case ast.UnaryOp():
                return self.unary(node, depth)
            case ast.BinOp():
                return self.binary(type(node.op), node.left, node.right, node, depth)
            case ast.Compare():
                return self.compare(node, depth)
            case ast.BoolOp():
                return self.logic(node, depth)
            case ast.IfExp():
                return self.conditional(node, depth)
            case ast.Call():
                return self.call(node, depth)
        message, do = LEFT_OUT.get(type(node), NOT_HERE)
        raise self.refusal(node, NOT_IN_LANGUAGE, message, do)

    def constant(self, node: ast.Constant) -> Expression:
        """Numbers and quoted ids, each written in one way only."""
        start, end = self.place(node)
        text = self.text[start:end]
        if isinstance(node.value, str):
            if text[1:-1] != node.value or text[0] not in "\"'" or not _ID.fullmatch(node.value):
                message = "a quoted text must be the id of a choice"
                raise self.refusal(node, NOT_IN_LANGUAGE, message, 'write it like "hot-dip-zinc"')
            return Choice(node.value, start, end)
        if isinstance(node.value, bool) or node.value is None:
            raise self.refusal(node, NOT_IN_LANGUAGE, f"{text} is not a value here", "write a comparison")
        if isinstance(node.value, bytes):
            raise self.refusal(node, NOT_IN_LANGUAGE, *LEFT_OUT[ast.JoinedStr])
        if not _NUMBER.fullmatch(text):
            message = f'"{text[:MAX_NUMBER_LENGTH]}" is not a number of the language'
            raise self.refusal(node, NOT_IN_LANGUAGE, message, "write digits with a decimal point, such as 1200 or 0.5")
        if not math.isfinite(float(text)):
            raise self.refusal(node, NOT_IN_LANGUAGE, f'"{text}" is too large a number', "write a smaller number")
        return Number(text, float(text), start, end)

    def name(self, node: ast.Name) -> Expression:
        """A name; `pi` is a function of no arguments."""
        start, end = self.place(node)
        written = self.text[start:end]
        row = FUNCTIONS.get(written)
        if row is not None and row.form is Form.CONSTANT:
            return Call(written, (), start, end)
        if row is not None:
            do = f"write {row.example}"
            raise self.refusal(node, WRONG_ARGUMENTS, f'"{written}" is a function and has no brackets here', do)
        if not _NAME.fullmatch(written):
            do = NAMES_LEFT_OUT.get(written, "write lower-case letters, digits and underscores")
            raise self.refusal(node, NOT_IN_LANGUAGE, f'"{written}" is not a name of the language', do)
        return Name(written, start, end)

    def unary(self, node: ast.UnaryOp, depth: int) -> Expression:
        start, end = self.place(node)
        operand = self.expression(node.operand, depth + 1)
        if isinstance(node.op, ast.USub):
            return Unary("-", operand, start, end, start)
        if isinstance(node.op, ast.Not):
            return Unary("not", operand, start, end, start)
        message, do = LEFT_OUT[type(node.op)]
        raise _Refused(Fault(NOT_IN_LANGUAGE, message, do, start, start + 1))

    def binary(self, kind: type, left: ast.expr, right: ast.expr, whole: ast.expr, depth: int) -> Expression:
        start, end = self.place(whole)
        begun = self.expression(left, depth + 1)
        at = self.operator_place(left, right)
        if kind not in OPERATORS:
            message, do = LEFT_OUT[kind]
            written = re.match(r"[a-z]+|[^\w\s(\"'.]+", self.text[at:])
            raise _Refused(Fault(NOT_IN_LANGUAGE, message, do, at, at + len(written[0] if written else " ")))
        return Binary(OPERATORS[kind], begun, self.expression(right, depth + 1), start, end, at)

    def compare(self, node: ast.Compare, depth: int) -> Expression:
        if len(node.ops) > 1:
            at = self.operator_place(node.comparators[0], node.comparators[1])
            do = "write the two comparisons apart, with and between them: a < b and b < c"
            raise _Refused(Fault(NOT_IN_LANGUAGE, "comparisons cannot be chained", do, at, at + 1))
        return self.binary(type(node.ops[0]), node.left, node.comparators[0], node, depth)

    def logic(self, node: ast.BoolOp, depth: int) -> Expression:
        """`a and b and c` leans to the left: (a and b) and c; every joint is one level deeper."""
        start = self.place(node)[0]
        result = self.expression(node.values[0], depth + 1)
        for before, value in zip(node.values, node.values[1:], strict=False):
            self.nodes += 1
            right = self.expression(value, depth + 1)
            at = self.operator_place(before, value)
            result = Binary(OPERATORS[type(node.op)], result, right, start, self.place(value)[1], at)
        if depth + len(node.values) > MAX_DEPTH:
            raise self.refusal(node, TOO_BIG, TOO_DEEP, "split it into named steps")
        return result

    def conditional(self, node: ast.IfExp, depth: int) -> Expression:
        start, end = self.place(node)
        then = self.expression(node.body, depth + 1)
        condition = self.expression(node.test, depth + 1)
        otherwise = self.expression(node.orelse, depth + 1)
        return Conditional(condition, then, otherwise, start, end, self.operator_place(node.body, node.test))

    def call(self, node: ast.Call, depth: int) -> Expression:
        """A function of the table, with so many arguments as its row says."""
        start, end = self.place(node)
        called, called_end = self.place(node.func)
        name = self.text[called:called_end]
        row = FUNCTIONS.get(name) if isinstance(node.func, ast.Name) else None
        if row is None:
            do = offer(name, FUNCTIONS, "write one of " + ", ".join(FUNCTIONS))
            raise self.refusal(node.func, UNKNOWN_FUNCTION, f'there is no function "{name}"', do)
        if node.keywords:
            message = "arguments have no names here"
            raise self.refusal(node.keywords[0].value, WRONG_ARGUMENTS, message, f"write {row.example}")
        count = len(node.args)
        if row.form is Form.CONSTANT or count < row.least or (row.most is not None and count > row.most):
            message = f"{name} {row.takes()}, and {count} {'is' if count == 1 else 'are'} given"
            raise self.refusal(node, WRONG_ARGUMENTS, message, f"write {row.example}")
        if row.form is Form.UNIT:
            return Call(name, (self.expression(node.args[0], depth + 1), self.unit(node.args[1])), start, end)
        arguments = tuple(self.expression(argument, depth + 1) for argument in node.args)
        if row.form is Form.TABLE:
            for argument, what in zip(arguments[:2], ("table", "column"), strict=True):
                if not isinstance(argument, Name):
                    raise _Refused(
                        Fault(WRONG_ARGUMENTS, f"this is not the name of a {what}", f"write {row.example}",
                              argument.start, argument.end)
                    )  # fmt: skip
        return Call(name, arguments, start, end)

    def unit(self, node: ast.expr) -> UnitName:
        """A bare name such as degC, or a quoted text such as "kJ/mm"; which units there are is checked later."""
        self.nodes += 1
        start, end = self.place(node)
        text = self.text[start:end]
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and text[1:-1] == node.value:
            return UnitName(node.value, start, end)
        if isinstance(node, ast.Name) and _UNIT_NAME.fullmatch(text):
            return UnitName(text, start, end)
        do = f'write "{text}" in quotes' if isinstance(node, ast.BinOp) else 'write a unit, such as mm or "N*m"'
        raise self.refusal(node, WRONG_ARGUMENTS, "this is not a unit", do)

    def place(self, node: ast.expr) -> tuple[int, int]:
        """Return the node's characters in the author's text; Python counts UTF-8 bytes."""
        return self.characters(node.col_offset), self.characters(node.end_col_offset or 0)

    def characters(self, bytes_before: int) -> int:
        if self.text.isascii():
            return self.lead + bytes_before
        return self.lead + len(self.text[self.lead :].encode()[:bytes_before].decode())

    def operator_place(self, left: ast.expr, right: ast.expr) -> int:
        """Return where the operator between two operands begins: past blanks and closing brackets."""
        at, end = self.place(left)[1], self.place(right)[0]
        while at < end and self.text[at] in " )":
            at += 1
        return at

    def refusal(self, node: ast.expr, code: object, message: str, do: str) -> _Refused:
        start, end = self.place(node)
        return _Refused(Fault(code, message, do, start, end))  # type: ignore[arg-type]
