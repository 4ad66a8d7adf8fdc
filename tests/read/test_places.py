"""Every scalar of a tree knows where it stands."""

from __future__ import annotations

from collections.abc import Iterator

import yaml
from hypothesis import given
from hypothesis import strategies as st

from builder.model.tree import Mapping, Node, Scalar
from builder.read.tree import parse

_words = st.text(st.characters(codec="utf-8", categories=["L", "N", "Zs", "P"]), min_size=1, max_size=12)
_values = st.recursive(
    _words,
    lambda inner: st.lists(inner, min_size=1, max_size=3) | st.dictionaries(_words, inner, min_size=1, max_size=3),
    max_leaves=12,
)  # fmt: skip


def _scalars(node: Node) -> Iterator[Scalar]:
    if isinstance(node, Scalar):
        yield node
    elif isinstance(node, Mapping):
        for entry in node.entries.values():
            yield entry.key
            yield from _scalars(entry.value)
    else:
        for item in node.items:
            yield from _scalars(item)


@given(st.dictionaries(_words, _values, min_size=1, max_size=4), st.booleans())
def test_a_plain_scalar_stands_at_its_place(value: dict[str, object], flow: bool) -> None:
    text = yaml.safe_dump(value, allow_unicode=True, default_flow_style=flow, width=1000)
    tree, problems = parse(text, "x.yaml")
    assert tree is not None
    assert problems == ()
    lines = text.split("\n")
    for scalar in _scalars(tree):
        written = lines[scalar.line - 1][scalar.column - 1 : scalar.end - 1]
        assert written
        if scalar.plain:
            assert written[1:-1] == scalar.text if scalar.quoted else written == scalar.text


def test_places_count_characters_from_one() -> None:
    tree, _ = parse("é: {b: 'c d', ü: x}\n", "x.yaml")
    assert tree is not None
    inner = tree.entries["é"].value
    assert isinstance(inner, Mapping)
    assert inner.entries["b"].value[:5] == ("c d", 1, 8, 13, True)
    assert inner.entries["ü"].key[:4] == ("ü", 1, 15, 16)
