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
