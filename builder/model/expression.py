"""Expressions of the formula language as trees: frozen nodes, each with its place as characters of the text."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class Number:
    """A bare number, written as digits; it has no unit."""

    text: str
    """As the author wrote it."""
    value: float
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Name:
    """The name of an input, a constant, a fact or another formula; of a table or a column inside `table(...)`."""

    name: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Choice:
    """A quoted id, such as `"lap"`."""

    id: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class UnitName:
    """A unit: the second argument of `in_unit` and `with_unit`, bare (`degC`) or quoted (`"kJ/mm"`)."""

    name: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Unary:
    """`-a` or `not a`."""

    operator: str
    operand: Expression
    start: int
    end: int
    at: int
    """Where the operator's own characters begin."""


@dataclass(frozen=True, slots=True)
class Binary:
    """`a + b` and its kin: + - * / ** == != < <= > >= and or."""

    operator: str
    left: Expression
    right: Expression
    start: int
    end: int
    at: int
    """Where the operator's own characters begin."""


@dataclass(frozen=True, slots=True)
class Conditional:
    """`a if c else b`."""

    condition: Expression
    then: Expression
    otherwise: Expression
    start: int
    end: int
    at: int
    """Where the word `if` begins."""


@dataclass(frozen=True, slots=True)
class Call:
    """A function of the one table applied to its arguments; `pi` is a call of no arguments."""

    function: str
    arguments: tuple[Expression, ...]
    start: int
    end: int


TABLE = "table"
"""The function whose first two arguments are the names of a table and of its column."""

Expression = Number | Name | Choice | UnitName | Unary | Binary | Conditional | Call


def children(node: Expression) -> tuple[Expression, ...]:
    """Return the nodes directly below, in the order they are written."""
    below = _BELOW.get(type(node))
    return below(node) if below is not None else ()


_BELOW: dict[type, Callable[[Any], tuple[Expression, ...]]] = {
    Unary: lambda node: (node.operand,),
    Binary: lambda node: (node.left, node.right),
    Conditional: lambda node: (node.then, node.condition, node.otherwise),
    Call: lambda node: node.arguments,
}
"""Asked for every node of every formula at each check, so it is looked up and not tried out."""


def walk(node: Expression) -> Iterator[Expression]:
    """Yield the node and everything below it, in the order written."""
    left = [node]
    while left:
        here = left.pop()
        yield here
        left.extend(reversed(children(here)))


def names_read(node: Expression) -> Iterator[Name]:
    """Yield every name that is read as a value; a table and its column are none."""
    left = [node]
    while left:
        here = left.pop()
        if isinstance(here, Name):
            yield here
        below = children(here)
        left.extend(reversed(below[2:] if isinstance(here, Call) and here.function == TABLE else below))


def tables_read(node: Expression) -> Iterator[str]:
    """Yield the name of every table that is looked into."""
    for part in walk(node):
        if isinstance(part, Call) and part.function == TABLE and isinstance(part.arguments[0], Name):
            yield part.arguments[0].name


def shape(node: Expression) -> tuple[object, ...]:
    """Return the tree without its places, so that two writings of one formula compare equal."""
    own: object = None
    match node:
        case Number():
            own = node.value
        case Name() | UnitName():
            own = node.name
        case Choice():
            own = node.id
        case Unary() | Binary():
            own = node.operator
        case Call():
            own = node.function
    return (type(node).__name__, own, *(shape(child) for child in children(node)))
