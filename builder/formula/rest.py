"""What is left of a condition once all that is known has been put in: true, false, or what it still hangs on.

A rest is a small tree over what is open: one of some choices, a comparison of numbers, all or one of several rests.
Formulas that only carry a condition on, such as `1 if strength == "mild" else 0`, are looked through.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from builder.formula.evaluate import Values, evaluate, worker_of
from builder.formula.lookup import LookupTable
from builder.formula.no_answer import NoAnswer
from builder.model.expression import Binary, Choice, Conditional, Expression, Name, Unary, shape

OPPOSITE = {"<": ">=", "<=": ">", ">": "<=", ">=": "<", "==": "!=", "!=": "=="}


@dataclass(frozen=True, slots=True)
class Picks:
    """An open choice is one of some; never all, never none."""

    name: str
    ids: frozenset[str]
    possible: frozenset[str]


@dataclass(frozen=True, slots=True)
class Compared:
    """A comparison that cannot be told yet."""

    node: Binary


@dataclass(frozen=True, slots=True)
class AllOf:
    """Every part must hold."""

    parts: tuple[Rest, ...]


@dataclass(frozen=True, slots=True)
class OneOf:
    """One part at least must hold."""

    parts: tuple[Rest, ...]


Rest = bool | Picks | Compared | AllOf | OneOf
Options = Mapping[str, tuple[str, ...]]
"""The choices that each open input may still turn out to be."""


@dataclass(frozen=True, slots=True)
class Known:
    """What is known where a condition stands."""

    values: Values
    """Of every name; what is open has no answer."""
    options: Options
    formulas: Mapping[str, Expression]
    """By name, to be looked through."""
    tables: Mapping[str, LookupTable]


def rest_of(node: Expression, known: Known) -> Rest:
    """Return what a condition still hangs on."""
    found = evaluate(worker_of(node, known.tables), known.values)
    if not isinstance(found, NoAnswer):
        return bool(found)
    match node:
        case Unary(operator="not"):
            return opposite(rest_of(node.operand, known))
        case Binary(operator="and" | "or"):
            parts = (rest_of(node.left, known), rest_of(node.right, known))
            return all_of(parts) if node.operator == "and" else one_of(parts)
        case Binary() if node.operator in OPPOSITE:
            return _comparison(node, known)
    raise AssertionError("a condition is made of comparisons, and, or and not")


def _comparison(node: Binary, known: Known) -> Rest:
    for side, at in ((node.left, "left"), (node.right, "right")):
        seen = known.formulas.get(side.name, side) if isinstance(side, Name) else side
        if isinstance(seen, Conditional):
            when = rest_of(seen.condition, known)
            then, otherwise = (
                replace(node, left=one) if at == "left" else replace(node, right=one)
                for one in (seen.then, seen.otherwise)
            )
            return one_of((all_of((when, rest_of(then, known))), all_of((opposite(when), rest_of(otherwise, known)))))
    named, chosen = (node.left, node.right) if isinstance(node.left, Name) else (node.right, node.left)
    if isinstance(named, Name) and isinstance(chosen, Choice) and named.name in known.options:
        ids = frozenset(known.options[named.name])
        return _picks(named.name, ids & {chosen.id} if node.operator == "==" else ids - {chosen.id}, ids)
    return Compared(node)


def _picks(name: str, ids: frozenset[str], possible: frozenset[str]) -> Rest:
    return Picks(name, ids, possible) if ids and ids != possible else bool(ids)


def opposite(rest: Rest) -> Rest:
    """Return what holds where a rest does not."""
    match rest:
        case Picks():
            return Picks(rest.name, rest.possible - rest.ids, rest.possible)
        case Compared():
            return Compared(replace(rest.node, operator=OPPOSITE[rest.node.operator]))
        case AllOf():
            return one_of([opposite(part) for part in rest.parts])
        case OneOf():
            return all_of([opposite(part) for part in rest.parts])
    return not rest


def all_of(parts: Iterable[Rest]) -> Rest:
    """Join rests that must all hold: choices of one input are narrowed, and narrow what stands beside them."""
    flat = _flat(parts, AllOf)
    picks: dict[str, Picks] = {}
    for part in flat:
        if isinstance(part, Picks):
            before = picks.get(part.name, part)
            picks[part.name] = replace(part, ids=before.ids & part.ids)
    if False in flat or not all(pick.ids for pick in picks.values()):
        return False
    made = [picks[part.name] if isinstance(part, Picks) else _beside(part, picks) for part in flat]
    kept = _each_once(made, without=True)
    if any(isinstance(part, AllOf | Picks) and part not in flat for part in kept) or False in kept:
        return all_of(kept)  # what was narrowed to a choice narrows the others in turn
    return AllOf(kept) if len(kept) > 1 else kept[0] if kept else True


def _beside(part: Rest, picks: Mapping[str, Picks]) -> Rest:
    """Return a rest without what the choices that hold beside it settle or rule out."""
    match part:
        case Picks() if part.name in picks:
            ids = picks[part.name].ids
            return part if ids & part.ids and not ids <= part.ids else bool(ids & part.ids)
        case OneOf():
            return one_of([_beside(one, picks) for one in part.parts])
        case AllOf():
            return all_of([_beside(one, picks) for one in part.parts])
    return part


def one_of(parts: Iterable[Rest]) -> Rest:
    """Join rests of which one must hold: choices of one input are put together."""
    flat = _flat(parts, OneOf)
    picks: dict[str, Picks] = {}
    for part in flat:
        if isinstance(part, Picks):
            before = picks.get(part.name, part)
            picks[part.name] = replace(part, ids=before.ids | part.ids)
    if True in flat or any(pick.ids == pick.possible for pick in picks.values()):
        return True
    kept = _each_once([picks[part.name] if isinstance(part, Picks) else part for part in flat], without=False)
    return OneOf(kept) if len(kept) > 1 else kept[0] if kept else False


def _flat(parts: Iterable[Rest], joined: type[AllOf | OneOf]) -> list[Rest]:
    flat: list[Rest] = []
    for part in parts:
        flat += part.parts if isinstance(part, joined) else (part,)
    return flat


def _each_once(parts: Iterable[Rest], *, without: bool) -> tuple[Rest, ...]:
    found: dict[object, Rest] = {}
    for part in parts:
        if part is not without:
            found.setdefault(shape(part.node) if isinstance(part, Compared) else part, part)
    return tuple(found.values())
