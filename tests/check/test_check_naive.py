"""The walk that remembers agrees with a model that looks back over all steps, for any law and any procedure."""

from __future__ import annotations

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from builder.check.order import judge
from builder.model.summary import StepSummary
from tests.check import naive
from tests.check.little import law_of, subject, told

EVERY_KIND = ["seam", "panel", "cavity", "opening", "body", "welder"]
STATES = {"s1": EVERY_KIND, "s2": ["seam", "opening", "body"]}
ACTS = ("cut", "make", "mend")
SUBJECTS = ("a", "a", "other:a", "other:a", "b", "u", "p", "other:p", "q", "o", "k", "body", "welder")
"""Those named twice come up more often: a law says most about seams."""
WHOSE = ("same", "same", "same", "same", "closes", "panels", "openings", "neighbours", "seams", "joints", "body",
         "welder")  # fmt: skip
_of = st.sampled_from(WHOSE)
_effect = st.fixed_dictionaries({"state": st.sampled_from(sorted(STATES)), "of": _of})
_acts = st.lists(st.sampled_from(ACTS), min_size=1, max_size=2, unique=True)
_act = st.fixed_dictionaries({
    "makes": st.lists(_effect, min_size=1, max_size=2), "spoils": st.lists(_effect, min_size=1, max_size=2),
    "heat": st.lists(st.sampled_from(["arc", "spark"]), max_size=1),
})  # fmt: skip
_when = st.one_of(st.fixed_dictionaries({"act": _acts}), st.just({"heat": ["arc"]})).flatmap(
    lambda when: st.sampled_from([when, {**when, "on": "seam"}, {**when, "on": "panel"}])
)
_consequence = st.one_of(
    st.builds(lambda effect: {"needs": effect}, _effect),
    st.builds(lambda effect: {"forbids": effect}, _effect),
    st.builds(lambda effect: {"owes": {**effect, "by": "close-out"}}, _effect),
    st.builds(lambda acts, of: {"if-both-first": {"act": acts, "of": of}}, _acts, _of),
)
_rule = st.builds(
    lambda when, consequence, unless: {"when": when, **consequence, **({"unless": {"act": unless}} if unless else {})},
    _when, _consequence, st.sampled_from([[], [], [], ["cut"]]),
)  # fmt: skip
_step = st.builds(
    naive.Step, st.sampled_from(ACTS),
    st.lists(st.sampled_from(SUBJECTS), min_size=1, max_size=2, unique=True).map(tuple),
    st.just(""), st.sampled_from([(), (), (), ("r0",), ("r1",)]),
)  # fmt: skip


@settings(max_examples=200, deadline=None)
@given(st.tuples(*[_act] * len(ACTS)), st.lists(_rule, min_size=2, max_size=3), st.lists(_step, min_size=3, max_size=8))
def test_the_walk_agrees_with_looking_back(
    acts: tuple[dict[str, Any], ...], rules: list[dict[str, Any]], steps: list[naive.Step]
) -> None:
    law: naive.Law = {
        "states": STATES, "acts": dict(zip(ACTS, acts, strict=True)),
        "rules": {f"r{at}": rule for at, rule in enumerate(rules)},
    }  # fmt: skip
    written = {**law, "acts": {
        name: {"on": EVERY_KIND, **{field: value or "none" for field, value in act.items()}}
        for name, act in law["acts"].items()
    }}  # fmt: skip
    made = [
        StepSummary(f"s{at}", ("steps", at), step.act, tuple(subject(one) for one in step.on), "", (), step.exempt)
        for at, step in enumerate(steps)
    ]
    judged = {
        (breach.at, breach.rule_id, "needless" if breach.sort == "needless" else breach.state, told(breach.subject),
         breach.other, breach.late)
        for breach in judge(law_of(written), made)
    }  # fmt: skip
    assert judged == set(naive.breaches(law, steps))
