"""A record type and a tree -> every marked scalar in it: references, scale words, quantities and prose.

`marked` is the entry point. The plan of where marks lie is read once from the type's own annotations.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, is_dataclass
from functools import cache
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, NamedTuple, Union, cast, get_args, get_origin, get_type_hints

from builder.model.records.fields import NONE, Formula, Marked, Measures, Points, Word, key_of
from builder.model.tree import Mapping, Scalar, Sequence

Mark = Points | Word | Measures | Formula | Marked
LINKED = "]("
"""Without it a text holds no Markdown link."""
_MARKS = (Points, Word, Measures, Formula, Marked)


@dataclass(frozen=True, slots=True)
class _Leaf:
    mark: Mark
    words: frozenset[str] = frozenset()
    """Plain words that may stand here in its place, such as none and unknown."""
    is_prose: bool = False


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


def marked(record_type: type, tree: object) -> list[Found]:
    """Return every marked scalar of a record that has been shaped without a problem.

    `tree` is a tree, or the same as plain values: then the scalars found have no places of their own.
    """
    found: list[Found] = []
    plan = _plan_of(record_type)
    if plan is not None:
        _walk(plan, tree, "", found)
    return found


def _walk(plan: _Plan, node: Any, field: str, found: list[Found]) -> None:
    kind = type(node)
    if kind is str:
        if type(plan) is _Leaf and plan.is_prose and LINKED not in node:
            return  # most texts: nobody asks for prose without a link in it
        node, kind = Scalar(node, 1, 1, 2, False), Scalar
    if isinstance(plan, _Leaf):
        if kind is Scalar and node.text not in plan.words:
            found.append(Found(plan.mark, node, field))
    elif isinstance(plan, _Fields):
        entries = node if kind is dict else node.entries if kind is Mapping else {}
        for key, part in plan.plans:
            if key in entries:
                value = entries[key]
                _walk(part, value if kind is dict else value.value, _below(field, key), found)
    elif kind is Scalar:
        if node.text != NONE:
            _walk(plan.plan, node, field, found)
    else:
        for item in _items(node, kind):
            _walk(plan.plan, item, field, found)


@cache
def _below(field: str, key: str) -> str:
    return f"{field}.{key}" if field else key


def _items(node: Any, kind: type) -> Iterable[object]:
    if kind is Sequence:
        return cast("Sequence", node).items
    if kind is Mapping:
        return (entry.value for entry in node.entries.values())
    return cast("Iterable[object]", node.values() if kind is dict else node)


@cache
def _plan_of(annotation: Any) -> _Plan | None:
    origin = get_origin(annotation)
    if origin is Annotated:
        inner, *extras = get_args(annotation)
        marks = [extra for extra in extras if isinstance(extra, _MARKS)]
        return _Leaf(marks[0], is_prose=isinstance(marks[0], Marked)) if marks else _plan_of(inner)
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
