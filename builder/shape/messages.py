"""The shaping library's errors -> problems in our own words, each at the key or value at fault."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import fields, is_dataclass
from typing import Any, get_args, get_origin, get_type_hints

from pydantic_core import ErrorDetails

from builder.model.near import listed, near_names, offer
from builder.model.place import Span
from builder.model.problem import Problem
from builder.model.records.fields import alias_of
from builder.model.tree import Mapping, Node, Scalar, follow, reached, span_of
from builder.shape import codes

_EMPTY = frozenset({"say_none"})
_MISSING = frozenset({"missing", "missing_argument"})
_UNKNOWN = frozenset({"unexpected_keyword_argument", "extra_forbidden"})
_FORMS = {
    "dataclass_type": "a mapping of keys to values",
    "dict_type": "a mapping of keys to values",
    "tuple_type": "a list",
    "list_type": "a list",
    "string_type": "a text",
}


def problems_of(errors: Iterable[ErrorDetails], tree: Mapping, file: str, record_type: type) -> Iterator[Problem]:
    """Translate the library's errors; of a value that may be several things only the fitting complaint is kept."""
    seen: set[tuple[Span, str]] = set()
    every = tuple(errors)
    unknown = [error["loc"] for error in every if error["type"] in _UNKNOWN]
    fitting = [error["loc"] for error in every if not _is_beside_the_point(error, follow(tree, error["loc"])[0])]
    for error in every:
        if error["type"] in _MISSING and _is_misspelt(error["loc"], unknown):
            continue
        location = tuple(part for part in error["loc"] if isinstance(part, (str, int)))
        node, key = follow(tree, location)
        if _is_beside_the_point(error, node) and _is_told(tree, location, fitting):
            continue
        problem = _problem(error, location, node, key, file, record_type)
        if (problem.span, problem.code.id) not in seen:
            seen.add((problem.span, problem.code.id))
            yield problem


def _is_beside_the_point(error: ErrorDetails, node: Node) -> bool:
    """Of `none | mapping` a mapping was meant where one stands, and the word where a text stands."""
    kind = error["type"]
    if kind == "literal_error" and not isinstance(node, Scalar):
        return True
    return kind == "dataclass_type" and isinstance(node, Scalar) and "literal" in str(error["loc"])


def _is_told(tree: Mapping, location: tuple[str | int, ...], fitting: Iterable[tuple[str | int, ...]]) -> bool:
    """Whether another complaint is about the same value or about something in it; else nothing would be said at all."""
    own = reached(tree, location)
    return any(reached(tree, other)[:len(own)] == own for other in fitting)


def _is_misspelt(missing: tuple[int | str, ...], unknown: list[tuple[int | str, ...]]) -> bool:
    """A key that is missing because it stands beside under a near name is told there alone."""
    return any(
        beside[:-1] == missing[:-1] and str(missing[-1]) in near_names(str(beside[-1]), [str(missing[-1])])
        for beside in unknown
    )


def _problem(
    error: ErrorDetails, location: tuple[str | int, ...], node: Node, key: Scalar | None, file: str, record_type: type
) -> Problem:
    kind = error["type"]
    name = str(location[-1]) if location else ""
    if kind in _MISSING:
        return Problem(
            codes.MISSING_KEY, _head(node, key, file), f'{_owner(key, location[:-1])} lacks the key "{name}"',
            f"add {name}: to it",
        )  # fmt: skip
    if kind in _UNKNOWN:
        span = span_of(key, file) if key is not None else span_of(node, file)
        known = keys_at(record_type, location[:-1])
        return Problem(
            codes.UNKNOWN_KEY, span, f'the key "{name}" is not known here',
            offer(name, known, f"use one of: {listed(known, most=24)}"),
        )  # fmt: skip
    return _of_value(error, node, key, file)


def _of_value(error: ErrorDetails, node: Node, key: Scalar | None, file: str) -> Problem:
    kind, context = error["type"], error.get("ctx") or {}
    span = span_of(node, file)
    name = f'"{key.text}"' if key is not None else "this"
    text = node.text if isinstance(node, Scalar) else ""
    if kind in _EMPTY:
        return Problem(codes.EMPTY_LIST, span, f"{name} is empty", "write none where there is nothing")
    if kind == "quantity":
        return Problem(
            codes.BAD_QUANTITY, span, f'"{text}" is no quantity', "write a number, a space and a unit, such as 0.8 mm",
        )  # fmt: skip
    if kind == "amount":
        do = "write a number, or a number, a space and a unit, such as 310 ml"
        return Problem(codes.BAD_QUANTITY, span, f'"{text}" is no amount', do)
    if kind == "out_of_bounds":
        return Problem(codes.WRONG_VALUE, span, f"{name} cannot be read in time: {context['said']}", context["do"])
    if kind == "literal_error" and not isinstance(node, Scalar):
        do = _admitted(kind, context)
        return Problem(codes.WRONG_FORM, span, f"{name} takes one word, not {_form(node)}", do)
    if kind in _FORMS or not isinstance(node, Scalar):
        return Problem(
            codes.WRONG_FORM, span, f"{name} takes {_FORMS.get(kind, 'another form')}, not {_form(node)}",
            f"write {_FORMS.get(kind, 'it as the guide shows')}",
        )  # fmt: skip
    return Problem(codes.WRONG_VALUE, span, f'{name} cannot be "{text[:60]}"', _admitted(kind, context))


def _admitted(kind: str, context: dict[str, Any]) -> str:
    if kind == "literal_error":
        return f"write one of: {str(context.get('expected', '')).replace(chr(39), '').replace(' or ', ', ')}"
    if kind == "yes_no":
        return "write yes or no"
    if kind == "string_pattern_mismatch":
        return f"write it in the form {context.get('pattern')}"
    if kind == "below_zero":
        return "write it without the minus sign"
    if kind == "greater_than_equal":
        return f"write a number that is not below {context['ge']:g}"
    if kind == "less_than_equal":
        return f"write a number that is not above {context['le']:g}"
    if kind == "no_day":
        return "write a day that is in the calendar, year-month-day"
    if kind == "one_line":
        return "write it on one line"
    if kind == "drawn_line":
        return "write its points as x y, parted by semicolons: 0 0; 100 0; 100 50"
    if kind in ("int_parsing", "int_type", "int_from_float"):
        return "write a whole number"
    if kind in ("float_parsing", "float_type", "finite_number"):
        return "write a number"
    if kind == "string_too_long":
        return f"shorten it to {context.get('max_length')} characters"
    return "write a value this key admits"


def _form(node: Node) -> str:
    if isinstance(node, Scalar):
        return f'the text "{node.text[:40]}"' if node.text else "nothing"
    return "a mapping" if isinstance(node, Mapping) else "a list"


def _owner(key: Scalar | None, location: tuple[str | int, ...]) -> str:
    if key is None:
        return "the record"
    return f'this item of "{key.text}"' if isinstance(location[-1], int) else f'"{key.text}"'


def _head(node: Node, key: Scalar | None, file: str) -> Span:
    """A missing key is shown where the mapping that lacks it begins."""
    if isinstance(node, Mapping) and node.entries:
        return span_of(next(iter(node.entries.values())).key, file)
    return span_of(key if key is not None else node, file)


def keys_at(record_type: type, location: tuple[str | int, ...]) -> tuple[str, ...]:
    """Return the keys that a record type admits at a place in it."""
    at: Any = record_type
    for part in location:
        at = _inside(at, part)
    found = _dataclass_in(at)
    if found is None:
        return ()
    hints = get_type_hints(found, include_extras=True)
    return tuple(alias_of(field.name, hints[field.name]) for field in fields(found))


def _inside(annotation: Any, part: str | int) -> Any:
    if get_origin(annotation) is dict:  # the author's own names
        return get_args(annotation)[1]
    found = _dataclass_in(annotation)
    if found is None or not isinstance(part, str):
        return annotation
    hints = get_type_hints(found, include_extras=True)
    by_key = {alias_of(name, hint): hint for name, hint in hints.items()}
    return by_key.get(part, annotation)


def _dataclass_in(annotation: Any) -> Any:
    """Find the record part inside lists, unions and marks."""
    if isinstance(annotation, type) and is_dataclass(annotation):  # what marks a type may be an object of one
        return annotation
    if get_origin(annotation) is None:
        return None
    parts = (_dataclass_in(part) for part in get_args(annotation))
    return next((part for part in parts if part is not None), None)
