"""What is refused while a file becomes a tree, at its first bad place: depth, aliases, tags, keys given twice."""

from __future__ import annotations

import pytest

from builder.model.problem import Problem
from builder.read.plain import parse_plain
from builder.read.tree import MAX_DEPTH, MAX_KEY, parse


def _problems(text: str) -> tuple[Problem, ...]:
    tree, problems = parse(text, "x.yaml")
    assert tree is None or problems
    assert parse_plain(text) is None
    return problems


def _nested(levels: int) -> str:
    return f"a: {'[' * levels}x{']' * levels}\n"


def test_a_file_may_be_as_deep_as_the_bound_and_no_deeper() -> None:
    tree, problems = parse(_nested(MAX_DEPTH - 1), "x.yaml")  # the file's own mapping is the first level
    assert tree is not None
    assert problems == ()
    (problem,) = _problems(_nested(MAX_DEPTH))
    assert (problem.code.name, problem.span.line, problem.span.column) == ("too_deep", 1, 4 + MAX_DEPTH - 1)


@pytest.mark.parametrize("open_", ["[", "{a: ", "- "])
def test_depth_far_beyond_the_bound_is_one_problem_and_no_crash(open_: str) -> None:
    (problem,) = _problems("a:\n  " + open_ * 20_000)
    assert problem.code.name == "too_deep"


@pytest.mark.parametrize(("text", "line", "column"), [
    ("a: &x 1\n", 1, 4),
    ("a: 1\nb: *x\n", 2, 4),
    ("a: !!int 1\n", 1, 4),
    ("a:\n  - !thing {b: c}\n", 2, 5),
    ("&x a: 1\n", 1, 1),
    ("a: &x\n  b: 1\n", 1, 4),
    ("a:\n  <<: *b\n", 2, 7),
])  # fmt: skip
def test_anchors_aliases_and_tags_are_refused_where_they_stand(text: str, line: int, column: int) -> None:
    (problem,) = _problems(text)
    assert (problem.code.name, problem.span.line, problem.span.column) == ("alias", line, column)


def test_every_key_given_twice_is_told_with_the_first_one() -> None:
    problems = _problems("a: 1\nb: {c: 1, c: 2}\na: 2\na: 3\n")
    found = [(problem.span[1:], problem.see[0].span[1:]) for problem in problems]
    assert {problem.code.name for problem in problems} == {"duplicate_key"}
    assert found == [((2, 11, 12), (2, 5, 6)), ((3, 1, 2), (1, 1, 2)), ((4, 1, 2), (1, 1, 2))]


@pytest.mark.parametrize("key", ["? [a]\n: 1\n", "? {a: b}\n: 1\n", "'': 1\n", f"{'k' * (MAX_KEY + 1)}: 1\n"])
def test_a_key_is_a_plain_word(key: str) -> None:
    (problem,) = _problems(f"title: x\n{key}")
    assert (problem.code.name, problem.span.line) == ("odd_key", 2)


@pytest.mark.parametrize(("text", "line"), [
    ("", 1), ("# nothing\n", 1), ("just text\n", 1), ("\n- a\n- b\n", 2), ("a: 1\n---\nb: 2\n", 2),
])  # fmt: skip
def test_a_file_is_one_mapping(text: str, line: int) -> None:
    (problem,) = _problems(text)
    assert (problem.code.name, problem.span.line) == ("not_a_record", line)


@pytest.mark.parametrize("letter", ["\0", "\x07", "\x1b", "\x7f", "\x80", "\ufffe"])
def test_control_characters_are_told_by_their_place(letter: str) -> None:
    (problem,) = _problems(f"title: x\nmeans: é{letter}y\n")
    assert (problem.code.name, problem.span[1:]) == ("not_text", (2, 9, 10))


@pytest.mark.parametrize("text", ["yes", "010", "1e3", "~", "2026-01-02", "0x1f", "null", "1_000", ".inf"])
def test_every_scalar_stays_text(text: str) -> None:
    tree, _ = parse(f"a: {text}\n", "x.yaml")
    assert tree is not None
    assert tree.entries["a"].value[0] == text
