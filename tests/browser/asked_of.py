"""What the records say to a question that the page made: judged by check/order.py and by the Python calculators alone.

Each function returns, for one question, the choices or answers that are right, found without what the question claims.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property
from pathlib import Path
from typing import Any, NamedTuple

from builder.check import Law, at_end, check_procedure
from builder.check.brought import Brought
from builder.check.order import judge
from builder.formula import Program, run
from builder.model.files import Layer
from builder.model.records.procedure import Procedure
from builder.model.records.supporting import Hazard
from builder.model.reference import Ref
from builder.model.summary import StepSummary
from builder.order import Order
from builder.passes import Way, unpack
from builder.view.prose import plain_text

ROOT = Path(__file__).parents[2]
Question = dict[str, Any]


class Broken(NamedTuple):
    """One rule broken at one step, by names that mean the same in any order of the steps."""

    sort: str
    rule: str
    at: str
    state: str
    subject: str


class Line(NamedTuple):
    """A procedure's steps, what holds before the first, and what its own order leaves to others."""

    steps: Mapping[str, StepSummary]
    brought: Brought
    passes_on: Sequence[str]
    usual: frozenset[Broken]

    @property
    def own(self) -> list[str]:
        return list(self.steps)


class Records:
    """The supplied book's records, read and judged in this process."""

    def __init__(self) -> None:
        self.way = Way(Order((Layer(ROOT / "content", "content"),), processes=1))
        self.gathered = self.way.gather(self.way.discover())
        self.programs: Mapping[str, Program] = self.way.judge(self.gathered, self.way.connect(self.gathered))
        self._lines: dict[str, Line] = {}

    @cached_property
    def law(self) -> Law:
        return self.way.law

    def line(self, id_: str) -> Line:
        """A procedure, with what those it relies on leave behind."""
        if id_ not in self._lines:
            ref = Ref("procedure", id_)
            check_procedure(ref, self.law, self.way.places.locate)
            summary = self.law.catalogue.summaries[ref]
            relied_on = [self.law.catalogue.summaries[one] for one in summary.relations.get("relies_on", ())]
            ends = [at_end(one, self.law) for one in relied_on]
            held = dict.fromkeys(one for end in ends for one in end.held if self.law.states[one[0]].lasts == "job")
            steps = {step.key: step for step in summary.steps}
            found = Line(steps, Brought(tuple(held)), summary.passes_on, frozenset())
            self._lines[id_] = found._replace(usual=frozenset(self._judged(found, found.own)))
        return self._lines[id_]

    def broken(self, line: Line, order: Sequence[str]) -> list[Broken]:
        """What an order breaks that the procedure's own does not, in the order in which the steps are done."""
        return [one for one in self._judged(line, order) if one not in line.usual]

    def _judged(self, line: Line, order: Sequence[str]) -> list[Broken]:
        found = judge(self.law, [line.steps[key] for key in order], line.brought, line.passes_on)
        return [
            Broken(one.sort, one.rule_id, order[one.at], one.state, str(one.subject)) for one in found if one.at >= 0
        ]

    def because(self, rule: str) -> str:
        """A rule's own reason, as a page says it."""
        found = {id_: one for rules in self.law.rules.values() for id_, one in rules}
        return plain_text(found[rule].because)

    def procedure(self, id_: str) -> Procedure:
        found = unpack(Ref("procedure", id_), self.gathered)
        assert isinstance(found, Procedure)
        return found

    def hazard(self, id_: str) -> Hazard:
        found = unpack(Ref("hazard", id_), self.gathered)
        assert isinstance(found, Hazard)
        return found


def changed(line: Line, question: Question) -> list[str]:
    """The steps of a procedure with one left out, or moved to another place."""
    step, to = question["change"]["step"], question["change"]["to"]
    rest = [key for key in line.own if key != step]
    return rest if to < 0 else [*rest[:to], step, *rest[to:]]


def first_broken(records: Records, question: Question) -> tuple[list[str], list[Broken]]:
    """The step at which a rule is broken first, alone in a list; and all that is broken anywhere."""
    line = records.line(question["of"]["procedure"])
    order = changed(line, question)
    found = records.broken(line, order)
    now = {one.at for one in found if one.sort != "owes"}
    return [key for key in order if key in now][:1], found


def mending(records: Records, question: Question, broken: Iterable[Broken], choices: Iterable[str]) -> list[str]:
    """Of some steps those that mend what one that was left out broke, put where it was."""
    line = records.line(question["of"]["procedure"])
    place = line.own.index(question["change"]["step"])
    rest, wanted = changed(line, question), set(broken)
    return [key for key in choices if wanted.isdisjoint(records.broken(line, [*rest[:place], key, *rest[place:]]))]


def lawful(records: Records, question: Question, answer: Sequence[str]) -> bool:
    """Whether steps, put in this order into their own places, break nothing."""
    line = records.line(question["of"]["procedure"])
    order = line.own
    places = sorted(order.index(key) for key in answer)
    for place, key in zip(places, answer, strict=True):
        order[place] = key
    return not records.broken(line, order)


def worked(records: Records, question: Question) -> tuple[float | str | None, str, list[str]]:
    """What the Python calculator gives: the value in base units, its text, and the levels of what it warns of."""
    output = question["of"]["output"]
    found = run(records.programs[question["of"]["calculator"]], question["given"])
    assert not found.faults, found.faults
    value = found.values[output]
    assert isinstance(value, float | str), value
    return value, found.outputs[output].text, [one.level for one in found.warnings if one.holds is not False]


def named(records: Records, question: Question) -> tuple[set[str], set[str]]:
    """The dangers that a step names, and those that its whole procedure does."""
    procedure = records.procedure(question["of"]["procedure"])
    steps = {step.key: step for phase in procedure.phases for step in phase.steps}
    return set(steps[question["items"][0]["id"]].hazards), set(procedure.hazards)
