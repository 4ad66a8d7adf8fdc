"""One step and the law -> all that the law has to say to it, as numbers that a walk through a procedure compares.

Worked out once for each step that differs, and before that once for each act on one subject: the same act on the same
subject comes back in many steps.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TypeVar

from builder.check.bound import Asking, Bound, Lack, Order, Piece, Wide
from builder.check.law import Law
from builder.check.spoken import happens, speaks, spoken
from builder.check.told import Aim, Told
from builder.model.reference import LONE_SUBJECTS, Ref
from builder.model.summary import StepSummary

T = TypeVar("T")


def bind(law: Law, step: StepSummary) -> Bound:
    """Return what the law says to a step."""
    key = step[2:]
    found = law.bound.get(key)
    if found is None:
        found = law.bound[key] = _together(law, step, [_piece(law, step, subject) for subject in step.subjects])
    return found


def _together(law: Law, step: StepSummary, pieces: Sequence[Piece]) -> Bound:
    act, exempt = law.acts.get(step.act), law.rule_ids.intersection(step.exempt)
    return Bound(
        frozenset(_joined([piece.needed for piece in pieces])), frozenset(_joined([piece.banned for piece in pieces])),
        _joined([piece.wide for piece in pieces]), _joined([piece.owes for piece in pieces]),
        _joined([piece.orders for piece in pieces]), _joined([piece.lacks for piece in pieces]),
        spoils=frozenset(_joined([piece.spoils for piece in pieces])),
        spoils_any=[one.state for one in act.spoils if one.of == "any" and happens(one, step)] if act else (),
        makes=_joined([piece.makes for piece in pieces]),
        tags=[law.numbers.tag(step.act, None), *[piece.tag for piece in pieces]],
        carries=_carried(step), exempt=exempt, owing=frozenset(_owing(law, step)) if exempt else exempt,
    )


def _joined(parts: list[list[T]]) -> list[T]:
    return parts[0] if len(parts) == 1 else [one for part in parts for one in part]


def _carried(step: StepSummary) -> frozenset[str]:
    return step.carries.union(map(_calculator, step.works_out)) if step.works_out else step.carries


def _owing(law: Law, step: StepSummary) -> Iterator[str]:
    return (rule_id for rule_id, rule in law.rules.get(step.act, ()) if rule.owes is not None and speaks(rule, step))


def _piece(law: Law, step: StepSummary, subject: Ref) -> Piece:
    """Return what the law says to a step on one of its subjects; the others matter where it asks for all its seams."""
    others = step.subjects if step.act in law.aside else ()
    key = (step.act, subject, step.method, step.carries, step.works_out, others)
    found = law.pieces.get(key)
    if found is None:
        found = law.pieces[key] = _bind(law, step, subject)
    return found


def _bind(law: Law, step: StepSummary, subject: Ref) -> Piece:
    said = spoken(law, step, subject)
    return Piece(
        needed=_numbers(law, step, subject, said.needed),
        banned=_numbers(law, step, subject, said.banned),
        wide=[Wide(told.rule_id, told.rule, subject, _numbers(law, step, subject, told.excuse)) for told in said.wide],
        owes=[asking for told in said.owes for asking in _askings(law, step, subject, told)],
        orders=[_order(law, step, subject, told) for told in said.orders],
        lacks=[lack for told in said.asks for lack in _lacks(law, step, subject, told)],
        spoils=_numbers(law, step, subject, said.spoils),
        makes=_numbers(law, step, subject, said.makes),
        tag=law.numbers.tag(step.act, subject),
    )


def needs(law: Law, step: StepSummary) -> Iterator[Asking]:
    """Yield the rules that need a state at a step, one by one."""
    for subject in step.subjects:
        for told in spoken(law, step, subject).needs:
            yield from _askings(law, step, subject, told)


def bans(law: Law, step: StepSummary) -> Iterator[Asking]:
    """Yield the rules that forbid a state of somebody they name, one by one."""
    for subject in step.subjects:
        for told in spoken(law, step, subject).forbids:
            yield from _askings(law, step, subject, told)


def _askings(law: Law, step: StepSummary, subject: Ref, told: Told) -> Iterator[Asking]:
    excuse = _numbers(law, step, subject, told.excuse)
    for held in _numbers(law, step, subject, told.aims):
        yield Asking(told.rule_id, told.rule, held, excuse)


def _numbers(law: Law, step: StepSummary, subject: Ref, aims: Sequence[Aim]) -> list[int]:
    """Return the states that are meant: of whoever can have them, where it says which of them."""
    found: list[int] = []
    for of, where, places in aims:
        for ref, first in _around(law, step, subject, of):
            if where is None or ref.kind in LONE_SUBJECTS or law.is_true(where, ref):
                found += [first + place for place in places.get(ref.kind, ())]
    return found


def _around(law: Law, step: StepSummary, subject: Ref, whose: str) -> tuple[tuple[Ref, int], ...]:
    """Return whose state is meant, seen from one subject of a step, each with the number of its first state."""
    if whose == "seams":
        return tuple((ref, law.numbers.first(ref)) for ref in step.subjects if ref.kind == "seam")
    known = law.around.setdefault(subject, {})
    found = known.get(whose)
    if found is None:
        found = known[whose] = tuple((ref, law.numbers.first(ref)) for ref in law.relations.related(subject, whose))
    return found


def _order(law: Law, step: StepSummary, subject: Ref, told: Told) -> Order:
    first = told.rule.if_both_first
    assert first is not None
    meant = [None] if first.of == "any" else [ref for ref, _ in _around(law, step, subject, first.of)]
    tags = frozenset(law.numbers.tag(act, ref) for act in first.act for ref in meant)
    return Order(told.rule_id, told.rule, subject, tags, _numbers(law, step, subject, told.excuse))


def _lacks(law: Law, step: StepSummary, subject: Ref, told: Told) -> Iterator[Lack]:
    asked, carried = told.rule.asks, _carried(step)
    if asked is None:
        return
    lacking: list[tuple[str, ...]] = [(part,) for part in asked.step if part not in carried]
    calculators = tuple(_calculator(id_) for id_ in asked.works_out)
    if calculators and carried.isdisjoint(calculators):
        lacking.append(calculators)
    excuse = _numbers(law, step, subject, told.excuse) if lacking else ()
    for parts in lacking:
        yield Lack(told.rule_id, told.rule, subject, parts, excuse)


def _calculator(id_: str) -> str:
    """Name a calculator among the parts a step may carry."""
    return f"calculator:{id_}"
