"""Quantities as authors write them -> number and unit, or the problem. A failing id is a line of quantities.txt."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.model.files import SourceFile
from builder.model.records.body import Seam
from builder.model.reference import Ref
from builder.read.tree import parse
from builder.shape import shape
from tests.books.laying import TINY

TABLE = Path(__file__).parent / "fixtures" / "quantities.txt"
CASES = [
    pytest.param(*line.split(" | "), id=f"{TABLE.name}:{at}")
    for at, line in enumerate(TABLE.read_text("utf-8").splitlines(), 1) if not line.startswith("#")
]  # fmt: skip


@pytest.mark.parametrize(("written", "expected"), CASES)
def test_the_length_of_a_segment(written: str, expected: str) -> None:
    text = (TINY / "seams" / "cover-edge.yaml").read_text("utf-8").replace("length: 300 mm", f'length: "{written}"')
    tree, _ = parse(text, "x.yaml")
    assert tree is not None
    record, _, problems = shape(SourceFile(Path(), "x.yaml", Ref("seam", "cover-edge")), tree, {})
    if not problems:
        assert isinstance(record, Seam)
        assert str(record.segments[0].length) == expected
        return
    (problem,) = problems
    code, _, said = expected.partition(": ")
    assert f"{problem.code.id} {problem.code.name}" == code
    assert said in problem.message or said in problem.do
    assert text.split("\n")[problem.span.line - 1][problem.span.column - 1 : problem.span.end - 1] == f'"{written}"'


@pytest.mark.parametrize(("key", "written", "do"), [
    ("minutes: 5", "minutes: -5", "not below 0"), ("minutes: 5", "minutes: nan", "not above 100000"),
    ("minutes: 5", "minutes: inf", "not above 100000"), ("minutes: 5", "minutes: soon", "write a number"),
    ("count: 1", "count: 0", "not below 1"), ("count: 1", "count: 1.5", "a whole number"),
    ("number: 2", "number: -2", "not below 1"),
])  # fmt: skip
def test_counts_and_times_have_bounds(key: str, written: str, do: str) -> None:
    text = (TINY / "procedures" / "weld-cover.yaml").read_text("utf-8").replace(key, written, 1)
    tree, _ = parse(text, "x.yaml")
    assert tree is not None
    _, _, (problem,) = shape(SourceFile(Path(), "x.yaml", Ref("procedure", "weld-cover")), tree, {})
    assert problem.code.id == "S204"
    assert do in problem.do
