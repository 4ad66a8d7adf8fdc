"""Laws and procedures of the little body as hypothesis draws them, for the model and as they would be written."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from hypothesis import strategies as st

from builder.model.summary import StepSummary
from tests.check import naive
from tests.check.little import subject

EVERY_KIND = ["seam", "panel", "cavity", "opening", "body", "welder"]
STATES = {"s1": EVERY_KIND, "s2": ["seam", "opening", "body"], "s3": ["panel"]}
ACTS = ("cut", "make", "mend")
METHODS, PARTS, CALCULATORS = ("spot", "plug"), ("holes", "hold", "photo"), ("size", "pitch")
SUBJECTS = ("a", "a", "other:a", "other:a", "b", "u", "v", "p", "other:p", "q", "o", "k", "m", "body", "welder")
"""Those named twice come up more often: a law says most about seams."""
WHOSE = ("same", "same", "same", "same", "closes", "panels", "openings", "neighbours", "seams", "joints", "body",
         "welder")  # fmt: skip
CONDITIONS = {"seam": 'joint == "lap"', "panel": 'load_bearing == "yes"', "cavity": "drains > 0"}
KIND_MEANT = {"closes": "cavity", "panels": "panel", "neighbours": "panel", "seams": "seam", "joints": "seam"}
OWING = {"owes": {"by": "close-out"}}
_state, _of = st.sampled_from(sorted(STATES)), st.sampled_from(WHOSE)
_acts = st.lists(st.sampled_from(ACTS), min_size=1, max_size=2, unique=True)
_rarely = st.sampled_from([False, False, False, True])


def _some(words: Sequence[str]) -> st.SearchStrategy[list[str]]:
    return st.lists(st.sampled_from(words), min_size=1, max_size=2, unique=True)


def _effect(whose: st.SearchStrategy[str]) -> st.SearchStrategy[dict[str, Any]]:
    optional = {"method": _some(METHODS), "holes": st.just("yes")}
    plain = st.fixed_dictionaries({"state": _state, "of": whose})
    return st.one_of(plain, plain, st.fixed_dictionaries({"state": _state, "of": whose}, optional=optional))


def _act(least_spoiled: int) -> st.SearchStrategy[dict[str, Any]]:
    whose = st.sampled_from([*WHOSE, "any", "any"])
    return st.fixed_dictionaries({
        "makes": st.lists(_effect(_of), min_size=1, max_size=2),
        "spoils": st.lists(_effect(whose), min_size=least_spoiled, max_size=2 * least_spoiled or 1),
        "heat": st.lists(st.sampled_from(["arc", "spark"]), max_size=1),
        "vapour": st.sampled_from([(), (), ("yes",)]),
    })  # fmt: skip


@st.composite
def _told(draw: st.DrawFn, on: str | None, whose: st.SearchStrategy[str] = _of) -> dict[str, Any]:
    """Draw a state and whose it is; where these have facts, now and then only of some of them."""
    found = {"state": draw(_state), "of": draw(whose)}
    kinds = STATES[found["state"]]
    meant = on if found["of"] == "same" else KIND_MEANT.get(found["of"])
    if found["of"] in ("any", "other-side") and len(kinds) == 1:
        meant = kinds[0]
    if meant in CONDITIONS and draw(_rarely):
        found["where"] = CONDITIONS[meant]
    return found


@st.composite
def _when(draw: st.DrawFn) -> dict[str, Any]:
    when: dict[str, Any] = draw(st.sampled_from([{}, {"heat": ["arc"]}, {"vapour": "yes"}]) if draw(_rarely)
                                else st.fixed_dictionaries({"act": _acts}))  # fmt: skip
    on = draw(st.sampled_from([None, None, "seam", "panel", "cavity", "opening"]))
    extra: dict[str, Any] = {"on": on} if on else {}
    if on in CONDITIONS and draw(_rarely):
        extra["where"] = CONDITIONS[on]
    if draw(_rarely):
        extra["method"] = draw(_some(METHODS))
    if draw(_rarely) or not (when or extra):
        extra["carries"] = draw(_some(PARTS))
    return {**when, **extra}


@st.composite
def _rule(draw: st.DrawFn) -> dict[str, Any]:
    when = draw(_when())
    on, form = when.get("on"), draw(st.sampled_from(["needs", "forbids", "owes", "if-both-first", "asks"]))
    rule: dict[str, Any] = {"when": when}
    if form == "if-both-first":
        rule[form] = {"act": draw(_acts), "of": draw(st.sampled_from([*WHOSE, "any"]))}
    elif form == "asks":
        parts, answers = {"step": _some(PARTS)}, {"works_out": _some(CALCULATORS)}
        asked = st.sampled_from([parts, answers, {**parts, **answers}]).flatmap(st.fixed_dictionaries)
        rule[form] = draw(asked) | ({"later": "yes"} if draw(st.booleans()) else {})
    else:
        whose = st.sampled_from([*WHOSE, "any", "other-side", "other-side"]) if form == "forbids" else _of
        rule[form] = {**draw(_told(on, whose)), **OWING.get(form, {})}
    if draw(_rarely):
        excuses: dict[str, st.SearchStrategy[Any]] = {"act": _acts, "method": _some(METHODS), "state": _told(on)}
        names = draw(_some(sorted(excuses)))
        rule["unless"] = {name: draw(excuses[name]) for name in names}
    return rule


_step = st.builds(
    naive.Step, st.sampled_from(ACTS),
    st.lists(st.sampled_from(SUBJECTS), min_size=1, max_size=2, unique=True).map(tuple),
    st.sampled_from(["", "", *METHODS]), st.sampled_from([(), (), (), ("r0",), ("r1",), ("r0", "r1")]),
    st.frozensets(st.sampled_from(PARTS), max_size=2), st.sampled_from([(), (), *((one,) for one in CALCULATORS)]),
)  # fmt: skip
Drawn = tuple[dict[str, Any], ...]
RULES = st.lists(_rule(), min_size=2, max_size=3)
HARSH_ACTS, MILD_ACTS = (st.tuples(*[_act(least)] * len(ACTS)) for least in (1, 0))
"""Acts that all spoil something; and acts of which many spoil nothing, so that a step more does no harm."""
STEPS = st.lists(_step, min_size=3, max_size=8)


def told_twice(acts: Drawn, rules: list[dict[str, Any]]) -> tuple[naive.Law, Mapping[str, Any]]:
    """Return a law as the model takes it, and as it would be written."""
    law: naive.Law = {
        "states": STATES, "acts": dict(zip(ACTS, acts, strict=True)),
        "rules": {f"r{at}": rule for at, rule in enumerate(rules)},
    }  # fmt: skip
    return law, {**law, "acts": {
        name: {"on": EVERY_KIND, **act, "spoils": act["spoils"] or "none", "heat": act["heat"] or "none",
               "vapour": "yes" if act["vapour"] else "no"}
        for name, act in law["acts"].items()
    }}  # fmt: skip


def summaries(steps: Sequence[naive.Step]) -> list[StepSummary]:
    """Return steps as the checks take them."""
    return [
        StepSummary(f"s{at}", ("steps", at), step.act, tuple(subject(one) for one in step.on), step.method, (),
                    step.exempt, (), step.carries, step.answers)
        for at, step in enumerate(steps)
    ]  # fmt: skip
