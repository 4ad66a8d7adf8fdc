"""Acts, states and rules -> the law of the book: what each act may follow, ready to be asked step by step."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, field

from builder.check.bound import Bound
from builder.check.names import act_today, rule_today
from builder.check.related import Relations
from builder.formula import evaluate_expression
from builder.formula.facts import fact_values
from builder.model.links import Catalogue
from builder.model.records import Record
from builder.model.records.law import Act, Rule, State, When
from builder.model.reference import Ref
from builder.model.summary import Summary

LAWFUL = frozenset({"act", "state", "rule", "method", "seam", "panel", "cavity", "opening"})
"""The kinds that judging a procedure depends on."""
Held = tuple[str, Ref]
"""A state and whose it is."""


@dataclass(frozen=True, slots=True)
class Law:
    """The law with the book it is applied to; its memories only keep what never changes within one build."""

    acts: Mapping[str, Act]
    states: Mapping[str, State]
    rules: Mapping[str, tuple[tuple[str, Rule], ...]]
    """By act: every rule whose `when` may fit, with its id."""
    rule_ids: frozenset[str]
    """Of every rule, those that fit no act too."""
    makers: Mapping[str, tuple[str, ...]]
    """By state: the acts that make it, for advice."""
    catalogue: Catalogue
    is_whole: bool
    """Whether all that acts, rules and subjects name is there; what is not was told, and would give wrong breaches."""
    relations: Relations
    at_end: dict[Ref, tuple[Held, ...]] = field(default_factory=dict)
    """States that a procedure leaves behind, once asked for."""
    bound: dict[tuple[object, ...], Bound] = field(default_factory=dict)
    """What the law has to say to a step, once asked for."""
    helds: list[Held] = field(default_factory=list)
    """Every state of every subject met so far, by its number."""
    numbers: dict[Held, int] = field(default_factory=dict)
    """The number of each: walking a procedure compares numbers, not names."""
    tags: dict[tuple[str, Ref | None], int] = field(default_factory=dict)
    """A number for each act on a subject, and for each act on whatever it may be."""
    _holds: dict[tuple[str, Ref], bool] = field(default_factory=dict)

    def number(self, held: Held) -> int:
        """Return the number of a state of a subject."""
        found = self.numbers.get(held)
        if found is None:
            found = self.numbers[held] = len(self.helds)
            self.helds.append(held)
        return found

    def tag(self, act: str, subject: Ref | None) -> int:
        """Return the number of an act on a subject, or on any."""
        return self.tags.setdefault((act, subject), len(self.tags))

    def is_true(self, condition: str | None, subject: Ref) -> bool:
        """Whether a condition holds of a subject; of a seam, where it holds for any segment or cannot be told."""
        if condition is None:
            return True
        key = (condition, subject.record)
        found = self._holds.get(key)
        if found is None:
            summary = self.catalogue.find(subject)
            facts = summary.facts if summary is not None else ()
            answers = [evaluate_expression(condition, fact_values(part)) for part in facts]
            # What cannot be told binds: unknown is never looser than known.
            found = self._holds[key] = any(answer is not False for answer in answers)
        return found


def make_law(shelf: Mapping[Ref, Record], catalogue: Catalogue) -> Law:
    """Sort the rules by the acts they speak of."""
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
        {state: tuple(found) for state, found in makers.items()}, catalogue,
        all(names_what_is_there(found, catalogue) for ref, found in catalogue.summaries.items() if ref.kind in LAWFUL),
        Relations(catalogue),
    )  # fmt: skip


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
