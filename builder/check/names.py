"""Acts, rules and steps that use old names -> the same with the names of today, so that a rename loosens nothing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import TypeVar

from builder.model.records.law import Act, Asked, Ban, Effect, Need, Owed, Rule, Spoil, Unless, When
from builder.model.reference import Ref
from builder.model.summary import StepSummary, Summary

Moved = Mapping[Ref, Ref]
"""Old names to those of today."""
Stated = TypeVar("Stated", Need, Ban, Owed)
Done = TypeVar("Done", Effect, Spoil)


def today(procedure: Summary, moved: Moved) -> Summary:
    """Return a procedure's summary whose steps name everything as it is called now."""
    if not moved:
        return procedure
    passed = _ids("rule", procedure.passes_on, moved)
    return procedure._replace(steps=tuple(_step(step, moved) for step in procedure.steps), passes_on=passed)


def ref_today(ref: Ref, moved: Moved) -> Ref:
    """Return a reference by the record's name of today, on the same side."""
    new = moved.get(ref.record) if moved else None
    return ref if new is None else ref._replace(id=new.id)


def act_today(act: Act, moved: Moved) -> Act:
    """Return an act whose states are named as they are called now."""
    return replace(act, makes=_all(act.makes, moved), spoils=_all(act.spoils, moved))


def rule_today(rule: Rule, moved: Moved) -> Rule:
    """Return a rule whose acts, states and methods are named as they are called now."""
    first = rule.if_both_first
    return replace(
        rule,
        when=_when(rule.when, moved),
        needs=rule.needs and _state(rule.needs, moved),
        owes=rule.owes and _state(rule.owes, moved),
        forbids=rule.forbids and _state(rule.forbids, moved),
        if_both_first=first and replace(first, act=_ids("act", first.act, moved)),
        asks=rule.asks and _asked(rule.asks, moved),
        unless=rule.unless and _unless(rule.unless, moved),
    )


def _when(when: When, moved: Moved) -> When:
    return replace(when, act=_ids("act", when.act, moved), method=_ids("method", when.method, moved))


def _asked(asked: Asked, moved: Moved) -> Asked:
    return replace(asked, works_out=_ids("calculator", asked.works_out, moved))


def _unless(unless: Unless, moved: Moved) -> Unless:
    return replace(
        unless, method=_ids("method", unless.method, moved), act=_ids("act", unless.act, moved),
        state=unless.state and _state(unless.state, moved),
    )  # fmt: skip


def _step(step: StepSummary, moved: Moved) -> StepSummary:
    return step._replace(
        act=_id("act", step.act, moved),
        subjects=tuple(ref_today(ref, moved) for ref in step.subjects),
        method=_id("method", step.method, moved),
        keep=_ids("panel", step.keep, moved),
        exempt=_ids("rule", step.exempt, moved),
        works_out=_ids("calculator", step.works_out, moved),
    )


def _id(kind: str, name: str, moved: Moved) -> str:
    return moved.get(Ref(kind, name), Ref(kind, name)).id


def _ids(kind: str, names: tuple[str, ...], moved: Moved) -> tuple[str, ...]:
    return tuple(_id(kind, name, moved) for name in names)


def _state(stated: Stated, moved: Moved) -> Stated:
    return replace(stated, state=_id("state", stated.state, moved))


def _all(effects: tuple[Done, ...], moved: Moved) -> tuple[Done, ...]:
    return tuple(
        replace(effect, state=_id("state", effect.state, moved), method=_ids("method", effect.method, moved))
        for effect in effects
    )
