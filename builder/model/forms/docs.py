"""A record type -> what its source says of each field: the docstring below the field, in its author's words."""

from __future__ import annotations

import ast
import inspect
import sys
from collections.abc import Mapping
from functools import cache

_EVERYWHERE = {"was": "Ids that this had before; links to them still arrive."}
"""Fields that mean the same in every record and are explained once."""


def about(record_type: type) -> str:
    """Return a type's own docstring on one line."""
    return " ".join((record_type.__doc__ or "").split())


def field_docs(record_type: type) -> Mapping[str, str]:
    """Return the docstrings of a type's fields by the field's name in Python."""
    return {**_EVERYWHERE, **_docs_of_module(record_type.__module__).get(record_type.__name__, {})}


@cache
def _docs_of_module(name: str) -> Mapping[str, Mapping[str, str]]:
    code = ast.parse(inspect.getsource(sys.modules[name]))
    return {node.name: _docs_of_class(node) for node in code.body if isinstance(node, ast.ClassDef)}


def _docs_of_class(node: ast.ClassDef) -> Mapping[str, str]:
    found: dict[str, str] = {}
    for field, below in zip(node.body, node.body[1:], strict=False):
        if not (isinstance(field, ast.AnnAssign) and isinstance(field.target, ast.Name)):
            continue
        if isinstance(below, ast.Expr) and isinstance(below.value, ast.Constant) and isinstance(below.value.value, str):
            found[field.target.id] = " ".join(below.value.value.split())
    return found
