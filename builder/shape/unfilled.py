"""A tree -> a problem for each value that still is the placeholder of a fresh record."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.problem import Problem
from builder.model.records.fields import FILL_IN
from builder.model.tree import Mapping, Node, Scalar, span_of
from builder.shape import codes

DO = "write what the comment above it asks for"


def unfilled_problems(tree: Mapping, file: str) -> Iterator[Problem]:
    """Walk the record from its top."""
    yield from _walk(tree, "", file)


def _walk(node: Node, key: str, file: str) -> Iterator[Problem]:
    if isinstance(node, Scalar):
        if node.text == FILL_IN:
            yield Problem(codes.TO_FILL_IN, span_of(node, file), f'"{key}" is still to be filled in', DO)
    elif isinstance(node, Mapping):
        for name, entry in node.entries.items():
            yield from _walk(entry.value, name, file)
    else:
        for item in node.items:
            yield from _walk(item, key, file)
