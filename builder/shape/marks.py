"""A record type and a tree -> every marked scalar in it: references, scale words, quantities and prose.

`marked` is the entry point, `marked_texts` its counterpart for plain values. The plan of where marks lie is read once
from the type's own annotations.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, is_dataclass
from functools import cache
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, NamedTuple, Union, cast, get_args, get_origin, get_type_hints

from builder.model.records.fields import NONE, Formula, Marked, Measures, Points, StepOfRun, Word, alias_of
from builder.model.summary import KEY
from builder.model.tree import Mapping, Scalar, Sequence

Mark = Points | StepOfRun | Word | Measures | Formula | Marked
LINKED = "]("
"""Without it a text holds no Markdown link."""
_MARKS = (Points, StepOfRun, Word, Measures, Formula, Marked)


@dataclass(frozen=True, slots=True)
class _Leaf:
    mark: Mark
    field: str
    words: frozenset[str] = frozenset()
    """Plain words that may stand here in its place, such as none and unknown."""
    is_prose: bool = False


@dataclass(frozen=True, slots=True)
class _Each:
    """Of a list's items or of a mapping's values, and of its keys where those name something."""

    plan: _Plan | None
    keys: _Leaf | None = None


@dataclass(frozen=True, slots=True)
class _Fields:
    plans: dict[str, _Plan]


_Plan = _Leaf | _Each | _Fields


class Found(NamedTuple):
    """A marked scalar."""

    mark: Mark
    scalar: Scalar
    field: str
    """Keys from the record's top joined by dots, without list positions."""


def marked(record_type: type, tree: object) -> list[Found]:
    """Return every marked scalar of a record that has been shaped without a problem, in the order of the file."""
    found: list[Found] = []
    plan = _plan_of(record_type, "")
    if plan is not None:
        _walk(plan, tree, found)
    return found


def _walk(plan: _Plan, node: Any, found: list[Found]) -> None:
    kind = type(node)
    if isinstance(plan, _Leaf):
        if kind is Scalar and node.text not in plan.words:
            found.append(Found(plan.mark, node, plan.field))
    elif isinstance(plan, _Fields):
        for key, entry in node.entries.items() if kind is Mapping else ():
            if key in plan.plans:
                _walk(plan.plans[key], entry.value, found)
    elif kind is Scalar:
        if node.text != NONE and plan.plan is not None:
            _walk(plan.plan, node, found)
    else:
        for key, item in _items(node, kind):
            if plan.keys is not None and key is not None:
                found.append(Found(plan.keys.mark, key, plan.keys.field))
            if plan.plan is not None:
                _walk(plan.plan, item, found)


def _items(node: Any, kind: type) -> Iterable[tuple[Scalar | None, object]]:
    if kind is Sequence:
        return ((None, item) for item in cast("Sequence", node).items)
    return ((entry.key, entry.value) for entry in node.entries.values())


def marked_texts(record_type: type, value: object) -> dict[tuple[str, str], Mark]:
    """Return the marks of a record's plain values by text and field, in the order of the file.

    The same text in the same field counts once, and prose without a link in it is left out: nobody asks for it.
    """
    found: dict[tuple[str, str], Mark] = {}
    plan = _plan_of(record_type, "")
    if plan is not None:
        _gather(plan, value, found)
    return found


def _gather(plan: _Plan, node: Any, found: dict[tuple[str, str], Mark]) -> None:
    kind = type(node)
    if kind is str:
        if type(plan) is _Leaf:
            if LINKED in node if plan.is_prose else node not in plan.words:
                found[node, plan.field] = plan.mark
        elif type(plan) is _Each and node != NONE and plan.plan is not None:
            _gather(plan.plan, node, found)
    elif type(plan) is _Each:
        for key, item in node.items() if kind is dict else ((None, item) for item in node):
            if plan.keys is not None and key is not None:
                found[key, plan.keys.field] = plan.keys.mark
            if plan.plan is not None:
                _gather(plan.plan, item, found)
    elif type(plan) is _Fields and kind is dict:
        plans = plan.plans
        for key, value in node.items():
            if key in plans:
                _gather(plans[key], value, found)


@cache
def _plan_of(annotation: Any, field: str) -> _Plan | None:
    origin = get_origin(annotation)
    if origin is Annotated:
        inner, *extras = get_args(annotation)
        marks = [extra for extra in extras if isinstance(extra, _MARKS)]
        if marks:
            return _Leaf(marks[0], field, is_prose=isinstance(marks[0], Marked))
        return _plan_of(inner, field)
    if origin in (Union, UnionType):
        return _plan_of_union(get_args(annotation), field)
    if origin is tuple:
        return _each(get_args(annotation)[0], field)
    if origin is dict:
        return _named(get_args(annotation)[0], get_args(annotation)[1], field)
    if is_dataclass(annotation):
        return _plan_of_fields(annotation, field)
    return None


def _plan_of_union(members: tuple[Any, ...], field: str) -> _Plan | None:
    words = frozenset(word for member in members if get_origin(member) is Literal for word in get_args(member))
    plans = [plan for member in members if member is not NoneType and (plan := _plan_of(member, field)) is not None]
    if plans and isinstance(plans[0], _Leaf):
        return _Leaf(plans[0].mark, field, plans[0].words | words)
    return plans[0] if plans else None


def _each(annotation: Any, field: str) -> _Plan | None:
    plan = _plan_of(annotation, field)
    return None if plan is None else _Each(plan)


def _named(keys: Any, values: Any, field: str) -> _Plan | None:
    plan, named = _plan_of(values, field), _plan_of(keys, f"{field}.{KEY}")
    leaf = named if isinstance(named, _Leaf) else None
    return None if plan is None and leaf is None else _Each(plan, leaf)


def _plan_of_fields(annotation: Any, field: str) -> _Plan | None:
    plans = dict(_field_plans(annotation, field))
    return _Fields(plans) if plans else None


def _field_plans(annotation: Any, field: str) -> Iterator[tuple[str, _Plan]]:
    for name, hint in get_type_hints(annotation, include_extras=True).items():
        key = alias_of(name, hint)
        plan = _plan_of(hint, f"{field}.{key}" if field else key)
        if plan is not None:
            yield key, plan
