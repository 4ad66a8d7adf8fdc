"""What the parser takes and refuses, and where it points."""

import warnings

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formula import Fault, parse
from builder.formula.parse import MAX_DEPTH, MAX_NODES
from builder.model.expression import Binary, Conditional, Number, walk
from tests.formula.cases import Case, cases


@pytest.mark.parametrize("case", cases("refused.txt"))
def test_refused_with_help(case: Case) -> None:
    text, code, culprit, do = case.columns
    found = parse(text)
    assert isinstance(found, Fault)
    assert found.code.name == code
    assert culprit in ("?", text[found.start : found.end])
    assert do in found.do


@pytest.mark.parametrize("text", [
    "", "   ", "\x00", "a\x00b", "(" * 3000, "-" * 3000 + "1", "1" * 5000, "'", "\ud800", "a\u202eb",
])  # fmt: skip
def test_hostile_text_makes_one_fault(text: str) -> None:
    assert isinstance(parse(text), Fault)


def test_depth_and_size_are_limited() -> None:
    deep = "-" * (MAX_DEPTH - 1) + "1"
    assert not isinstance(parse(deep), Fault)
    assert isinstance(parse("-" + deep), Fault)
    wide = "+".join(["a"] * 20)
    assert not isinstance(parse(wide), Fault)
    rows = "max(" + ",".join(["a"] * (MAX_NODES - 1)) + ")"
    assert not isinstance(parse(rows), Fault)
    assert isinstance(parse(rows.replace("(", "(a,")), Fault)
    assert isinstance(parse(" and ".join(["a > 1"] * MAX_DEPTH)), Fault)


def test_forty_characters_a_number() -> None:
    assert not isinstance(parse("0." + "1" * 38), Fault)
    assert isinstance(parse("0." + "1" * 39), Fault)


def test_syntax_warnings_do_not_leak() -> None:
    with warnings.catch_warnings(record=True) as seen:
        warnings.simplefilter("always")
        found = parse("1if x > 2else 3")
        parse('"\\d" == x')
        parse("1 is 2")
    assert isinstance(found, Conditional)
    assert seen == []


def test_places_are_characters_of_the_text() -> None:
    text = "  ( a )   *\n (b+1)"
    tree = parse(text)
    assert isinstance(tree, Binary)
    assert text[tree.at] == "*"
    assert [text[node.start : node.end] for node in walk(tree)][1:] == ["a", "b+1", "b", "1"]


def test_numbers_keep_their_text() -> None:
    tree = parse("0.10")
    assert tree == Number("0.10", 0.1, 0, 4)


@given(st.text(alphabet="abk 01.+-*/()<>=\"'%,é\\#\n_[]{}:@!", max_size=40))
def test_any_text_gives_a_tree_or_a_fault_with_places_inside_it(text: str) -> None:
    found = parse(text)
    if isinstance(found, Fault):
        start, end = found.start or 0, found.end if found.end is not None else len(text)
        assert 0 <= start <= end <= len(text)
        assert found.message
        assert found.do
    else:
        assert all(0 <= node.start < node.end <= len(text) for node in walk(found))


@given(st.text(max_size=60))
def test_any_unicode_gives_a_tree_or_a_fault(text: str) -> None:
    parse(text)
