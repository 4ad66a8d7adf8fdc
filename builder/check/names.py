"""Acts, rules and steps that use old names -> the same with the names of today, so that a rename loosens nothing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import TypeVar

from builder.model.records.law import Act, Effect, First, Owed, Rule, Unless, When
from builder.model.reference import Ref
from builder.model.summary import StepSummary, Summary

Moved = Mapping[Ref, Ref]
"""Old names to those of today."""
Stated = TypeVar("Stated", Effect, Owed)


def today(procedure: Summary, moved: Moved) -> Summary:
    """Return a procedure's summary whose steps name everything as it is called now."""
    return procedure._replace(steps=tuple(_step(step, moved) for step in procedure.steps)) if moved else procedure


def ref_today(ref: Ref, moved: Moved) -> Ref:
    """Return a reference by the record's name of today, on the same side."""
    new = moved.get(ref.record) if moved else None
    return ref if new is None else ref._replace(id=new.id)


def act_today(act: Act, moved: Moved) -> Act:
    """Return an act whose states are named as they are called now."""
    return replace(act, makes=_all(act.makes, moved), spoils=_all(act.spoils, moved))


def rule_today(rule: Rule, moved: Moved) -> Rule:
    """Return a rule whose acts, states and methods are named as they are called now."""
    when, first, unless = rule.when, rule.if_both_first, rule.unless
    return replace(
        rule,
        when=When(act=_ids("act", when.act, moved), heat=when.heat, on=when.on, where=when.where),
        needs=rule.needs and _state(rule.needs, moved),
        owes=rule.owes and _state(rule.owes, moved),
        forbids=rule.forbids and _state(rule.forbids, moved),
        if_both_first=first and First(act=_ids("act", first.act, moved), of=first.of),
        unless=unless and Unless(method=_ids("method", unless.method, moved), act=_ids("act", unless.act, moved)),
    )


def _step(step: StepSummary, moved: Moved) -> StepSummary:
    return step._replace(
        act=_id("act", step.act, moved),
        subjects=tuple(ref_today(ref, moved) for ref in step.subjects),
        method=_id("method", step.method, moved),
        keep=_ids("panel", step.keep, moved),
        exempt=_ids("rule", step.exempt, moved),
    )


def _id(kind: str, name: str, moved: Moved) -> str:
    return moved.get(Ref(kind, name), Ref(kind, name)).id


def _ids(kind: str, names: tuple[str, ...], moved: Moved) -> tuple[str, ...]:
    return tuple(_id(kind, name, moved) for name in names)


def _state(stated: Stated, moved: Moved) -> Stated:
    return replace(stated, state=_id("state", stated.state, moved))


def _all(effects: tuple[Effect, ...], moved: Moved) -> tuple[Effect, ...]:
    return tuple(_state(effect, moved) for effect in effects)
