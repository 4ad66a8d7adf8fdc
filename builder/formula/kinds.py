"""Kinds: what a formula's value can be - a number with a dimension, one of some choices, a truth or a text."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from builder.formula.dimension import NO_DIMENSION, Dimension, describe_dimension
from builder.formula.units import Unit


@dataclass(frozen=True, slots=True)
class NumberKind:
    """A number, in base units."""

    dimension: Dimension = NO_DIMENSION
    is_point: bool = False
    """A reading on the thermometer's scale, such as 20 degC, which has no ratio and no sum; else an amount."""


@dataclass(frozen=True, slots=True)
class ChoiceKind:
    """One of these ids."""

    ids: frozenset[str]


@dataclass(frozen=True, slots=True)
class TruthKind:
    """True or false: the value of a condition."""


@dataclass(frozen=True, slots=True)
class TextKind:
    """A text that a function writes, such as an order of welding; it can only be shown."""


Kind = NumberKind | ChoiceKind | TruthKind | TextKind

BARE = NumberKind()
TRUTH = TruthKind()
TEXT = TextKind()


def kind_of_unit(unit: Unit | None) -> NumberKind:
    """Return the kind of a number written with this unit; None is a bare number."""
    return BARE if unit is None else NumberKind(unit.dimension, unit.is_point)


def choice(ids: Iterable[str]) -> ChoiceKind:
    """Return the kind of a value that is one of these ids."""
    return ChoiceKind(frozenset(ids))


def describe(kind: Kind) -> str:
    """Name a kind for an author: `a length`, `a temperature`, `a bare number`, `one of lap, butt`."""
    if isinstance(kind, TruthKind):
        return "a condition"
    if isinstance(kind, TextKind):
        return "a text"
    if isinstance(kind, ChoiceKind):
        return "one of " + ", ".join(sorted(kind.ids))
    return "a temperature reading" if kind.is_point else describe_dimension(kind.dimension)
