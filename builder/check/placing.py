"""A breach -> where the missing step belongs: the place nearest to it at which a step mends it and breaks nothing new.

Found by trying, since what a step needs and spoils in its turn is all in the law. Asked where a rule is broken.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple, get_args

from builder.check.brought import Brought
from builder.check.law import Law
from builder.check.order import BROUGHT, Breach, judge
from builder.model.records.law import Effect, Spoil, StepPart
from builder.model.summary import StepSummary

FARTHEST = 24
"""So many steps away a place is looked for."""
WITH_ALL = frozenset(get_args(StepPart)) - {"holes"}
"""A step to be written carries all that a rule could ask of it."""


class Spot(NamedTuple):
    """An act, to be done before the step at this position; at the end where there is none."""

    act: str
    at: int


def place(
    law: Law, steps: Sequence[StepSummary], breach: Breach, brought: Brought, passes_on: Sequence[str] = ()
) -> Spot | None:
    """Return what to do where, or None where no single step mends it."""
    before = {_told(one, one.at) for one in judge(law, steps, brought, passes_on)}
    acts = [*_acts(law, breach)]
    for at in _positions(breach, len(steps)):
        for act in acts:
            step = StepSummary("", (), act, (breach.subject,), steps[breach.at].method, (), (), (), WITH_ALL)
            found = judge(law, [*steps[:at], step, *steps[at:]], brought, passes_on)
            # Steps are counted as before the new one came in, which may itself break nothing.
            after = {_told(one, -1 if one.at == at else one.at - (one.at > at)) for one in found}
            if after < before and _told(breach, breach.at) not in after:
                return Spot(act, at)
    return None


def _told(breach: Breach, at: int) -> tuple[object, ...]:
    return breach.sort, breach.rule_id, breach.subject, breach.state, at


def _positions(breach: Breach, count: int) -> Iterable[int]:
    if breach.sort == "owes":
        start = (breach.other if breach.other is not None else breach.at) + 1
        return range(start, min(count, start + FARTHEST) + 1)
    start = breach.other + 1 if breach.other is not None and breach.other != BROUGHT else 0
    return range(breach.at, max(start, breach.at - FARTHEST) - 1, -1)


def _acts(law: Law, breach: Breach) -> Iterator[str]:
    """Yield the acts that make the missing state, or end the forbidden one, done on its very subject.

    What procedures of the book do most often comes first: an act for a rare car helps too, and is no advice.
    """
    if not law.done:
        law.done.update(Counter(step.act for summary in law.catalogue.summaries.values() for step in summary.steps))
    for name in sorted(law.acts, key=lambda name: (-law.done.get(name, 0), name)):
        act = law.acts[name]
        effects: Sequence[Effect | Spoil] = act.spoils if breach.sort == "forbids" else act.makes
        if breach.subject.kind in act.on and any(_is_own(effect, breach) for effect in effects):
            yield name


def _is_own(effect: Effect | Spoil, breach: Breach) -> bool:
    return effect.state == breach.state and effect.of in ("same", breach.subject.kind)
