"""Acts, states and rules -> the law of the book: what each act may follow, ready to be asked step by step."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass

from builder.check.names import act_today, ref_today, rule_today
from builder.formula import evaluate_expression
from builder.formula.facts import fact_values
from builder.model.links import Catalogue
from builder.model.records import Record
from builder.model.records.law import Act, Rule, State
from builder.model.reference import BODY, WELDER, Ref
from builder.model.summary import Summary

LAWFUL = frozenset({"act", "state", "rule", "method", "seam", "panel", "cavity", "opening"})
"""The kinds that judging a procedure depends on."""
OVER_PANELS = {"openings": "bounds", "neighbours": "neighbours"}
"""What is reached over a subject's panels, by which of their relations."""
BODY_REF, WELDER_REF = Ref(BODY, BODY), Ref(WELDER, WELDER)


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
    at_end: dict[Ref, tuple[tuple[str, Ref], ...]]
    """States that a procedure leaves behind, once asked for."""
    _related: dict[tuple[Ref, str], tuple[Ref, ...]]
    _holds: dict[tuple[str, Ref], bool]

    def related(self, subject: Ref, whose: str) -> tuple[Ref, ...]:
        """Return whose state is meant, seen from one subject; `seams` is the caller's, who knows the step."""
        key = (subject, whose)
        found = self._related.get(key)
        if found is None:
            found = self._related[key] = tuple(dict.fromkeys(self._relate(subject, whose)))
        return found

    def _relate(self, subject: Ref, whose: str) -> list[Ref]:
        if whose == "body":
            return [BODY_REF]
        if whose == "welder":
            return [WELDER_REF]
        if whose == "same":
            return [subject]
        if whose == "panels" and subject.kind == "panel":
            return [subject]
        if whose in OVER_PANELS:
            panels = self.related(subject, "panels")
            return [ref for panel in panels for ref in self._relation(panel, OVER_PANELS[whose], subject)]
        return self._relation(subject, whose, subject)

    def _relation(self, near: Ref, name: str, subject: Ref) -> list[Ref]:
        """Relations of what is near the subject; on its side, also where the way leads over the middle of the car."""
        summary = self.catalogue.find(near)
        refs = summary.relations.get(name, ()) if summary is not None else ()
        return [self._on_side(ref_today(ref, self.catalogue.moved), subject) for ref in refs]

    def _on_side(self, ref: Ref, subject: Ref) -> Ref:
        """What belongs to the other side's seam is on the other side too, where the car has two of it."""
        return ref._replace(side=subject.side) if ref in self.catalogue.handed else ref

    def binds(self, rule_id: str, rule: Rule, subject: Ref) -> bool:
        """Whether a rule speaks of this subject; of a seam, where it holds for any segment or cannot be told."""
        if rule.when.on is not None and subject.kind != rule.when.on:
            return False
        if rule.when.where is None:
            return True
        key = (rule_id, subject.record)
        found = self._holds.get(key)
        if found is None:
            summary = self.catalogue.find(subject)
            facts = summary.facts if summary is not None else ()
            answers = [evaluate_expression(rule.when.where, fact_values(part)) for part in facts]
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
            for act in _acts_of(rule, acts):
                rules[act].append((ref.id, rule))
        elif isinstance(record, Act):
            for effect in acts[ref.id].makes:
                makers[effect.state].append(ref.id)
    return Law(
        acts, states, {act: tuple(found) for act, found in rules.items()},
        frozenset(ref.id for ref, record in shelf.items() if isinstance(record, Rule)),
        {state: tuple(found) for state, found in makers.items()}, catalogue,
        all(names_what_is_there(found, catalogue) for ref, found in catalogue.summaries.items() if ref.kind in LAWFUL),
        {}, {}, {},
    )  # fmt: skip


def names_what_is_there(summary: Summary, catalogue: Catalogue) -> bool:
    """Whether every act, state, rule, method and subject that a record's fields name is there and sound."""
    return all(
        catalogue.find(mention.ref) is not None
        for mention in summary.mentions if mention.kinds and mention.ref.kind in LAWFUL
    )  # fmt: skip


def _acts_of(rule: Rule, acts: Mapping[str, Act]) -> list[str]:
    if rule.when.act:
        return list(dict.fromkeys(rule.when.act))
    if rule.when.heat:
        return sorted(name for name, act in acts.items() if set(act.heat) & set(rule.when.heat))
    return sorted(acts)
