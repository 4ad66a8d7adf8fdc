"""Unit rules: from the kinds of the arguments the kind of the result, or a complaint about one of them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import NamedTuple

from builder.formula.codes import POINT_MISUSED, UNITS_DISAGREE, WRONG_KIND
from builder.formula.dimension import NO_DIMENSION, example_unit, multiply, raise_to
from builder.formula.kinds import BARE, TEXT, TRUTH, ChoiceKind, Kind, NumberKind, TextKind, TruthKind, describe
from builder.formula.units import Unit
from builder.model.problem import Code


class Complaint(NamedTuple):
    """Why kinds do not fit."""

    code: Code
    message: str
    do: str
    argument: int | None = None
    """Which argument is at fault, counted from 0; None is the operator or function itself."""


Argument = Kind | Unit
Rule = Callable[[Sequence[Argument]], Kind | Complaint]


def _numbers(arguments: Sequence[Argument], points: bool = False) -> list[NumberKind] | Complaint:
    """Return the arguments where all are numbers, and amounts unless points are admitted."""
    for place, kind in enumerate(arguments):
        if isinstance(kind, TextKind):
            return Complaint(WRONG_KIND, "a text is no number", "show it as an output", place)
        if not isinstance(kind, NumberKind):
            what = "a condition is no number" if isinstance(kind, TruthKind) else "a choice is no number"
            do = "write 1 if ... else 0" if isinstance(kind, TruthKind) else 'compare it with a quoted id: x == "id"'
            return Complaint(WRONG_KIND, what, do, place)
        if kind.is_point and not points:
            do = "subtract another reading, or write in_unit(x, degC) for the bare number"
            return Complaint(POINT_MISUSED, "a temperature reading cannot be used as an amount here", do, place)
    return [kind for kind in arguments if isinstance(kind, NumberKind)]


def _disagree(verb: str, left: NumberKind, right: NumberKind) -> Complaint:
    message = f"{describe(left)} cannot be {verb} {describe(right)}"
    do = "bring both to one kind of quantity"
    if right.dimension == NO_DIMENSION or left.dimension == NO_DIMENSION:
        other = left if right.dimension == NO_DIMENSION else right
        unit = "degC" if other.is_point else example_unit(other.dimension)
        do = f"give the bare number its unit, such as with_unit(3, {quoted(unit)})"
    elif left.is_point != right.is_point:
        do = "compare readings with readings and differences with differences"
    return Complaint(UNITS_DISAGREE, message, do)


def quoted(unit: str) -> str:
    """Write a unit as it stands in a formula."""
    return unit if unit.isidentifier() else f'"{unit}"'


def add(arguments: Sequence[Argument]) -> Kind | Complaint:
    """Same dimension; a difference may be added to a reading."""
    kinds = _numbers(arguments, points=True)
    if isinstance(kinds, Complaint):
        return kinds
    left, right = kinds
    if left.dimension != right.dimension:
        return _disagree("added to", left, right)
    if left.is_point and right.is_point:
        do = "add a difference (delta_degC, kelvin), or take the mean of two readings with median"
        return Complaint(POINT_MISUSED, "two temperature readings cannot be added", do)
    return NumberKind(left.dimension, left.is_point or right.is_point)


def subtract(arguments: Sequence[Argument]) -> Kind | Complaint:
    """Same dimension; reading less reading is a difference."""
    kinds = _numbers(arguments, points=True)
    if isinstance(kinds, Complaint):
        return kinds
    left, right = kinds
    if left.dimension != right.dimension:
        return _disagree("lessened by", left, right)
    if right.is_point and not left.is_point:
        do = "write the reading first"
        return Complaint(POINT_MISUSED, "a temperature reading cannot be taken from a difference", do)
    return NumberKind(left.dimension, left.is_point and not right.is_point)


def product(arguments: Sequence[Argument]) -> Kind | Complaint:
    """Dimensions multiply."""
    kinds = _numbers(arguments)
    return kinds if isinstance(kinds, Complaint) else NumberKind(multiply(kinds[0].dimension, kinds[1].dimension))


def quotient(arguments: Sequence[Argument]) -> Kind | Complaint:
    """Dimensions divide."""
    kinds = _numbers(arguments)
    return kinds if isinstance(kinds, Complaint) else NumberKind(multiply(kinds[0].dimension, kinds[1].dimension, -1))


def raised(base: Kind, by: Kind, constant: Fraction | None) -> Kind | Complaint:
    """The rule of `**`: a constant exponent, or both sides bare."""
    kinds = _numbers([base, by])
    if isinstance(kinds, Complaint):
        return kinds
    if kinds[1].dimension != NO_DIMENSION:
        message = f"an exponent must be a bare number, not {describe(by)}"
        return Complaint(UNITS_DISAGREE, message, "divide its unit out", 1)
    if kinds[0].dimension == NO_DIMENSION:
        return BARE
    if constant is None:
        message = f"the exponent over {describe(base)} must be a constant"
        return Complaint(UNITS_DISAGREE, message, "write a number, or make the base a bare number with in_unit")
    dimension = raise_to(kinds[0].dimension, constant)
    if dimension is None:
        message = f"{describe(base)} to the power {constant} has no whole unit"
        return Complaint(UNITS_DISAGREE, message, "make the base a bare number with in_unit")
    return NumberKind(dimension)


def alike(arguments: Sequence[Argument]) -> Kind | Complaint:
    """All of one kind of number, readings too: min, max, median."""
    kinds = _numbers(arguments, points=True)
    if isinstance(kinds, Complaint):
        return kinds
    for place, kind in enumerate(kinds):
        if kind != kinds[0]:
            return _disagree("put beside", kinds[0], kind)._replace(argument=place)
    return kinds[0]


def amount(arguments: Sequence[Argument]) -> Kind | Complaint:
    """One amount, kept as it is: -a, abs."""
    kinds = _numbers(arguments)
    return kinds if isinstance(kinds, Complaint) else kinds[0]


def bare(arguments: Sequence[Argument]) -> Kind | Complaint:
    """Bare numbers in, a bare number out: exp, sin, floor and the like."""
    kinds = _numbers(arguments)
    if isinstance(kinds, Complaint):
        return kinds
    for place, kind in enumerate(kinds):
        if kind.dimension != NO_DIMENSION:
            unit = example_unit(kind.dimension)
            do = f"divide by a quantity of its kind, or write in_unit(x, {quoted(unit)})"
            return Complaint(UNITS_DISAGREE, f"this takes a bare number, not {describe(kind)}", do, place)
    return BARE


def written(arguments: Sequence[Argument]) -> Kind | Complaint:
    """Bare numbers in, a text out: turns."""
    found = bare(arguments)
    return found if isinstance(found, Complaint) else TEXT


def root(arguments: Sequence[Argument]) -> Kind | Complaint:
    """The square root halves a dimension."""
    kinds = _numbers(arguments)
    if isinstance(kinds, Complaint):
        return kinds
    dimension = raise_to(kinds[0].dimension, Fraction(1, 2))
    if dimension is None:
        return Complaint(UNITS_DISAGREE, f"the root of {describe(kinds[0])} has no whole unit", "check the formula", 0)
    return NumberKind(dimension)


def direction(arguments: Sequence[Argument]) -> Kind | Complaint:
    """atan2: both of one kind; the angle is a bare number, in radians."""
    kinds = _numbers(arguments)
    if isinstance(kinds, Complaint):
        return kinds
    return BARE if kinds[0] == kinds[1] else _disagree("set against", kinds[0], kinds[1])


def in_unit(arguments: Sequence[Argument]) -> Kind | Complaint:
    """A quantity and a unit of its kind: the bare number."""
    kinds, unit = _numbers(arguments[:1], points=True), arguments[1]
    if isinstance(kinds, Complaint) or not isinstance(unit, Unit):
        return kinds if isinstance(kinds, Complaint) else BARE
    if kinds[0].dimension != unit.dimension:
        message = f"{describe(kinds[0])} cannot be told in {unit.name}"
        return Complaint(UNITS_DISAGREE, message, f"write a unit such as {example_unit(kinds[0].dimension)}", 1)
    if kinds[0].is_point != unit.is_point:
        wanted = "degC or degF" if kinds[0].is_point else "delta_degC or kelvin"
        message = f"{describe(kinds[0])} cannot be told in {unit.name}"
        return Complaint(POINT_MISUSED, message, f"write {wanted}", 1)
    return BARE


def with_unit(arguments: Sequence[Argument]) -> Kind | Complaint:
    """A bare number and a unit: a quantity."""
    kinds, unit = _numbers(arguments[:1], points=True), arguments[1]
    if isinstance(kinds, Complaint) or not isinstance(unit, Unit):
        return kinds if isinstance(kinds, Complaint) else BARE
    if kinds[0] != BARE:
        message = f"this is {describe(kinds[0])} already, no bare number"
        return Complaint(UNITS_DISAGREE, message, "leave with_unit out, or make it a bare number with in_unit first", 0)
    return NumberKind(unit.dimension, unit.is_point)


def compared(arguments: Sequence[Argument]) -> Kind | Complaint:
    """< <= > >=: numbers of one kind."""
    kinds = _numbers(arguments, points=True)
    if isinstance(kinds, Complaint):
        if kinds.code is WRONG_KIND and any(isinstance(kind, ChoiceKind) for kind in arguments):
            return Complaint(WRONG_KIND, "choices have no order", "compare them with == or !=")
        return kinds
    return TRUTH if kinds[0] == kinds[1] else _disagree("compared with", kinds[0], kinds[1])


def equal(arguments: Sequence[Argument]) -> Kind | Complaint:
    """== and !=: numbers of one kind, or choices that can be the same."""
    left, right = arguments
    if isinstance(left, ChoiceKind) and isinstance(right, ChoiceKind):
        return TRUTH
    if isinstance(left, ChoiceKind) or isinstance(right, ChoiceKind):
        do = 'compare it with a quoted id: x == "id"'
        return Complaint(WRONG_KIND, "a choice is compared with something else", do)
    if isinstance(left, TruthKind) or isinstance(right, TruthKind):
        return Complaint(WRONG_KIND, "conditions are not compared", "write the condition itself, or not before it")
    return compared(arguments)


def truths(arguments: Sequence[Argument]) -> Kind | Complaint:
    """And, or, not: conditions."""
    for place, kind in enumerate(arguments):
        if not isinstance(kind, TruthKind):
            assert not isinstance(kind, Unit)
            do = 'compare it: x == "id"' if isinstance(kind, ChoiceKind) else "compare it: x > 0"
            return Complaint(WRONG_KIND, f"a condition is needed here, not {describe(kind)}", do, place)
    return TRUTH
