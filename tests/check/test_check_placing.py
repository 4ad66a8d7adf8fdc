"""Where a missing step is said to belong, it mends the breach and breaks nothing: the model that looks back says so."""

from __future__ import annotations

from typing import Any, get_args

import pytest
from hypothesis import event, given, settings

from builder.check.brought import NOTHING
from builder.check.messages import problems_of
from builder.check.order import Breach, judge
from builder.check.placing import Spot, place
from builder.model.records.law import StepPart
from builder.model.reference import Ref
from tests.check import naive
from tests.check.drawn import MILD_ACTS, RULES, STEPS, Drawn, summaries, told_twice
from tests.check.little import law_of, little_law, locate, steps_of, summary, told
from tests.sweeps import examples

PLACED = ("needs", "forbids", "owes")
Broken = set[tuple[int, str, str, str]]
"""Steps by their position before anything was put in, rules, states and whose they are."""


def put(steps: list[naive.Step], spot: Spot, breach: Breach) -> list[naive.Step]:
    """Put the step that is proposed in its place: on whoever lacks the state, with all that a step may carry."""
    carried = frozenset(get_args(StepPart)) - {"holes"}
    step = naive.Step(spot.act, (told(breach.subject),), steps[breach.at].method, (), carried)
    return [*steps[:spot.at], step, *steps[spot.at:]]


def broken(law: naive.Law, steps: list[naive.Step], new: int | None = None) -> Broken:
    """Return what the model finds, steps after a new one counted as before; the new one itself is step -1."""
    return {
        (-1 if at == new else at - 1 if new is not None and at > new else at, rule, state, whose)
        for at, rule, state, whose, _, _ in naive.breaches(law, steps)
    }  # fmt: skip


@settings(max_examples=examples(150), deadline=None)
@given(MILD_ACTS, RULES, STEPS)
def test_what_is_proposed_mends_and_breaks_nothing(
    acts: Drawn, rules: list[dict[str, Any]], steps: list[naive.Step]
) -> None:
    law, written = told_twice(acts, rules)
    made, before = law_of(written), broken(law, steps)
    for breach in judge(made, summaries(steps)):
        spot = place(made, summaries(steps), breach, NOTHING) if breach.sort in PLACED else None
        if spot is not None:
            event(f"placed, {breach.sort}")
            after = broken(law, put(steps, spot, breach), spot.at)
            assert (breach.at, breach.rule_id, breach.state, told(breach.subject)) not in after
            assert after < before


@pytest.mark.parametrize(("steps", "advice"), [
    ("coat k > air body > coupon welder > weld a > watch body > seal a",
     ['put a step "prime" after "s1" and before "s2"']),
    ("measure o > cut p > watch body", ['put a step "brace" after "s1" and before "s2"']),
    ("prime a > coupon welder", ['put a step "air" after "s1" and before "s2"']),
    ("cut q", ['put a step "watch" after "s1"']),
    ("coat k > air body > coupon welder > weld b", ['put a step "watch" after "s4"']),
])  # fmt: skip
def test_the_place_is_told(steps: str, advice: list[str]) -> None:
    procedure = summary(Ref("procedure", "x"), steps_of(steps))
    assert [problem.do for problem in problems_of(procedure, little_law(procedure), locate, NOTHING)] == advice
