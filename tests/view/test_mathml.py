"""Formulas as mathematics: how each form is set, and that what is read says what the formula says."""

from __future__ import annotations

import random
import re
from pathlib import Path

import pytest

from builder.formula import Fault, parse
from builder.formula.check import Scope, check
from builder.formula.evaluate import evaluate, worker_of
from builder.model.expression import Expression
from builder.view.mathml import condition, equation
from tests.formula.cases import Case, cases
from tests.formula.parity import KINDS, example, steps, told
from tests.view.mathml_reading import element, formula, line

MANY = 4000
CASES = cases("mathml.txt", Path(__file__).parent / "fixtures")


def tree(text: str) -> Expression:
    found = parse(text)
    assert not isinstance(found, Fault), (text, found)
    return found


@pytest.mark.parametrize("case", CASES)
def test_how_a_formula_is_set(case: Case) -> None:
    text, expected = case.columns
    node = tree(text)
    assert line(element(equation("the_result", node))) == f"the result = {expected}"
    assert line(element(condition(node))) == expected


def test_what_is_read_from_the_page_is_worked_out_alike() -> None:
    """Formulas made up at random: their MathML is read as a reader would, and both give the same to the last bit."""
    chance = random.Random(2026)
    tables = {"steps": steps()}
    compared = 0
    for _ in range(MANY):
        made = example(chance)
        if re.search(r"table|_unit", made.formula):  # set in words: the fixture shows how
            continue
        text = formula(element(condition(tree(made.formula))))
        again = tree(text)
        assert not check(again, Scope(KINDS, tables))[1], (made.formula, text)
        values = [told(evaluate(worker_of(node, tables), made.values)) for node in (tree(made.formula), again)]
        assert values[0] == values[1], (made.formula, text)
        compared += 1
    assert compared > MANY / 3


def test_only_elements_of_mathml_core_are_used() -> None:
    core = {"math", "mrow", "mi", "mn", "mo", "mtext", "mfrac", "msup", "msub", "msqrt", "mtable", "mtr", "mtd"}
    used = set()
    for parameters in CASES:
        case = parameters.values[0]
        assert isinstance(case, Case)
        used |= {one.tag for one in element(equation("x", tree(case.columns[0]))).iter()}
    assert used == core


def test_what_stands_between_quotes_or_signs_is_no_mark_up() -> None:
    made = equation("a", tree("1 if a < b and k == 'x' else 0"))
    assert "&lt;" in made
    assert len(list(element(made).iter("mtd"))) == 4


def test_a_long_list_of_arguments_may_be_broken_and_a_short_one_stands_whole() -> None:
    assert len(element(condition(tree("max(a, b, c)")))) == 3
    assert len(element(condition(tree("max(a, b)")))) == 1
