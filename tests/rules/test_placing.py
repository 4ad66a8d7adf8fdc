"""The supplied procedures, one step spoiled: where a missing step is said to belong, it mends and harms nothing."""

from __future__ import annotations

from collections.abc import Sequence
from typing import get_args

from hypothesis import event, given, settings
from hypothesis import strategies as st

from builder.check.brought import NOTHING
from builder.check.order import Breach, judge
from builder.check.placing import place
from builder.model.records.law import StepPart
from builder.model.reference import Ref
from builder.model.summary import StepSummary
from tests.rules.supplied import law

PLACED = ("needs", "forbids", "owes")
WITH_ALL = frozenset(get_args(StepPart)) - {"holes"}
MOST = 4
"""So many breaches of one spoiled procedure are looked at: a place is found by trying, which takes its time."""
AT_LEAST = 0.3
"""A part of a step on several subjects, or one with another act for the same state, is proposed otherwise."""
Steps = tuple[StepSummary, ...]


@st.composite
def spoiled(draw: st.DrawFn) -> tuple[Steps, Steps]:
    """Draw a supplied procedure, and the same with a step left out, moved or done on less."""
    refs = sorted(ref for ref in law().catalogue.summaries if ref.kind == "procedure")
    steps = law().catalogue.summaries[draw(st.sampled_from(refs))].steps
    at = draw(st.integers(0, len(steps) - 1))
    rest = (*steps[:at], *steps[at + 1:])
    sort = draw(st.sampled_from(["left out", "moved", "done on less"]))
    if sort == "moved":
        to = draw(st.integers(0, len(rest)))
        return steps, (*rest[:to], steps[at], *rest[to:])
    if sort == "done on less" and len(steps[at].subjects) > 1:
        return steps, (*steps[:at], steps[at]._replace(subjects=steps[at].subjects[1:]), *steps[at + 1:])
    return steps, rest


def told(breaches: Sequence[Breach], new: int | None = None) -> set[tuple[object, ...]]:
    """Return breaches by the step's position before a new one came in, which is step -1."""
    return {
        (-1 if one.at == new else one.at - (new is not None and one.at > new), one.sort, *cause(one))
        for one in breaches
    }  # fmt: skip


def cause(breach: Breach) -> tuple[str, str, Ref]:
    """Return what is told of a breach wherever it stands."""
    return breach.rule_id, breach.state, breach.subject


@settings(max_examples=40, deadline=None)
@given(spoiled())
def test_what_is_proposed_mends_and_breaks_nothing(drawn: tuple[Steps, Steps]) -> None:
    whole, steps = drawn
    sound, found = judge(law(), whole), judge(law(), steps)
    known = {cause(one) for one in sound}
    fresh = [one for one in found if one.sort in PLACED and cause(one) not in known]
    before = told(found)
    for breach in fresh[:MOST]:
        spot = place(law(), steps, breach, NOTHING)
        event(f"placed: {spot is not None}")
        if spot is not None:
            step = StepSummary("new", (), spot.act, (breach.subject,), steps[breach.at].method, (), (), (), WITH_ALL)
            after = told(judge(law(), [*steps[:spot.at], step, *steps[spot.at:]]), spot.at)
            assert after < before
            assert not told([breach]) & after


def test_a_step_left_out_is_proposed_again() -> None:
    """Where a rule misses what a step made, that step's act is what is proposed, often enough."""
    proposed: list[bool] = []
    for ref in sorted(ref for ref in law().catalogue.summaries if ref.kind == "procedure"):
        steps = law().catalogue.summaries[ref].steps
        known = {cause(one) for one in judge(law(), steps)}
        for at, step in enumerate(steps):
            rest = (*steps[:at], *steps[at + 1:])
            missed = [
                one for one in judge(law(), rest)
                if one.sort == "needs" and not one.late and one.subject in step.subjects and cause(one) not in known
            ]  # fmt: skip
            for breach in missed[:1]:
                spot = place(law(), rest, breach, NOTHING)
                proposed.append(spot is not None and spot.act == step.act)
    assert len(proposed) > 20
    assert sum(proposed) > len(proposed) * AT_LEAST
