"""Acts, states and rules -> the law of the book: what each act may follow, ready to be asked step by step."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Set
from dataclasses import dataclass, field, replace
from typing import Any

from builder.check.bound import Bound, Piece
from builder.check.brought import Brought
from builder.check.names import act_today, rule_today
from builder.check.numbers import Numbers
from builder.check.related import Relations
from builder.check.told import Aim, Near, Spoken, Told
from builder.formula import evaluate_expression
from builder.formula.facts import fact_values
from builder.model.ledger import EVERY, NO_LEDGER, Fact, Ledger, Remembered, Watched, WatchedSet, mark_of
from builder.model.links import Catalogue
from builder.model.records import Record
from builder.model.records.law import Act, Rule, State, When
from builder.model.reference import Ref
from builder.model.summary import FactValue, Summary

LAWFUL = frozenset({"act", "state", "rule", "method", "seam", "panel", "cavity", "opening"})
"""The kinds that judging a procedure depends on."""
REMEMBERED = ("at_end", "bound", "pieces", "spoken", "told", "together", "around")
Likeness = tuple[str, tuple[tuple[tuple[str, FactValue], ...], ...]]
"""A kind and all its facts: to subjects alike in these every rule applies, or to none of them."""


@dataclass(frozen=True, slots=True)
class Law:
    """The law with the book it is applied to; its memories only keep what never changes within one build."""

    acts: Mapping[str, Act]
    states: Mapping[str, State]
    rules: Mapping[str, tuple[tuple[str, Rule], ...]]
    """By act: every rule whose `when` may fit, with its id."""
    rule_ids: Set[str]
    """Of every rule, those that fit no act too."""
    debts: Mapping[str, Rule]
    """The rules by which something can be owed."""
    makers: Mapping[str, tuple[str, ...]]
    """By state: the acts that make it, for advice."""
    catalogue: Catalogue
    is_whole: bool
    """Whether all that acts, rules and subjects name is there; what is not was told, and would give wrong breaches."""
    relations: Relations
    numbers: Numbers
    aside: Set[str]
    """Acts whose effects or rules ask for the seams among all subjects of a step."""
    done: dict[str, int] = field(default_factory=dict)
    """How often the procedures of the book do each act, once asked for."""
    ledger: Ledger = NO_LEDGER
    """Where it is written down what of the law is asked."""
    at_end: Remembered[Ref, Brought] = field(default_factory=Remembered)
    """What a procedure leaves behind, once asked for."""
    bound: Remembered[tuple[object, ...], Bound] = field(default_factory=Remembered)
    """What the law has to say to a step, once asked for; to one on one subject; and to all on whoever is like it."""
    pieces: Remembered[tuple[object, ...], Piece] = field(default_factory=Remembered)
    spoken: Remembered[tuple[object, ...], Spoken] = field(default_factory=Remembered)
    told: Remembered[str, tuple[str, Told]] = field(default_factory=Remembered)
    """By rule: its form, and what it says."""
    together: Remembered[tuple[object, ...], tuple[Aim, ...]] = field(default_factory=Remembered)
    """By the rules told together, or by the effects that come together: all the states these are about."""
    around: Remembered[tuple[Ref, str], list[Near]] = field(default_factory=Remembered)
    """By subject and whose: the subjects that are meant."""
    _settled: set[Ref] = field(default_factory=set)
    _alike: dict[Ref, int] = field(default_factory=dict)
    _likeness: dict[Likeness, int] = field(default_factory=dict)
    _holds: dict[tuple[str, int], bool] = field(default_factory=dict)

    def is_settled(self, summary: Summary) -> bool:
        """Whether all that a record's fields name is there and sound, and goes by its name of today."""
        named = {mention.ref for mention in summary.mentions if mention.kinds and mention.ref.kind in LAWFUL}
        if self.ledger.is_kept:
            self.ledger.note_all({("found", ref.record) for ref in named} | {("law", EVERY)})
        whole = self.catalogue.whole or self.catalogue
        for ref in named - self._settled:
            if whole.find(ref) is None or ref.record in whole.moved:
                return False
            self._settled.add(ref)
        return self.is_whole

    def likeness(self, subject: Ref) -> int:
        """Return a number that is the same for all subjects of one kind with the same facts.

        What hangs on this number hangs on none of them alone, so whoever asks notes the subject.
        """
        found = self._alike.get(subject)
        if found is None:
            summary = (self.catalogue.whole or self.catalogue).find(subject)
            facts = tuple(tuple(part.items()) for part in summary.facts) if summary is not None else ()
            found = self._alike[subject] = self._likeness.setdefault((subject.kind, facts), len(self._likeness))
        return found

    def is_true(self, condition: str | None, subject: Ref) -> bool:
        """Whether a condition holds of a subject; of a seam, where it holds for any segment or cannot be told.

        As with `likeness`, whoever asks notes the subject.
        """
        if condition is None:
            return True
        key = (condition, self.likeness(subject))
        found = self._holds.get(key)
        if found is None:
            summary = (self.catalogue.whole or self.catalogue).find(subject)
            facts = summary.facts if summary is not None else ()
            answers = [evaluate_expression(condition, fact_values(part)) for part in facts]
            # What cannot be told binds: unknown is never looser than known.
            found = self._holds[key] = any(answer is not False for answer in answers)
        return found


def law_facts(law: Law) -> Iterator[tuple[Fact, bytes]]:
    """Yield all that can be asked of the law with a mark of the answer; to be called with no page open."""
    told = {id_: mark_of((id_, rule)) for rules in law.rules.values() for id_, rule in rules}
    for act, rules in law.rules.items():
        yield ("rules", act), mark_of(b"".join([told[id_] for id_, _ in rules]))
    yield from ((("act", id_), mark_of(act)) for id_, act in law.acts.items())
    yield from ((("state", id_), mark_of(state)) for id_, state in law.states.items())
    yield from ((("debt", id_), mark_of(rule)) for id_, rule in law.debts.items())
    yield from ((("makers", state), mark_of(acts)) for state, acts in law.makers.items())
    yield from ((("rule", id_), b"") for id_ in law.rule_ids)
    yield from ((("aside", act), b"") for act in law.aside)
    yield from ((("back", key), mark_of(refs)) for key, refs in law.relations.backwards.items())
    for space, held in (("rules", law.rules), ("act", law.acts), ("state", law.states), ("debt", law.debts),
                        ("makers", law.makers), ("rule", law.rule_ids), ("aside", law.aside)):  # fmt: skip
        yield (space, EVERY), mark_of(sorted(held))
    yield ("law", EVERY), mark_of(law.is_whole)


def make_law(shelf: Mapping[Ref, Record], catalogue: Catalogue) -> Law:
    """Sort the rules by the acts they speak of; what is asked of the law is noted where the catalogue notes it."""
    law, ledger = _make_law(shelf, catalogue), catalogue.ledger
    if not ledger.is_kept:
        return law
    remembered: dict[str, Any] = {name: Remembered(ledger) for name in REMEMBERED}
    return replace(
        law, ledger=ledger, acts=Watched(law.acts, "act", ledger), states=Watched(law.states, "state", ledger),
        rules=Watched(law.rules, "rules", ledger), rule_ids=WatchedSet(law.rule_ids, "rule", ledger),
        debts=Watched(law.debts, "debt", ledger), makers=Watched(law.makers, "makers", ledger),
        aside=WatchedSet(law.aside, "aside", ledger), **remembered,
    )  # fmt: skip


def _make_law(shelf: Mapping[Ref, Record], catalogue: Catalogue) -> Law:
    moved = catalogue.moved
    acts = {ref.id: act_today(record, moved) for ref, record in shelf.items() if isinstance(record, Act)}
    states = {ref.id: record for ref, record in shelf.items() if isinstance(record, State)}
    rules: dict[str, list[tuple[str, Rule]]] = defaultdict(list)
    makers: dict[str, list[str]] = defaultdict(list)
    for ref in sorted(shelf):
        record = shelf[ref]
        if isinstance(record, Rule):
            rule = rule_today(record, moved)
            for act in _acts_of(rule.when, acts):
                rules[act].append((ref.id, rule))
        elif isinstance(record, Act):
            for effect in acts[ref.id].makes:
                makers[effect.state].append(ref.id)
    return Law(
        acts, states, {act: tuple(found) for act, found in rules.items()},
        frozenset(ref.id for ref, record in shelf.items() if isinstance(record, Rule)),
        {name: rule for found in rules.values() for name, rule in found if rule.owes is not None},
        {state: tuple(found) for state, found in makers.items()}, catalogue,
        all(names_what_is_there(found, catalogue) for ref, found in catalogue.summaries.items() if ref.kind in LAWFUL),
        Relations(catalogue), Numbers(states), frozenset(_asking_aside(acts, rules)),
    )  # fmt: skip


def _asking_aside(acts: Mapping[str, Act], rules: Mapping[str, list[tuple[str, Rule]]]) -> Iterator[str]:
    for name, act in acts.items():
        said = [rule for _, rule in rules.get(name, ())]
        asked = [one for rule in said for one in (rule.needs, rule.owes, rule.forbids, rule.if_both_first)]
        asked += [rule.unless.state for rule in said if rule.unless is not None]
        if any(one is not None and one.of == "seams" for one in (*asked, *act.makes, *act.spoils)):
            yield name


def names_what_is_there(summary: Summary, catalogue: Catalogue) -> bool:
    """Whether every act, state, rule, method and subject that a record's fields name is there and sound."""
    return all(
        catalogue.find(mention.ref) is not None
        for mention in summary.mentions if mention.kinds and mention.ref.kind in LAWFUL
    )  # fmt: skip


def _acts_of(when: When, acts: Mapping[str, Act]) -> list[str]:
    if when.act:
        return list(dict.fromkeys(when.act))
    if when.heat or when.vapour:
        return sorted(name for name, act in acts.items() if _gives_off(act, when))
    return sorted(acts)


def _gives_off(act: Act, when: When) -> bool:
    return bool(set(act.heat) & set(when.heat)) or (when.vapour and act.vapour)
