"""One step and the law -> all that the law has to say to it, as numbers that a walk through a procedure compares.

Worked out once for each step that differs: the same act on the same subjects comes back in many procedures.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from builder.check.bound import Asking, Bound, Lack, Order, Wide
from builder.check.law import Held, Law
from builder.model.records.law import Ban, Effect, Need, Owed, Rule, Spoil
from builder.model.reference import LONE_SUBJECTS, Ref
from builder.model.summary import StepSummary


def bind(law: Law, step: StepSummary) -> Bound:
    """Return what the law says to a step."""
    key = (step.act, step.subjects, step.method, step.carries, step.exempt, step.works_out)
    found = law.bound.get(key)
    if found is None:
        found = law.bound[key] = _bind(law, step)
    return found


def _bind(law: Law, step: StepSummary) -> Bound:
    act = law.acts.get(step.act)
    carried = step.carries.union(_calculator(id_) for id_ in step.works_out)
    exempt = law.rule_ids.intersection(step.exempt)
    asked: dict[str, list[Asking]] = {"needs": [], "forbids": [], "owes": []}
    wide: list[Wide] = []
    orders: list[Order] = []
    lacks: list[Lack] = []
    owing = set()
    for rule_id, rule in law.rules.get(step.act, ()):
        if not _speaks(rule, step):
            continue
        if rule.owes is not None:
            owing.add(rule_id)
        for subject in step.subjects:
            if rule.when.on is not None and subject.kind != rule.when.on:
                continue
            if not law.is_true(rule.when.where, subject):
                continue
            excuse = tuple(_excuses(law, step, rule, subject))
            if rule.if_both_first is not None:
                orders.append(Order(rule_id, rule, subject, tuple(_tags(law, step, rule, subject)), excuse))
            elif rule.asks is not None:
                lacks += [Lack(rule_id, rule, subject, part, excuse) for part in _lacking(rule, carried)]
            elif rule.forbids is not None and rule.forbids.of in ("any", "other-side"):
                wide.append(Wide(rule_id, rule, subject, rule.forbids.state, rule.forbids.of, excuse))
            else:
                for form, condition in (("needs", rule.needs), ("forbids", rule.forbids), ("owes", rule.owes)):
                    if condition is not None:
                        asked[form] += [Asking(rule_id, rule, law.number(held), excuse)
                                        for held in _held_by(law, step, subject, condition)]  # fmt: skip
    return Bound(
        needs=tuple(asked["needs"]), forbids=tuple(asked["forbids"]), wide=tuple(wide), owes=tuple(asked["owes"]),
        orders=tuple(orders), lacks=tuple(lacks),
        spoils=tuple(_affected(law, step, act.spoils)) if act else (),
        spoils_any=tuple(one.state for one in act.spoils if one.of == "any" and _happens(one, step)) if act else (),
        makes=tuple(_affected(law, step, act.makes)) if act else (),
        tags=(law.tag(step.act, None), *(law.tag(step.act, subject) for subject in step.subjects)),
        carries=carried, exempt=exempt, owing=frozenset(owing),
    )  # fmt: skip


def _speaks(rule: Rule, step: StepSummary) -> bool:
    """Whether a rule speaks of such a step, whatever its subjects are; an untold method may be any."""
    when, unless = rule.when, rule.unless
    if when.method and step.method and step.method not in when.method:
        return False
    if not step.carries.issuperset(when.carries):
        return False
    return unless is None or not (step.method in unless.method or step.act in unless.act)


def _targets(law: Law, step: StepSummary, subject: Ref, whose: str) -> tuple[Ref, ...]:
    """Return whose state is meant by an effect or a condition, seen from one subject of a step."""
    if whose == "seams":
        return tuple(ref for ref in step.subjects if ref.kind == "seam")
    return law.relations.related(subject, whose)


def _held_by(law: Law, step: StepSummary, subject: Ref, condition: Need | Ban | Owed) -> Iterator[Held]:
    state = law.states.get(condition.state)
    for ref in _targets(law, step, subject, condition.of):
        if state is not None and ref.kind in state.of and _is_meant(law, condition.where, ref):
            yield condition.state, ref


def _is_meant(law: Law, where: str | None, ref: Ref) -> bool:
    return where is None or ref.kind in LONE_SUBJECTS or law.is_true(where, ref)


def _excuses(law: Law, step: StepSummary, rule: Rule, subject: Ref) -> Iterator[int]:
    if rule.unless is not None and rule.unless.state is not None:
        for held in _held_by(law, step, subject, rule.unless.state):
            yield law.number(held)


def _tags(law: Law, step: StepSummary, rule: Rule, subject: Ref) -> Iterator[int]:
    first = rule.if_both_first
    if first is None:
        return
    meant: Sequence[Ref | None] = [None] if first.of == "any" else _targets(law, step, subject, first.of)
    for act in first.act:
        for ref in meant:
            yield law.tag(act, ref)


def _lacking(rule: Rule, carried: frozenset[str]) -> Iterator[str]:
    asked = rule.asks
    if asked is None:
        return
    yield from (part for part in asked.step if part not in carried)
    if asked.works_out and carried.isdisjoint(_calculator(id_) for id_ in asked.works_out):
        yield _calculator(asked.works_out[0])


def _calculator(id_: str) -> str:
    """Name a calculator among the parts a step may carry."""
    return f"calculator:{id_}"


def _affected(law: Law, step: StepSummary, effects: Sequence[Effect | Spoil]) -> Iterator[int]:
    for effect in effects:
        state = law.states.get(effect.state)
        if state is None or effect.of == "any" or not _happens(effect, step):
            continue
        for subject in step.subjects:
            for ref in _targets(law, step, subject, effect.of):
                if ref.kind in state.of:
                    yield law.number((effect.state, ref))


def _happens(effect: Effect | Spoil, step: StepSummary) -> bool:
    """Whether such a step has this effect; where it does not say by which method it joins, it spoils and makes not."""
    if effect.holes and "holes" not in step.carries:
        return False
    if not effect.method or step.method in effect.method:
        return True
    return not step.method and isinstance(effect, Spoil)
