"""One step and the law -> all that the law has to say to it, as numbers that a walk through a procedure compares.

Worked out once for each step that differs, and before that once for each act on one subject: the same act on the same
subject comes back in many steps.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import partial
from itertools import chain
from typing import TypeVar

from builder.check.bound import Asking, Bound, Lack, Order, Piece, Wide
from builder.check.law import Law
from builder.check.spoken import speaks, spoken
from builder.check.strangers import is_strange
from builder.check.told import Aim, Near, Told
from builder.model.reference import LONE_SUBJECTS, Ref
from builder.model.summary import StepSummary

T = TypeVar("T")
NONE: frozenset[str] = frozenset()


def bind(law: Law, step: StepSummary) -> Bound:
    """Return what the law says to a step."""
    return law.bound.get(step[2:], lambda: _together(law, step))


def needs(law: Law, step: StepSummary) -> Iterator[Asking]:
    """Yield the rules that need a state at a step, one by one."""
    for subject in step.subjects:
        for told in spoken(law, step, subject).needs:
            yield from _askings(Standpoint(law, step, subject), told)


def bans(law: Law, step: StepSummary) -> Iterator[Asking]:
    """Yield the rules that forbid a state of somebody they name, one by one."""
    for subject in step.subjects:
        for told in spoken(law, step, subject).forbids:
            yield from _askings(Standpoint(law, step, subject), told)


def _together(law: Law, step: StepSummary) -> Bound:
    exempt = frozenset(id_ for id_ in step.exempt if id_ in law.rule_ids) if step.exempt else NONE
    owing = frozenset(_owing(law, step)) if exempt else NONE
    carries, strange, anyone = _carried(step), is_strange(law, step), law.numbers.tag(step.act, None)
    pieces = [*_pieces(law, step)]
    if len(pieces) == 1:
        tag, needed, banned, wide, owes, orders, lacks, spoils, spoils_any, makes = pieces[0]
        return Bound((anyone, tag), carries, exempt, owing, strange, needed, banned, wide, owes, orders, lacks, spoils,
                     spoils_any, makes)  # fmt: skip
    return Bound(
        (anyone, *[piece.tag for piece in pieces]), carries, exempt, owing, strange,
        needed=_once([piece.needed for piece in pieces]),
        banned=_once([piece.banned for piece in pieces]),
        wide=_all([piece.wide for piece in pieces]),
        owes=_all([piece.owes for piece in pieces]),
        orders=_all([piece.orders for piece in pieces]),
        lacks=_all([piece.lacks for piece in pieces]),
        spoils=_once([piece.spoils for piece in pieces]),
        spoils_any=_once([piece.spoils_any for piece in pieces]),
        makes=_once([piece.makes for piece in pieces]),
    )


def _all(parts: Iterable[tuple[T, ...]]) -> tuple[T, ...]:
    return tuple(chain.from_iterable(parts))


def _once(parts: Iterable[tuple[T, ...]]) -> tuple[T, ...]:
    return tuple(dict.fromkeys(chain.from_iterable(parts)))


def _owing(law: Law, step: StepSummary) -> Iterator[str]:
    return (rule_id for rule_id, rule in law.rules.get(step.act, ()) if rule.owes is not None and speaks(rule, step))


def _pieces(law: Law, step: StepSummary) -> Iterator[Piece]:
    """Yield what the law says to a step on each subject; the others matter where it asks for all seams of a step."""
    others = step.subjects if step.act in law.aside else ()
    said = (step.act, step.method, step.carries, step.works_out, others)
    for subject in step.subjects:
        yield law.pieces.get((subject, *said), partial(_bind, law, step, subject))


class Standpoint:
    """A step seen from one of its subjects: whose states the law is about."""

    __slots__ = ("law", "step", "subject")

    def __init__(self, law: Law, step: StepSummary, subject: Ref) -> None:
        self.law, self.step, self.subject = law, step, subject

    def around(self, whose: str) -> list[Near]:
        """Return whose state is meant, seen from the subject."""
        if whose == "seams":
            return self._numbered(ref for ref in self.step.subjects if ref.kind == "seam")
        related = self.law.relations.related
        return self.law.around.get((self.subject, whose), lambda: self._numbered(related(self.subject, whose)))

    def _numbered(self, refs: Iterable[Ref]) -> list[Near]:
        return [(ref.kind, self.law.numbers.states_of(ref), ref) for ref in refs]

    def numbers(self, aims: Sequence[Aim]) -> tuple[int, ...]:
        """Return the states that are meant: of whoever can have them, where it says which of them; none twice."""
        found: list[int] = []
        for of, where, places in aims:
            for kind, states, ref in self.around(of):
                if kind not in places:
                    continue
                if where is not None and not self._is_meant(kind, where, ref):
                    continue
                found += [states[place] for place in places[kind]]
        return tuple(dict.fromkeys(found)) if len(found) > 1 else tuple(found)

    def _is_meant(self, kind: str, where: str, ref: Ref) -> bool:
        self.law.ledger.note("found", ref.record)
        return kind in LONE_SUBJECTS or self.law.is_true(where, ref)


def _bind(law: Law, step: StepSummary, subject: Ref) -> Piece:
    here = Standpoint(law, step, subject)
    said = spoken(here.law, here.step, here.subject)
    return Piece(
        here.law.numbers.tag(here.step.act, here.subject),
        needed=here.numbers(said.needed) if said.needed else (),
        banned=here.numbers(said.banned) if said.banned else (),
        wide=tuple([Wide(told.rule_id, told.rule, here.subject, here.numbers(told.excuse)) for told in said.wide]),
        owes=tuple([asking for told in said.owes for asking in _askings(here, told)]),
        orders=tuple([_order(here, told) for told in said.orders]),
        lacks=tuple([lack for told in said.asks for lack in _lacks(here, told)]),
        spoils=here.numbers(said.spoils) if said.spoils else (),
        spoils_any=said.spoils_any,
        makes=here.numbers(said.makes) if said.makes else (),
    )


def _askings(here: Standpoint, told: Told) -> list[Asking]:
    excuse = here.numbers(told.excuse) if told.excuse else ()
    return [Asking(told.rule_id, told.rule, held, excuse) for held in here.numbers(told.aims)]


def _order(here: Standpoint, told: Told) -> Order:
    first = told.rule.if_both_first
    assert first is not None
    meant = [None] if first.of == "any" else [ref for _, _, ref in here.around(first.of)]
    tags = tuple(dict.fromkeys([here.law.numbers.tag(act, ref) for act in first.act for ref in meant]))
    return Order(told.rule_id, told.rule, here.subject, tags, here.numbers(told.excuse))


def _lacks(here: Standpoint, told: Told) -> Iterator[Lack]:
    asked, carried = told.rule.asks, _carried(here.step)
    assert asked is not None
    lacking: list[tuple[str, ...]] = [(part,) for part in asked.step if part not in carried]
    calculators = tuple(_calculator(id_) for id_ in asked.works_out)
    if calculators and carried.isdisjoint(calculators):
        lacking.append(calculators)
    for parts in lacking:
        yield Lack(told.rule_id, told.rule, here.subject, parts, here.numbers(told.excuse))


def _carried(step: StepSummary) -> frozenset[str]:
    return step.carries.union(map(_calculator, step.works_out)) if step.works_out else step.carries


def _calculator(id_: str) -> str:
    """Name a calculator among the parts a step may carry."""
    return f"calculator:{id_}"
