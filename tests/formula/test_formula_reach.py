"""Rows of a decision that can never be reached, held against trying every case there is."""

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.formula import Fault, Kind, NoAnswer, Value, choice, number, parse
from builder.formula.evaluate import evaluate, worker_of
from builder.formula.reach import unreachable_rows
from builder.model.expression import Expression

IDS = {"joint": ("lap", "butt", "hem"), "side": ("both", "one"), "old": ("yes", "no")}
KINDS: dict[str, Kind] = {**{name: choice(ids) for name, ids in IDS.items()}, "count": number(), "size": number()}


def trees(*texts: str) -> list[Expression]:
    found = [parse(text) for text in texts]
    return [tree for tree in found if not isinstance(tree, Fault)]


def by_trying(conditions: list[Expression]) -> list[int]:
    """The rows that no case reaches, by working all cases out."""
    workers = [worker_of(condition) for condition in conditions]
    reached = set()
    for ids in product(*IDS.values()):
        values: dict[str, Value] = dict(zip(IDS, ids, strict=True))
        for number_, worker in enumerate(workers):
            if evaluate(worker, values) is True:
                reached.add(number_)
                break
    return [row for row in range(len(conditions)) if row not in reached]


compared = st.sampled_from(
    [f'{name} {sign} "{id_}"' for name, ids in IDS.items() for id_ in ids for sign in ("==", "!=")]
)
conditions_made = st.recursive(
    compared,
    lambda inner: st.tuples(inner, st.sampled_from(["and", "or"]), inner).map(lambda parts: "({} {} {})".format(*parts))
    | inner.map(lambda text: f"(not {text})"),
    max_leaves=5,
)


@given(st.lists(conditions_made, min_size=1, max_size=8))
def test_as_trying_every_case_finds(texts: list[str]) -> None:
    conditions = trees(*texts)
    assert unreachable_rows(conditions, KINDS) == by_trying(conditions)


@pytest.mark.parametrize(
    ("texts", "rows"),
    [
        (["count > 2", "2 < count"], [1]),
        (["count > 2", "count > 2 and size > 1"], [1]),
        (["count > 2", "not (count > 2)", "size > 1"], [2]),
        (["1 < 2", "count > 2"], [1]),
        (["2 < 1", "count > 2"], [0]),
        (["1 / 0 > 1", "count > 2"], []),
        (["count > 2", "count > 1"], []),
        (["count > 2", "count >= 2"], []),
        (['joint == "lap"', 'joint != "lap"', "count > 2"], [2]),
    ],
)
def test_known_rows(texts: list[str], rows: list[int]) -> None:
    assert unreachable_rows(trees(*texts), KINDS) == rows


def test_no_answer_reaches_no_row_below() -> None:
    """A row that cannot be judged stops the decision: it is not taken for false."""
    found = evaluate(worker_of(trees("count > 2")[0]), {"count": NoAnswer("it is unknown")})
    assert found == NoAnswer("it is unknown")
