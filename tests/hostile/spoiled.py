"""A book -> the same with a payload in every free text of every record; the record types tell where such texts are."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import fields, is_dataclass
from pathlib import Path
from types import UnionType
from typing import Annotated, Any, Union, get_args, get_origin, get_type_hints

import yaml
from pydantic import StringConstraints

from builder.model.records import KIND_OF_FOLDER
from builder.model.records.fields import Formula, Points, StepOfRun, Word, alias_of

ALL = tuple(Path(__file__).with_name("payloads.txt").read_text("utf-8").splitlines())
REFUSED = tuple(one for one in ALL if one.startswith(("[x](javascript:", "[x](data:", "[x](vbscript:")))
"""A way that begins as a reference does and is none: such a book does not compile."""
PAYLOADS = tuple(one for one in ALL if one not in REFUSED)
NO_TEXT = (Formula, Points, StepOfRun, Word)
"""Marks of texts that mean something else than what they say."""
_WORD = re.compile(r"[a-z0-9.-]+")
"""A number, a choice, `none`: what is one word in small letters is read as such somewhere."""
NAMES = frozenset({"unit", "given", "expect", "with", "within", "tolerances", "possible", "work", "compare"})
"""Keys of texts that are read as something else; and a measure's name is what a job's readings go by."""


def spoil(content: Path, first: int) -> int:
    """Put payloads behind all free texts of a book's records, beginning with one; return how many texts there were."""
    at = first
    for path in sorted(content.glob("*/*.yaml")):
        kind = KIND_OF_FOLDER.get(path.parent.name)
        if kind is None:
            continue
        tree = yaml.load(path.read_text("utf-8"), Loader=yaml.CBaseLoader)
        at = _spoil(tree, kind.type, at)
        path.write_text(yaml.safe_dump(tree, allow_unicode=True, sort_keys=False, width=10_000), "utf-8")
    return at - first


def _spoil(node: Any, type_: Any, at: int) -> int:
    """Go through a value beside its type; texts are changed in place."""
    found = _record_in(type_)
    if isinstance(node, dict):
        hints = get_type_hints(found, include_extras=True) if found else {}
        names = {alias_of(one.name, hints[one.name]): hints[one.name] for one in fields(found)} if found else {}
        for key in node:
            inner = names.get(key, _value_of(type_) if found is None else None)
            is_looked_up = key in NAMES and (key != "expect" or isinstance(node[key], dict))
            if inner is None or is_looked_up or (key == "name" and {"low", "high"} & node.keys()):
                continue
            if isinstance(node[key], str):
                node[key], at = _said(node[key], inner, at)
            else:
                at = _spoil(node[key], inner, at)
    elif isinstance(node, list):
        inner = _item_of(type_)
        for place, one in enumerate(node):
            if isinstance(one, str):
                node[place], at = _said(one, inner, at)
            else:
                at = _spoil(one, inner, at)
    return at


def _said(text: str, type_: Any, at: int) -> tuple[str, int]:
    limit = _free(type_)
    payload = PAYLOADS[at % len(PAYLOADS)]
    if not limit or len(text) + len(payload) + 1 > limit or _WORD.fullmatch(text):
        return text, at
    return f"{text.rstrip()} {payload}", at + 1


def _free(type_: Any) -> int:
    """Return how long a free text of this type may be; 0 where it is none."""
    if isinstance(type_, UnionType) or get_origin(type_) is Union:
        return max(map(_free, get_args(type_)))
    if get_origin(type_) is not Annotated:
        return 0
    base, *marks = get_args(type_)
    if base is not str:
        return _free(base) if get_origin(base) in (Annotated, Union) or isinstance(base, UnionType) else 0
    if any(isinstance(mark, NO_TEXT) for mark in marks):
        return 0
    bounds = [mark for mark in marks if isinstance(mark, StringConstraints)]
    return max((one.max_length or 0 for one in bounds if not one.pattern), default=0)


def _record_in(type_: Any) -> Any:
    if isinstance(type_, type) and is_dataclass(type_):
        return type_
    if get_origin(type_) in (tuple, dict, list):
        return None
    return next((one for part in get_args(type_) if (one := _record_in(part)) is not None), None)


def _parts(type_: Any) -> Iterator[Any]:
    yield type_
    for part in get_args(type_):
        if not isinstance(part, Sequence):
            yield from _parts(part)


def _item_of(type_: Any) -> Any:
    return next((get_args(part)[0] for part in _parts(type_) if get_origin(part) is tuple), type_)


def _value_of(type_: Any) -> Any:
    return next((get_args(part)[1] for part in _parts(type_) if get_origin(part) is dict), None)
