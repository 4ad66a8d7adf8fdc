"""The walk that remembers agrees with a model that looks back over all steps, for any law and any procedure."""

from __future__ import annotations

from typing import Any

from hypothesis import given, settings

from builder.check.order import judge
from tests.check import naive
from tests.check.drawn import HARSH_ACTS, RULES, STEPS, Drawn, summaries, told_twice
from tests.check.little import law_of, told
from tests.sweeps import examples


@settings(max_examples=examples(400), deadline=None)
@given(HARSH_ACTS, RULES, STEPS)
def test_the_walk_agrees_with_looking_back(acts: Drawn, rules: list[dict[str, Any]], steps: list[naive.Step]) -> None:
    law, written = told_twice(acts, rules)
    judged = {
        (breach.at, breach.rule_id, "needless" if breach.sort == "needless" else breach.state, told(breach.subject),
         breach.other, breach.late)
        for breach in judge(law_of(written), summaries(steps))
    }  # fmt: skip
    assert judged == set(naive.breaches(law, steps))
