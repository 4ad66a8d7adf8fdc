"""One slip of the finger anywhere in the tiny book makes one message, at the slip."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from builder.model.files import SourceFile
from builder.model.records import KINDS, Kind
from builder.model.records.fields import Points, Word
from builder.model.records.page import TEXT
from builder.model.reference import Ref
from builder.model.tree import Mapping, Node, Scalar
from builder.read.files import read
from builder.shape.marks import marked
from tests.books.laying import TINY, build, lay, shown


def _tree(path: Path, kind: Kind) -> Mapping:
    found, _ = read(SourceFile(path, path.name, Ref(kind.name, path.stem)))
    assert found is not None
    return found


def _keys(node: Node, above: str = "") -> Iterator[tuple[str, Scalar]]:
    """Yield the keys of a record by where they stand; lists count as one place."""
    if isinstance(node, Mapping):
        for entry in node.entries.values():
            place = f"{above}.{entry.key.text}".lstrip(".")
            yield place, entry.key
            yield from _keys(entry.value, place)
    elif not isinstance(node, Scalar):
        for item in node.items:
            yield from _keys(item, above)


def _slips() -> list[object]:
    """Of every kind one reference or word of each field, and every second key of three letters or more, once each."""
    found: dict[str, tuple[str, Scalar]] = {}
    for kind in KINDS:
        free = {"words", "inputs", "fixed", "tables", "work", "decide", "outputs", "given", "expect", "with", "keys",
                "columns", "rows", "choose", "places", "customer_page", "left_at"}  # fmt: skip
        named = {"views", "twins"}  # the author's own names, and what is in them has keys of ours
        for path in sorted((TINY / kind.folder).glob(f"*{kind.ending}")):
            name = f"{kind.folder}/{path.name}"
            for mark in marked(kind.type, _tree(path, kind)):
                if isinstance(mark.mark, Points | Word) and not mark.scalar.quoted:
                    found.setdefault(f"{kind.name}:{mark.field}", (name, mark.scalar))
            for place, key in _keys(_tree(path, kind)):
                above = place.split(".")[:-1]
                is_own = free.intersection(above) or named.intersection(above[-1:])
                if len(key.text) > 2 and place != TEXT and not is_own:
                    found.setdefault(f"{kind.name}.{place} (key)", (name, key))
    keys = [case for case in sorted(found) if case.endswith(" (key)")]
    cases = sorted({*found} - {*keys[1::2]})
    return [pytest.param(*found[case], id=case) for case in cases]


@pytest.fixture(scope="module")
def content(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return lay(tmp_path_factory.mktemp("typos") / "content", TINY)


@pytest.mark.sweep(4)
@pytest.mark.parametrize(("name", "scalar"), _slips())
def test_one_slip_makes_one_message(name: str, scalar: Scalar, content: Path) -> None:
    path = content / name
    right = path.read_text("utf-8")
    lines = right.split("\n")
    line = lines[scalar.line - 1]
    lines[scalar.line - 1] = f"{line[: scalar.end - 1]}x{line[scalar.end - 1 :]}"
    path.write_text("\n".join(lines), "utf-8")
    try:
        outcome = build(content)
    finally:
        path.write_text(right, "utf-8")
    assert len(outcome.problems) == 1, shown(outcome)
    (problem,) = outcome.problems
    assert (problem.span.file, problem.span.line) == (f"content/{name}", scalar.line)
    assert problem.span.column <= scalar.end <= problem.span.end
