"""Broken books: each folder lies over the tiny book and gives exactly the problems of its `expected.txt`.

A folder is called after the code it shows and what is wrong. `SEAMBOOK_GOLDENS=overwrite` writes what is given now:
read it before it is kept, since it is what an author will read.
"""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from builder import pipeline
from builder.model.records import KINDS, Kind
from tests.books.laying import EXPECTED, TINY, build, lay, shown

INVALID = Path(__file__).parent
CASES = sorted(folder.name for folder in INVALID.iterdir() if folder.name[1:4].isdigit())
ELSEWHERE = {
    "R105": "a file of that size has no place in a repository: tests/read",
    "R110": "a file that may not be read cannot be kept in a repository: tests/read",
    "R112": "an override needs two layers: tests/authoring",
    "R113": "an override needs two layers: tests/authoring",
    "F551": "inputs given on the command line: test_calc",
    "F552": "inputs given on the command line: test_calc",
    "F553": "inputs given on the command line: test_calc",
}


@pytest.mark.parametrize("case", CASES)
def test_a_broken_book_is_told_exactly(case: str, tmp_path: Path) -> None:
    outcome = build(lay(tmp_path / "content", TINY, INVALID / case), tmp_path / "site", strict=True)
    given = shown(outcome)
    expected = INVALID / case / EXPECTED
    if os.environ.get("SEAMBOOK_GOLDENS") == "overwrite":
        expected.write_text(given, "utf-8")
    assert given == expected.read_text("utf-8")
    assert case.split("-")[0] in {problem.code.id for problem in outcome.problems}
    assert outcome.published is None
    assert not (tmp_path / "site").exists(), "a bad book was published"


def test_every_code_has_a_broken_book() -> None:
    shown_codes = {case.split("-")[0] for case in CASES}
    missing = {code.id for code in pipeline.CODES} - shown_codes - set(ELSEWHERE)
    assert missing == set()


def test_codes_are_unique_and_explained() -> None:
    ids = [code.id for code in pipeline.CODES]
    names = [code.name for code in pipeline.CODES]
    assert len(set(ids)) == len(ids)
    assert len(set(names)) == len(names)
    assert all(len(code.explanation) > 60 for code in pipeline.CODES)


def test_one_typo_makes_one_message(tmp_path: Path) -> None:
    """A seam that many records refer to is broken by one misspelt key: its users say nothing."""
    content = lay(tmp_path / "content", TINY)
    seam = content / "seams" / "cover-edge.yaml"
    seam.write_text(seam.read_text("utf-8").replace("joint: lap", "jiont: lap"), "utf-8")
    problems = build(content).problems
    assert {problem.span.file for problem in problems} == {"content/seams/cover-edge.yaml"}
    assert [(problem.code.name, problem.do) for problem in problems] == [
        ("unknown_key", "write joint, the nearest name"),
    ]  # fmt: skip


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
def test_a_file_of_any_kind_may_hold_anything(kind: Kind, tmp_path: Path) -> None:
    """Nothing in a record's file is a fault in Seambook: wrong forms all over are problems with places."""
    texts = ("a", "[]", "{}", "title: [1]", "title: {a: b}\nwas: x", "title: 1\n? [a]\n: b", "~")
    content, names = lay(tmp_path / "content", TINY), set()
    for at, text in enumerate((*texts, *(f"---\n{text}\n---\n\nx\n" for text in texts))):
        name = f"{kind.folder}/odd-{at}{kind.ending}"
        (content / name).write_text(text, "utf-8")
        names.add(f"content/{name}")
    assert {problem.span.file for problem in build(content).problems} == names
