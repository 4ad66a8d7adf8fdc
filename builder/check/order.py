"""One procedure's steps against the law -> every rule that they break, with both places.

`judge` is the entry point. It walks the steps once, keeping which states hold and what made or spoiled them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from builder.check.binding import bans, bind, needs
from builder.check.bound import Asking, Bound, Lack, Order, Wide
from builder.check.brought import NOTHING, Brought
from builder.check.law import Law
from builder.model.records.law import Rule
from builder.model.reference import Ref
from builder.model.summary import StepSummary

LONE = Ref("", "")
"""Whoever: where a breach is of nobody in particular."""
BROUGHT = -1
"""In place of a step's position: brought along by a procedure this one relies on."""


class Breach(NamedTuple):
    """One rule broken at one step."""

    sort: str
    """needs, forbids, owes, order, asks or needless."""
    rule_id: str
    rule: Rule | None
    at: int
    """Position of the step at fault."""
    subject: Ref
    state: str
    """Of `asks` the part that the step does not carry."""
    other: int | None
    """Position of the other step it has to do with: what spoiled, made or should have come first."""
    late: bool = False
    """The other step makes the state, but only after this one."""


@dataclass(slots=True)
class Walk:
    """Where a procedure stands: which states hold, and what happened to those that do not; states by their number."""

    law: Law
    steps: Sequence[StepSummary]
    bound: Sequence[Bound]
    holds: dict[int, int]
    spoiled: dict[int, int] = field(default_factory=dict)
    owed: dict[tuple[str, int], tuple[Rule, int]] = field(default_factory=dict)
    last: dict[int, int] = field(default_factory=dict)
    """By act on a subject: the last step that does it."""
    carried: dict[tuple[str, ...], int] = field(default_factory=dict)
    """By parts that a step may carry: the last step that carries one of them."""

    def apply(self, at: int, bound: Bound) -> None:
        """Let a step spoil what it spoils, then make what it makes."""
        holds = self.holds
        for held in bound.spoils:
            if held in holds:
                del holds[held]
                self.spoiled[held] = at
        for state in bound.spoils_any:
            for held in self.law.numbers.of_state(state, holds):
                del holds[held]
                self.spoiled[held] = at
        for held in bound.makes:
            holds[held] = at

    def is_excused(self, excuse: Sequence[int]) -> bool:
        """Whether what excuses from a rule holds: for all that must have it, as where it is needed."""
        return bool(excuse) and all(held in self.holds for held in excuse)

    def comes_later(self, tags: Sequence[int], at: int) -> bool:
        """Whether one of these acts is done after a step."""
        last = self.last
        for tag in tags:  # noqa: SIM110 - asked at every second step: a generator costs more than it finds
            if last.get(tag, BROUGHT) > at:
                return True
        return False

    def is_carried_later(self, parts: tuple[str, ...], at: int) -> bool:
        """Whether a step after this one carries one of these parts."""
        if parts not in self.carried:
            carriers = (n for n in range(len(self.bound) - 1, -1, -1) if not self.bound[n].carries.isdisjoint(parts))
            self.carried[parts] = next(carriers, -1)
        return self.carried[parts] > at


def judge(
    law: Law, steps: Sequence[StepSummary], brought: Brought = NOTHING, passes_on: Sequence[str] = (),
    known: Sequence[Bound] = (),
) -> tuple[Breach, ...]:  # fmt: skip
    """Walk the steps and return the breaches in their order; what is owed by the rules of `passes_on` is none.

    `known` is what the law says to each step, if it was asked.
    """
    walk = _walk(law, steps, brought, known)
    for at, bound in enumerate(walk.bound):
        for tag in bound.tags:
            walk.last[tag] = at
    breaches: list[Breach] = []
    for at, bound in enumerate(walk.bound):
        if bound.exempt:
            breaches += _judge_exempt(walk, at, bound)
        else:
            _judge_plain(walk, at, bound, breaches)
        walk.apply(at, bound)
    owed = [*_still_owed(walk)]
    breaches += [breach for breach in owed if breach.rule_id not in passes_on]
    for rule_id in sorted(set(passes_on) - {breach.rule_id for breach in owed}):
        if rule_id in law.rule_ids:
            breaches.append(Breach("needless", rule_id, None, BROUGHT, LONE, "", None))
    return tuple(breaches)


def left_behind(
    law: Law, steps: Sequence[StepSummary], brought: Brought = NOTHING, passes_on: Sequence[str] = ()
) -> Brought:
    """Return what holds when the procedure is done, and what it leaves owed, for those that rely on it."""
    walk = _walk(law, steps, brought)
    for at, bound in enumerate(walk.bound):
        for debt in bound.owes:
            if debt.rule_id in passes_on and debt.rule_id not in bound.exempt and not walk.is_excused(debt.excuse):
                walk.owed[(debt.rule_id, debt.held)] = (debt.rule, at)
        walk.apply(at, bound)
    owed = (breach for breach in _still_owed(walk) if breach.rule_id in passes_on)
    return Brought(
        tuple(law.numbers.held(held) for held in walk.holds),
        tuple((breach.rule_id, (breach.state, breach.subject)) for breach in owed),
    )


def _walk(law: Law, steps: Sequence[StepSummary], brought: Brought, known: Sequence[Bound] = ()) -> Walk:
    holds = {law.numbers.number(held): BROUGHT for held in brought.held}
    owed = {(rule_id, law.numbers.number(held)): (law.debts[rule_id], BROUGHT) for rule_id, held in brought.debts}
    return Walk(law, steps, known or [bind(law, step) for step in steps], holds, owed=owed)


def _judge_plain(walk: Walk, at: int, bound: Bound, breaches: list[Breach]) -> None:
    """Judge a step that sets no rule aside. This is where a check spends its time: nothing is made that is not told."""
    holds = walk.holds
    for held in bound.needed:
        if held not in holds:
            breaches += [_missing(walk, need, at) for need in needs(walk.law, walk.steps[at])
                         if need.held not in holds and not walk.is_excused(need.excuse)]  # fmt: skip
            break
    for held in bound.banned:
        if held in holds:
            breaches += [_held(walk, ban, at) for ban in bans(walk.law, walk.steps[at])
                         if ban.held in holds and not walk.is_excused(ban.excuse)]  # fmt: skip
            break
    for debt in bound.owes:
        if not (debt.excuse and walk.is_excused(debt.excuse)):
            walk.owed[(debt.rule_id, debt.held)] = (debt.rule, at)
    for order in bound.orders:
        if walk.comes_later(order.tags, at) and not walk.is_excused(order.excuse):
            breaches.append(_out_of_order(walk, order, at))
    for wide in bound.wide:
        breaches += _across(walk, wide, at)
    for lack in bound.lacks:
        breaches += _lacking(walk, lack, at)


def _judge_exempt(walk: Walk, at: int, bound: Bound) -> Iterator[Breach]:
    """Judge a step that sets rules aside: what they would say is left out, and what they would not is needless."""
    found: list[Breach] = []
    owed = dict(walk.owed)
    _judge_plain(walk, at, bound, found)
    walk.owed = {key: debt for key, debt in walk.owed.items() if key[0] not in bound.exempt or debt[1] != at}
    walk.owed.update({key: debt for key, debt in owed.items() if key not in walk.owed})
    needed = bound.owing.union(breach.rule_id for breach in found)
    yield from (breach for breach in found if breach.rule_id not in bound.exempt)
    for rule_id in sorted(bound.exempt - needed):
        yield Breach("needless", rule_id, None, at, walk.steps[at].subjects[0], "", None)


def _missing(walk: Walk, need: Asking, at: int) -> Breach:
    state, subject = walk.law.numbers.held(need.held)
    spoiler = walk.spoiled.get(need.held)
    if spoiler is not None:
        return Breach("needs", need.rule_id, need.rule, at, subject, state, spoiler)
    later = next((n for n in range(at, len(walk.bound)) if need.held in walk.bound[n].makes), None)
    return Breach("needs", need.rule_id, need.rule, at, subject, state, later, late=later is not None)


def _held(walk: Walk, ban: Asking, at: int) -> Breach:
    state, subject = walk.law.numbers.held(ban.held)
    return Breach("forbids", ban.rule_id, ban.rule, at, subject, state, walk.holds[ban.held])


def _across(walk: Walk, wide: Wide, at: int) -> Iterator[Breach]:
    """Yield what holds somewhere that may hold nowhere, or nowhere on the other side."""
    ban, law = wide.rule.forbids, walk.law
    if ban is None or walk.is_excused(wide.excuse):
        return
    handed = law.catalogue.handed
    for held in sorted(law.numbers.of_state(ban.state, walk.holds)):
        state, ref = law.numbers.held(held)
        across = ref.side != wide.subject.side and ref.record in handed and wide.subject.record in handed
        law.ledger.note("found", ref.record)
        if (across or ban.of == "any") and law.is_true(ban.where, ref):
            yield Breach("forbids", wide.rule_id, wide.rule, at, ref, state, walk.holds[held])


def _out_of_order(walk: Walk, order: Order, at: int) -> Breach:
    tags = set(order.tags)
    later = next(n for n in range(at + 1, len(walk.bound)) if not tags.isdisjoint(walk.bound[n].tags))
    return Breach("order", order.rule_id, order.rule, at, order.subject, "", later)


def _lacking(walk: Walk, lack: Lack, at: int) -> Iterator[Breach]:
    if walk.is_excused(lack.excuse):
        return
    asked = lack.rule.asks
    if asked is not None and not (asked.later and walk.is_carried_later(lack.parts, at)):
        yield Breach("asks", lack.rule_id, lack.rule, at, lack.subject, lack.parts[0], None)


def _still_owed(walk: Walk) -> Iterator[Breach]:
    for (rule_id, held), (rule, at) in walk.owed.items():
        # What is owed since before the first step is settled by a step alone.
        if walk.holds.get(held, BROUGHT) < max(at, 0):
            state, subject = walk.law.numbers.held(held)
            spoiler = walk.spoiled.get(held)
            other = spoiler if spoiler is not None and spoiler > at else None
            yield Breach("owes", rule_id, rule, at, subject, state, other)
