"""A kind of step on a kind of subject -> what the law says to all such, before it is known whose states are meant.

The same act comes back on many subjects, and most of them are alike: the rules are gone through once for all of these.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from functools import partial
from typing import TypeVar

from builder.check.law import Law
from builder.check.told import Aim, Spoken, Told
from builder.model.records.law import Ban, Effect, Need, Owed, Rule, Spoil
from builder.model.reference import Ref
from builder.model.summary import StepSummary

E = TypeVar("E", Effect, Spoil)
WIDE = ("any", "other-side")
FORMS = ("needs", "forbids", "wide", "owes", "orders", "asks")
"""What a rule may say: `forbids` of somebody it names, `wide` of whoever it may be."""


def spoken(law: Law, step: StepSummary, subject: Ref) -> Spoken:
    """Return what the law says to such a step on whoever is like this subject."""
    law.ledger.note("found", subject.record)
    key = (step.act, step.method, step.carries, law.likeness(subject))
    return law.spoken.get(key, lambda: _spoken(law, step, subject))


def _spoken(law: Law, step: StepSummary, subject: Ref) -> Spoken:
    """Subjects that differ are mostly told the same."""
    meant = _meant(law, step.act, subject)
    return law.spoken.get((step.act, step.method, step.carries, meant), lambda: _speak(law, step, meant))


def _meant(law: Law, act: str, subject: Ref) -> tuple[str, ...]:
    """Return the rules that speak of an act on such a subject, by whichever method and whatever the step carries."""
    return tuple([
        rule_id for rule_id, rule in law.rules.get(act, ())
        if rule.when.on in (None, subject.kind) and law.is_true(rule.when.where, subject)
    ])  # fmt: skip


def _speak(law: Law, step: StepSummary, meant: tuple[str, ...]) -> Spoken:
    by_form: dict[str, list[Told]] = defaultdict(list)
    for form, told in _told(law, step, meant):
        by_form[form].append(told)
    act = law.acts.get(step.act)
    makes = [one for one in act.makes if happens(one, step)] if act else []
    spoils = [one for one in act.spoils if happens(one, step)] if act else []
    needs, forbids, wide, owes, orders, asks = (tuple(by_form[form]) for form in FORMS)
    return Spoken(
        needs, forbids, wide, owes, orders, asks,
        needed=_aims_of(law, needs),
        banned=_aims_of(law, forbids),
        spoils=_effects_of(law, [one for one in spoils if one.of != "any"]),
        spoils_any=tuple(one.state for one in spoils if one.of == "any"),
        makes=_effects_of(law, makes),
    )  # fmt: skip


def _told(law: Law, step: StepSummary, meant: tuple[str, ...]) -> Iterator[tuple[str, Told]]:
    for rule_id, rule in law.rules.get(step.act, ()):
        if rule_id not in meant or not speaks(rule, step):
            continue
        yield law.told.get(rule_id, partial(_tell, law, rule_id, rule))


def _tell(law: Law, rule_id: str, rule: Rule) -> tuple[str, Told]:
    excuse = (_aim(law, rule.unless.state),) if rule.unless is not None and rule.unless.state else ()
    form, aims = _form(law, rule)
    return form, Told(rule_id, rule, aims, excuse)


def _aims_of(law: Law, told: tuple[Told, ...]) -> tuple[Aim, ...]:
    """Return all that these rules are about; steps by the hundred are told the same few of them."""
    key = tuple([one.rule_id for one in told])
    return law.together.get(key, lambda: _together(aim for one in told for aim in one.aims))


def _effects_of(law: Law, effects: list[E]) -> tuple[Aim, ...]:
    return law.together.get(tuple(effects), lambda: _together(_aim(law, one) for one in effects))


def _form(law: Law, rule: Rule) -> tuple[str, tuple[Aim, ...]]:
    if rule.if_both_first is not None:
        return "orders", ()
    if rule.needs is not None:
        return "needs", (_aim(law, rule.needs),)
    if rule.owes is not None:
        return "owes", (_aim(law, rule.owes),)
    if rule.forbids is None:
        return "asks", ()
    if rule.forbids.of in WIDE:
        return "wide", ()
    return "forbids", (_aim(law, rule.forbids),)


def speaks(rule: Rule, step: StepSummary) -> bool:
    """Whether a rule speaks of such a step, whatever its subjects are; an untold method may be any."""
    when, unless = rule.when, rule.unless
    if when.method and step.method and step.method not in when.method:
        return False
    if not step.carries.issuperset(when.carries):
        return False
    return unless is None or not (step.method in unless.method or step.act in unless.act)


def happens(effect: Effect | Spoil, step: StepSummary) -> bool:
    """Whether such a step has this effect; where it does not say by which method it joins, it spoils and makes not."""
    if effect.holes and "holes" not in step.carries:
        return False
    if not effect.method or step.method in effect.method:
        return True
    return not step.method and isinstance(effect, Spoil)


def _aim(law: Law, stated: Need | Ban | Owed | Effect | Spoil) -> Aim:
    """Return a state and whose it is; a state that is not there is nobody's."""
    state = law.states.get(stated.state)
    where = None if isinstance(stated, Effect | Spoil) else stated.where
    place = law.numbers.place_of.get(stated.state, 0)
    return Aim(stated.of, where, dict.fromkeys(state.of, (place,)) if state is not None else {})


def _together(aims: Iterable[Aim]) -> tuple[Aim, ...]:
    """Put the states of the same subjects together."""
    places: dict[tuple[str, str | None], dict[str, list[int]]] = defaultdict(lambda: defaultdict(list))
    for of, where, by_kind in aims:
        for kind, found in by_kind.items():
            places[of, where][kind] += found
    return tuple(
        Aim(of, where, {kind: tuple(found) for kind, found in by_kind.items()})
        for (of, where), by_kind in places.items()
    )
