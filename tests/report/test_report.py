"""Problems made by hand -> the exact text of each form."""

from __future__ import annotations

import json as standard_json

import pytest

from builder.model.place import Span
from builder.model.problem import Code, Problem, Related
from builder.report import github, json, text

CODE = Code("X999", "bad_thing", "What it means.")
PLACE = Span("content/seams/x.yaml", 48, 17, 29)
LINE = "        on: [seam:rocker-botm]"
PLAIN = Problem(CODE, PLACE, 'no seam is called "rocker-botm"', "write rocker-bottom, the nearest name")
FULL = Problem(
    CODE, PLACE, "50 % is much: 1, 2", "write less", why="A rule: it burns.", level="warning",
    see=(Related(Span("content/rules/r.yaml", 1, 8, 12), "the rule"), Related(Span("b.yaml", 2, 3, 4), "the other")),
)  # fmt: skip


def shown(line: str, column: int, end: int) -> list[str]:
    """Return the two lines that quote the author's."""
    problem = Problem(CODE, Span("f.yaml", 7, column, end), "m", "d")
    (block,) = text([problem], lambda _: line)
    return block.split("\n")[1:-1]


def test_a_problem_as_text() -> None:
    (block,) = text([PLAIN], lambda _: LINE)
    assert block == (
        'content/seams/x.yaml:48:17: error: no seam is called "rocker-botm" (X999)\n'
        "    48          on: [seam:rocker-botm]\n"
        "                        <---------->\n"
        "    do    write rocker-bottom, the nearest name"
    )


def test_a_problem_with_reason_and_other_places_as_text() -> None:
    (block,) = text([FULL], lambda _: "")
    assert block == (
        "content/seams/x.yaml:48:17: warning: 50 % is much: 1, 2 (X999)\n"
        "    do    write less\n"
        "    why   A rule: it burns.\n"
        "    see   content/rules/r.yaml:1:8 the rule\n"
        "    see   b.yaml:2:3 the other"
    )


@pytest.mark.parametrize(("line", "column", "end", "marked"), [
    ("a: b", 4, 5, "^"),
    ("a: bc", 4, 6, "<>"),
    ("a: bcd", 4, 7, "<->"),
    ("a: b", 4, 40, "^"),
    ("a: b", 5, 6, "^"),
    ("\ta: bc", 5, 7, "<>"),
    ("a: é°µ", 4, 7, "<->"),
])  # fmt: skip
def test_the_culprit_is_dimensioned_below_its_line(line: str, column: int, end: int, marked: str) -> None:
    quoted, mark = shown(line, column, end)
    assert quoted == f"    7  {line.expandtabs(1)}"
    assert mark.strip() == marked
    assert mark.index(marked) == len("    7  ") + column - 1


@pytest.mark.parametrize(("line", "column", "end", "left", "width"), [
    ("表: 鉄板 x", 4, 6, 4, 4),
    ("表: 鉄板 x", 7, 8, 9, 1),
    ("e\u0301: bc", 5, 7, 3, 2),
    ("x: \U0001f527 b", 4, 5, 3, 2),
])  # fmt: skip
def test_wide_and_combining_characters_take_the_columns_a_terminal_gives_them(
    line: str, column: int, end: int, left: int, width: int
) -> None:
    """Widths after Unicode Standard Annex 11: wide characters take two columns, combining marks none."""
    _, mark = shown(line, column, end)
    assert len(mark) - len(mark.lstrip(" ")) == len("    7  ") + left
    assert len(mark.strip()) == width


@pytest.mark.parametrize("column", [1, 150, 300, 395])
def test_a_long_line_is_cut_round_the_culprit(column: int) -> None:
    line = "".join(chr(ord("a") + at % 26) for at in range(400))
    quoted, mark = shown(line, column, column + 5)
    assert len(quoted) <= len("    7  ") + 160
    begin = mark.index("<")
    assert mark.strip() == "<--->"
    assert quoted[begin : begin + 5] == line[column - 1 : column + 4]


def test_a_culprit_longer_than_the_shown_part_is_marked_as_far_as_it_is_shown() -> None:
    quoted, mark = shown("x" * 500, 1, 501)
    assert len(quoted) == len(mark)
    assert mark.strip() == "<" + "-" * 158 + ">"


def test_an_empty_line_is_not_quoted() -> None:
    (block,) = text([PLAIN], lambda _: "   ")
    assert len(block.split("\n")) == 2


def test_problems_as_json() -> None:
    assert json([]) == "[]"
    assert standard_json.loads(json([FULL])) == [{
        "code": "X999", "name": "bad_thing", "level": "warning",
        "file": "content/seams/x.yaml", "line": 48, "column": 17, "end": 29,
        "message": "50 % is much: 1, 2", "do": "write less", "why": "A rule: it burns.",
        "see": [
            {"file": "content/rules/r.yaml", "line": 1, "column": 8, "end": 12, "label": "the rule"},
            {"file": "b.yaml", "line": 2, "column": 3, "end": 4, "label": "the other"},
        ],
    }]  # fmt: skip
    assert json([PLAIN]).startswith('[\n  {\n    "code": "X999",\n    "name": "bad_thing",\n    "level": "error",\n')


def test_problems_as_annotations() -> None:
    """Escapes as GitHub's workflow commands ask: % : , and line ends in properties, % and line ends in the message."""
    assert list(github([FULL, PLAIN])) == [
        "::warning file=content/seams/x.yaml,line=48,col=17,endColumn=29,title=X999 bad_thing"
        "::50 %25 is much: 1, 2. Do: write less. Why: A rule: it burns.",
        "::error file=content/seams/x.yaml,line=48,col=17,endColumn=29,title=X999 bad_thing"
        '::no seam is called "rocker-botm". Do: write rocker-bottom, the nearest name.',
    ]  # fmt: skip
    odd = Problem(CODE, Span("a,b:c%.yaml", 1, 1, 2), "one\ntwo", "do")
    assert list(github([odd])) == [
        "::error file=a%2Cb%3Ac%25.yaml,line=1,col=1,endColumn=2,title=X999 bad_thing::one%0Atwo. Do: do."
    ]


def test_what_steers_a_terminal_is_not_passed_on() -> None:
    """An author's file, or a record handed on by another shop, cannot colour, clear or turn the screen."""
    problem = Problem(CODE, Span("f.yaml", 1, 4, 5), "cannot be \"\x1b[2J\nx\"", "d")
    (block,) = text([problem], lambda _: "a: \x1b]0;x\x07\u202eb")
    assert block.split("\n") == [
        'f.yaml:1:4: error: cannot be "\ufffd[2J x" (X999)', "    1  a: \ufffd]0;x\ufffd\ufffdb", "          ^",
        "    do    d",
    ]  # fmt: skip
