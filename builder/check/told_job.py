"""A procedure's steps -> what the law says to them, so that a page can put several procedures in one lawful order.

`procedure_law` is the entry point. The numbers of `binding` are of one build; here they become places in tables of
names, which any page can read. What only one procedure's own steps can settle (what a step must carry) is left out: the
builder has judged it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from builder.check.binding import bans, bind, needs
from builder.check.bound import Asking, Bound
from builder.check.brought import Brought
from builder.check.law import Law
from builder.check.spoken import WIDE
from builder.model.job_law import AnyonesRule, Anywhere, Asked, Ordered, Places, ProcedureLaw, StepLaw, Whose
from builder.model.records.law import Ban, Rule
from builder.model.reference import LONE_SUBJECTS, Ref, Side
from builder.model.summary import StepSummary, Summary

NOBODY = Ref("", "")


class Tables:
    """The states and the acts of one procedure, each by its place in a table."""

    def __init__(self, law: Law) -> None:
        self.law = law
        self.states: dict[int, int] = {}
        self.acts: dict[int, int] = {}

    def places(self, held: Iterable[int]) -> Places:
        """Return the places of states, in order of their numbers."""
        return tuple([self.states.setdefault(one, len(self.states)) for one in held])

    def asked(self, asking: Asking) -> Asked:
        """Return one rule about one state."""
        return Asked(asking.rule_id, self.states.setdefault(asking.held, len(self.states)), self.places(asking.excuse))

    def act_places(self, tags: Iterable[int]) -> tuple[int, ...]:
        """Return the places of acts on subjects."""
        return tuple([self.acts.setdefault(tag, len(self.acts)) for tag in tags])

    # Numbers are given as they are asked for, so which comes first depends on which process asked: names do not.
    def by_name(self, held: Iterable[int]) -> list[int]:
        """Sort states by their names and by whose they are."""
        return sorted(held, key=self.law.numbers.held)

    def by_act(self, tags: Iterable[int]) -> list[int]:
        """Sort acts by their names and by whom they are done on."""
        told = {tag: self.law.numbers.tagged(tag) for tag in tags}
        return sorted(told, key=lambda tag: (told[tag][0], told[tag][1] or NOBODY))

    def whose_states(self) -> tuple[Whose, ...]:
        """Return the table of states."""
        return tuple(_whose(self.law, *self.law.numbers.held(number)) for number in self.states)

    def whose_acts(self) -> tuple[Whose, ...]:
        """Return the table of acts."""
        return tuple(_whose(self.law, *self.law.numbers.tagged(tag)) for tag in self.acts)


def procedure_law(law: Law, procedure: Summary, brought: Brought) -> ProcedureLaw:
    """Return what the law says to the steps of a procedure that was judged, by the names of today."""
    tables = Tables(law)
    steps = tuple([_step_law(tables, step, bind(law, step)) for step in procedure.steps])
    # What no step asks about need not be known beforehand.
    held = map(law.numbers.number, brought.held)
    before = tables.places(number for number in held if number in tables.states)
    return ProcedureLaw(tables.whose_states(), tables.whose_acts(), steps, before)


def anyones_rules(law: Law) -> Mapping[str, AnyonesRule]:
    """Return the rules that forbid a state of whoever has it, with who is meant."""
    found = {}
    for name, ban in sorted(dict(one for rules in law.rules.values() for one in _wide(rules)).items()):
        owners = None if ban.where is None else tuple(
            str(ref) for ref in sorted(law.catalogue.summaries)
            if ref.kind in law.states[ban.state].of and law.is_true(ban.where, ref)
        )  # fmt: skip
        found[name] = AnyonesRule(ban.state, ban.of == "other-side", owners)
    return found


def _wide(rules: Sequence[tuple[str, Rule]]) -> Iterator[tuple[str, Ban]]:
    return ((name, rule.forbids) for name, rule in rules if rule.forbids is not None and rule.forbids.of in WIDE)


def _step_law(tables: Tables, step: StepSummary, bound: Bound) -> StepLaw:
    law, exempt = tables.law, bound.exempt
    return StepLaw(
        acts=tables.act_places(bound.tags),
        needs=tuple(tables.asked(one) for one in needs(law, step) if one.rule_id not in exempt),
        bans=tuple(tables.asked(one) for one in bans(law, step) if one.rule_id not in exempt),
        owes=tuple(tables.asked(one) for one in bound.owes if one.rule_id not in exempt),
        orders=tuple(
            Ordered(one.rule_id, tables.act_places(tables.by_act(one.tags)), tables.places(one.excuse))
            for one in bound.orders if one.rule_id not in exempt
        ),
        anywhere=tuple(
            Anywhere(one.rule_id, str(one.subject.record), _side(law, one.subject), tables.places(one.excuse))
            for one in bound.wide if one.rule_id not in exempt
        ),
        spoils=tables.places(tables.by_name(bound.spoils)),
        wipes=tuple(sorted(bound.spoils_any)),
        makes=tables.places(dict.fromkeys(bound.makes)),
    )  # fmt: skip


def _whose(law: Law, name: str, owner: Ref | None) -> Whose:
    return Whose(name, "", None) if owner is None else Whose(name, str(owner.record), _side(law, owner))


def _side(law: Law, owner: Ref) -> Side | None:
    return owner.side if owner.kind not in LONE_SUBJECTS and owner.record in law.catalogue.handed else None
