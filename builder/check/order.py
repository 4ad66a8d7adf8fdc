"""One procedure's steps against the law -> every rule that they break, with both places.

`judge` is the entry point. It walks the steps once, keeping which states hold and what made or spoiled them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from builder.check.law import Law
from builder.model.records.law import Effect, Rule
from builder.model.reference import Ref
from builder.model.summary import StepSummary

Held = tuple[str, Ref]
"""A state and whose it is."""
BROUGHT = -1
"""In place of a step's position: brought along by a procedure this one relies on."""


class Breach(NamedTuple):
    """One rule broken at one step."""

    sort: str
    """needs, forbids, owes, order or needless."""
    rule_id: str
    rule: Rule | None
    at: int
    """Position of the step at fault."""
    subject: Ref
    state: str
    other: int | None
    """Position of the other step it has to do with: what spoiled, made or should have come first."""
    late: bool = False
    """The other step makes the state, but only after this one."""


@dataclass(slots=True)
class Walk:
    """Where a procedure stands: which states hold, and what happened to those that do not."""

    law: Law
    steps: Sequence[StepSummary]
    holds: dict[Held, int] = field(default_factory=dict)
    spoiled: dict[Held, int] = field(default_factory=dict)
    owed: dict[tuple[str, Held], tuple[Rule, int]] = field(default_factory=dict)

    def targets(self, step: StepSummary, subject: Ref, whose: str) -> tuple[Ref, ...]:
        """Return whose state is meant by an effect or a need, seen from one subject of a step."""
        if whose == "seams":
            return tuple(ref for ref in step.subjects if ref.kind == "seam")
        return self.law.related(subject, whose)

    def apply(self, at: int) -> None:
        """Let a step spoil what it spoils, then make what it makes."""
        step = self.steps[at]
        act = self.law.acts.get(step.act)
        if act is None:
            return
        for held in self.affected(step, act.spoils):
            if self.holds.pop(held, None) is not None:
                self.spoiled[held] = at
        for held in self.affected(step, act.makes):
            self.holds[held] = at

    def affected(self, step: StepSummary, effects: Sequence[Effect]) -> Iterator[Held]:
        """Yield the states an act's effects touch, each with whose it is."""
        for effect in effects:
            state = self.law.states.get(effect.state)
            for subject in step.subjects:
                for ref in self.targets(step, subject, effect.of):
                    if state is not None and ref.kind in state.of:
                        yield effect.state, ref


def judge(law: Law, steps: Sequence[StepSummary], brought: Sequence[Held] = ()) -> tuple[Breach, ...]:
    """Walk the steps and return the breaches in their order."""
    walk = Walk(law, steps, dict.fromkeys(brought, BROUGHT))
    breaches: list[Breach] = []
    for at, step in enumerate(steps):
        needless = _set_aside(law, step)
        for rule_id, rule in law.rules.get(step.act, ()):
            if _is_excused(rule, step):
                continue
            found = list(_judge_rule(walk, rule_id, rule, at))
            if rule_id not in step.exempt:
                breaches += found
            elif found or rule.owes is not None:
                needless.discard(rule_id)
        for rule_id in sorted(needless):
            breaches.append(Breach("needless", rule_id, None, at, step.subjects[0], "", None))
        walk.apply(at)
    breaches += _still_owed(walk)
    return tuple(breaches)


def _set_aside(law: Law, step: StepSummary) -> set[str]:
    """Return the rules a step sets aside, less those the book does not have: that was told where they are named."""
    return set(law.rule_ids.intersection(step.exempt))


def states_at_end(law: Law, steps: Sequence[StepSummary], brought: Sequence[Held] = ()) -> tuple[Held, ...]:
    """Return what holds when the procedure is done, for the procedures that rely on it."""
    walk = Walk(law, steps, dict.fromkeys(brought, BROUGHT))
    for at in range(len(steps)):
        walk.apply(at)
    return tuple(walk.holds)


def _is_excused(rule: Rule, step: StepSummary) -> bool:
    return rule.unless is not None and (step.method in rule.unless.method or step.act in rule.unless.act)


def _judge_rule(walk: Walk, rule_id: str, rule: Rule, at: int) -> Iterator[Breach]:
    step = walk.steps[at]
    for subject in step.subjects:
        if not walk.law.binds(rule_id, rule, subject):
            continue
        if rule.needs is not None:
            for held in _held_by(walk, step, subject, rule.needs.state, rule.needs.of):
                if held not in walk.holds:
                    yield _missing(walk, rule_id, rule, at, held)
        elif rule.forbids is not None:
            for held in _held_by(walk, step, subject, rule.forbids.state, rule.forbids.of):
                if held in walk.holds:
                    yield Breach("forbids", rule_id, rule, at, held[1], held[0], walk.holds[held])
        elif rule.owes is not None and rule_id not in step.exempt:
            for held in _held_by(walk, step, subject, rule.owes.state, rule.owes.of):
                walk.owed[(rule_id, held)] = (rule, at)
        elif rule.if_both_first is not None:
            yield from _out_of_order(walk, rule_id, rule, at, subject)


def _held_by(walk: Walk, step: StepSummary, subject: Ref, state: str, whose: str) -> Iterator[Held]:
    known = walk.law.states.get(state)
    for ref in walk.targets(step, subject, whose):
        if known is not None and ref.kind in known.of:
            yield state, ref


def _missing(walk: Walk, rule_id: str, rule: Rule, at: int, held: Held) -> Breach:
    spoiler = walk.spoiled.get(held)
    if spoiler is not None:
        return Breach("needs", rule_id, rule, at, held[1], held[0], spoiler)
    later = _first_maker_after(walk, at, held)
    return Breach("needs", rule_id, rule, at, held[1], held[0], later, late=later is not None)


def _first_maker_after(walk: Walk, at: int, held: Held) -> int | None:
    for later in range(at, len(walk.steps)):
        step = walk.steps[later]
        act = walk.law.acts.get(step.act)
        if act is not None and held in walk.affected(step, act.makes):
            return later
    return None


def _out_of_order(walk: Walk, rule_id: str, rule: Rule, at: int, subject: Ref) -> Iterator[Breach]:
    first = rule.if_both_first
    if first is None:
        return
    meant = set(walk.targets(walk.steps[at], subject, first.of))
    for later in range(at + 1, len(walk.steps)):
        step = walk.steps[later]
        if step.act in first.act and meant.intersection(step.subjects):
            yield Breach("order", rule_id, rule, at, subject, "", later)
            return


def _still_owed(walk: Walk) -> Iterator[Breach]:
    for (rule_id, held), (rule, at) in walk.owed.items():
        if walk.holds.get(held, BROUGHT) < at:
            yield Breach("owes", rule_id, rule, at, held[1], held[0], _after(walk, held, at))


def _after(walk: Walk, held: Held, at: int) -> int | None:
    spoiler = walk.spoiled.get(held)
    return spoiler if spoiler is not None and spoiler > at else None
