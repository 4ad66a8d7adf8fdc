"""Trees: one YAML file as it stands, every key and value with its place, every scalar still text."""

from __future__ import annotations

from typing import NamedTuple

from builder.model.place import Span


class Scalar(NamedTuple):
    """One value, as text."""

    text: str
    line: int
    column: int
    end: int
    """Column past the last character of its first line."""
    plain: bool
    """True where column + i is the place of character i: written on one line without escapes."""
    quoted: bool = False
    """Written in quotes (its column is the opening quote's)."""


class Entry(NamedTuple):
    """A key with its value."""

    key: Scalar
    value: Node


class Mapping(NamedTuple):
    """Keys with values, in the author's order."""

    entries: dict[str, Entry]
    line: int
    column: int
    end: int


class Sequence(NamedTuple):
    """Values in order."""

    items: tuple[Node, ...]
    line: int
    column: int
    end: int


Node = Scalar | Mapping | Sequence


def plain(node: Node) -> object:
    """Return the tree as plain dicts, lists and strings, for the shaping library."""
    if isinstance(node, Scalar):
        return node.text
    if isinstance(node, Mapping):
        return {key: plain(entry.value) for key, entry in node.entries.items()}
    return [plain(item) for item in node.items]


def span_of(node: Node, file: str) -> Span:
    """Return the node's place in its file."""
    return Span(file, node.line, node.column, node.end)


def follow(node: Node, path: tuple[str | int, ...]) -> tuple[Node, Scalar | None]:
    """Walk down as far as the path leads; return the node reached and the last key passed.

    Steps that do not fit the tree are skipped, so that a library's own path markers do no harm.
    """
    key: Scalar | None = None
    for part in path:
        if isinstance(node, Mapping) and isinstance(part, str) and part in node.entries:
            key, node = node.entries[part]
        elif isinstance(node, Sequence) and isinstance(part, int) and 0 <= part < len(node.items):
            node = node.items[part]
    return node, key


def reached(node: Node, path: tuple[str | int, ...]) -> tuple[str | int, ...]:
    """Return the steps of a path that fit the tree."""
    steps: list[str | int] = []
    for part in path:
        inner, _ = follow(node, (part,))
        if inner is not node:
            steps.append(part)
            node = inner
    return tuple(steps)
