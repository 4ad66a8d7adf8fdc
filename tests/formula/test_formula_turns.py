"""In which order marks along a line are taken: every mark once, no two neighbours in a round, in both targets."""

import json
from itertools import chain, pairwise

import pytest

from builder.formula.no_answer import Unanswered
from builder.formula.turns import MOST_MARKS, rounds_of, turns
from tests.formula.node import run_node

ALL = [(count, halvings) for count in range(1, MOST_MARKS + 1) for halvings in (0, 1, 2, 10)]


def test_every_mark_comes_once() -> None:
    for count, halvings in ALL:
        assert sorted(chain.from_iterable(rounds_of(count, halvings))) == list(range(1, count + 1))


def test_no_round_holds_neighbours() -> None:
    for count, halvings in ALL:
        for marks in rounds_of(count, halvings):
            assert all(right - left > 1 for left, right in pairwise(sorted(marks))), (count, halvings)


def test_halved_to_the_end_the_rounds_grow_as_the_logarithm() -> None:
    # n marks: two ends, and halving 2 ** k spaces takes k rounds
    assert [len(rounds_of(2**power + 1, 10)) for power in range(1, 8)] == [power + 1 for power in range(1, 8)]


def test_one_weld_is_followed_by_one_far_off() -> None:
    # On a skin of 33 marks no weld of a long round is nearer than a quarter of the seam to the one before it.
    for marks in rounds_of(33, 10)[2:]:
        assert all(abs(left - right) >= 8 for left, right in pairwise(marks))


@pytest.mark.parametrize("count", [0, -1, 2.5, MOST_MARKS + 1, 1e300])
def test_what_cannot_be_counted_has_no_order(count: float) -> None:
    with pytest.raises(Unanswered, match="not a whole number of marks"):
        turns(count, 1)


def test_the_script_says_the_same() -> None:
    shown = run_node(f"return {json.dumps(ALL)}.map(([count, halvings]) => seambook.formula.F.turns(count, halvings));")
    assert shown == [turns(count, halvings) for count, halvings in ALL]
