"""Single expressions over a record's facts: a rule's `where`, a method's `limits`, a plan's `with`."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import NamedTuple

from builder.formula.check import Scope, check
from builder.formula.codes import UNITS_DISAGREE, UNKNOWN_UNIT, WRONG_KIND
from builder.formula.evaluate import Values, Worker, worker_of
from builder.formula.fault import Fault
from builder.formula.kinds import ChoiceKind, Kind, NumberKind, describe, kind_of_unit
from builder.formula.no_answer import Unanswered, Value
from builder.formula.parse import parse
from builder.formula.units import unit, unit_advice
from builder.model.expression import names_read


class Checked(NamedTuple):
    """What an expression is, and what is wrong with it."""

    kind: Kind | None
    """None where a fault hides it."""
    faults: tuple[Fault, ...]


def number(unit_name: str = "") -> NumberKind:
    """Return the kind of a number in this unit, or of a bare number; KeyError where there is no such unit."""
    if not unit_name:
        return kind_of_unit(None)
    found = unit(unit_name)
    if found is None:
        raise KeyError(unit_name)
    return kind_of_unit(found)


def check_expression(text: str, kinds: Mapping[str, Kind | None], wanted: Kind | None = None) -> Checked:
    """Parse and check an expression over names of these kinds; `wanted` is what it must be, such as `TRUTH`."""
    tree = parse(text)
    if isinstance(tree, Fault):
        return Checked(None, (tree,))
    kind, faults = check(tree, Scope(kinds))
    if kind is not None and wanted is not None:
        faults += disagreement(kind, wanted)
    return Checked(kind, faults)


def disagreement(kind: Kind, wanted: Kind) -> tuple[Fault, ...]:
    """Return the fault of a value that is not what its place asks for; none where it is."""
    if kind == wanted or (isinstance(kind, ChoiceKind) and isinstance(wanted, ChoiceKind) and kind.ids <= wanted.ids):
        return ()
    numbers = isinstance(kind, NumberKind) and isinstance(wanted, NumberKind)
    do = f"make it {describe(wanted)}"
    message = f"this is {describe(kind)}, and {describe(wanted)} is needed"
    return (Fault(UNITS_DISAGREE if numbers else WRONG_KIND, message, do),)


def evaluate_expression(text: str, values: Values) -> Value:
    """Work out an expression that `check_expression` found without fault; numbers in and out are in base units.

    A value may be a `NoAnswer`. ValueError where the text is no expression: that is a fault in Seambook.
    """
    try:
        found: Value = _worker(text)(values)
    except Unanswered as lost:
        return lost.answer
    return found


@lru_cache(maxsize=16384)
def _worker(text: str) -> Worker:
    tree = parse(text)
    if isinstance(tree, Fault):
        raise ValueError(tree.message)
    return worker_of(tree)


@lru_cache(maxsize=16384)
def names_in(text: str) -> frozenset[str]:
    """Return the names an expression reads; none where it cannot be parsed."""
    tree = parse(text)
    return frozenset() if isinstance(tree, Fault) else frozenset(node.name for node in names_read(tree))


def unit_fault(name: str) -> Fault | None:
    """Return the fault of a unit that does not exist."""
    return None if unit(name) else Fault(UNKNOWN_UNIT, f'there is no unit "{name}"', unit_advice(name))
