"""A record type and a tree -> every marked scalar in it: references, scale words, quantities and prose.

`marked` is the entry point. The plan of where marks lie is read once from the type's own annotations.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, is_dataclass
from functools import cache
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, NamedTuple, Union, get_args, get_origin, get_type_hints

from builder.model.records.fields import NONE, Formula, Marked, Measures, Points, Word, key_of
from builder.model.tree import Mapping, Node, Scalar, Sequence

Mark = Points | Word | Measures | Formula | Marked
_MARKS = (Points, Word, Measures, Formula, Marked)


@dataclass(frozen=True, slots=True)
class _Leaf:
    mark: Mark
    words: frozenset[str] = frozenset()
    """Plain words that may stand here in its place, such as none and unknown."""


@dataclass(frozen=True, slots=True)
class _Each:
    """Of a list's items or of a mapping's values."""

    plan: _Plan


@dataclass(frozen=True, slots=True)
class _Fields:
    plans: tuple[tuple[str, _Plan], ...]


_Plan = _Leaf | _Each | _Fields


class Found(NamedTuple):
    """A marked scalar."""

    mark: Mark
    scalar: Scalar
    field: str
    """Keys from the record's top joined by dots, without list positions."""


def marked(record_type: type, tree: Mapping) -> list[Found]:
    """Return every marked scalar of a tree that has been shaped without a problem."""
    found: list[Found] = []
    plan = _plan_of(record_type)
    if plan is not None:
        _walk(plan, tree, "", found)
    return found


def _walk(plan: _Plan, node: Node, field: str, found: list[Found]) -> None:
    if isinstance(plan, _Leaf):
        if isinstance(node, Scalar) and node.text not in plan.words:
            found.append(Found(plan.mark, node, field))
    elif isinstance(plan, _Fields):
        if isinstance(node, Mapping):
            entries = node.entries
            for key, part in plan.plans:
                entry = entries.get(key)
                if entry is not None:
                    _walk(part, entry.value, f"{field}.{key}" if field else key, found)
    elif isinstance(node, Sequence):
        for item in node.items:
            _walk(plan.plan, item, field, found)
    elif isinstance(node, Mapping):
        for entry in node.entries.values():
            _walk(plan.plan, entry.value, field, found)
    elif node.text != NONE:
        _walk(plan.plan, node, field, found)


@cache
def _plan_of(annotation: Any) -> _Plan | None:
    origin = get_origin(annotation)
    if origin is Annotated:
        inner, *extras = get_args(annotation)
        marks = [extra for extra in extras if isinstance(extra, _MARKS)]
        return _Leaf(marks[0]) if marks else _plan_of(inner)
    if origin in (Union, UnionType):
        return _plan_of_union(get_args(annotation))
    if origin is tuple:
        return _each(get_args(annotation)[0])
    if origin is dict:
        return _each(get_args(annotation)[1])
    if is_dataclass(annotation):
        return _plan_of_fields(annotation)
    return None


def _plan_of_union(members: tuple[Any, ...]) -> _Plan | None:
    words = frozenset(word for member in members if get_origin(member) is Literal for word in get_args(member))
    plans = [plan for member in members if member is not NoneType and (plan := _plan_of(member)) is not None]
    if plans and isinstance(plans[0], _Leaf):
        return _Leaf(plans[0].mark, plans[0].words | words)
    return plans[0] if plans else None


def _each(annotation: Any) -> _Plan | None:
    plan = _plan_of(annotation)
    return None if plan is None else _Each(plan)


def _plan_of_fields(annotation: Any) -> _Plan | None:
    plans = tuple(_field_plans(annotation))
    return _Fields(plans) if plans else None


def _field_plans(annotation: Any) -> Iterator[tuple[str, _Plan]]:
    for name, hint in get_type_hints(annotation, include_extras=True).items():
        plan = _plan_of(hint)
        if plan is not None:
            yield alias_of(name, hint), plan


def alias_of(name: str, hint: Any) -> str:
    """Return the YAML key of a field: its alias where it has one."""
    extras = get_args(hint)[1:] if get_origin(hint) is Annotated else ()
    aliases = [extra.alias for extra in extras if getattr(extra, "alias", None)]
    return str(aliases[0]) if aliases else key_of(name)
