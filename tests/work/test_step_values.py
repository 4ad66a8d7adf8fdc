"""Values of a step one after the other: a later one may use the named answers of those before it in the same step."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.books.laying import TINY, build, edit, lay, shown
from tests.site.building import page

FIRST = """\
          - calculator: holes
            seam: cover-edge
            segment: 1
            with: {length: length, pitch: 40 mm, sheet: outer, face: open}
            show: [count, size]
"""
NAMED = FIRST.replace("- calculator: holes\n", "- calculator: holes\n            as: row\n")
SECOND = """\
          - calculator: holes
            seam: cover-edge
            segment: 1
            with: {{length: '{length}', pitch: 40 mm, sheet: outer, face: open}}
            show: [count]
"""


def content_with(folder: Path, length: str) -> Path:
    content = lay(folder / "content", TINY)
    edit(content, "procedures/weld-cover.yaml", (FIRST, NAMED + SECOND.format(length=length)))
    return content


def test_a_named_answer_is_given_to_the_next_value(tmp_path: Path) -> None:
    """The front is 300 mm: 280 mm at 40 mm are 8 holes. The next row is given 8 by 40 mm, 320 mm."""
    outcome = build(content_with(tmp_path, "row_count * with_unit(40, mm)"), tmp_path / "site")
    assert outcome.published is not None, shown(outcome)
    text = page(tmp_path / "site", "procedures/weld-cover.html").get_text(" ", strip=True)
    assert "Length of the edge 320" in text.replace("\u00a0", " ")


@pytest.mark.parametrize(("length", "said"), [
    ("row_coumt * with_unit(40, mm)", 'there is no "row_coumt" here (F504)'),
    ("row_count", "this is a bare number, and a length is needed (F508)"),
])  # fmt: skip
def test_a_wrong_name_and_a_wrong_kind_are_told(tmp_path: Path, length: str, said: str) -> None:
    assert said in shown(build(content_with(tmp_path, length), tmp_path / "site"))
