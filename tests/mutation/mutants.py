"""Procedures and the trade's table -> dangerous mutants of every kind, and what the law of the book says to each."""

from __future__ import annotations

import random
from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from typing import NamedTuple

from builder.check.law import Law
from builder.check.names import today
from builder.check.order import judge, left_behind
from builder.check.procedures import stranger_problems
from builder.model.place import Span
from builder.model.reference import Ref
from builder.model.summary import Path, Summary
from tests.mutation.body import Body, Steps
from tests.mutation.dangers import Danger, Link, Trade
from tests.mutation.kinds import KINDS
from tests.sweeps import examples

OF_EACH = examples(60, 4)
"""So many mutants of a kind at most."""
SEED = 20261126


class Mutant(NamedTuple):
    """One spoiled procedure."""

    kind: str
    procedure: str
    steps: Steps
    dangers: frozenset[Danger]
    """That the procedure did not have."""
    is_refused: bool


def nowhere(ref: Ref, path: Path, start: int | None = None, end: int | None = None) -> Span:
    """Where a problem lies is not asked for here."""
    return Span(str(ref), 1, 1, 2)


class Book:
    """The law, and the procedures that are changed."""

    def __init__(self, law: Law, procedures: Mapping[str, Summary]) -> None:
        moved = law.catalogue.moved
        self.law = law
        self.body = Body(law.catalogue.summaries, frozenset(law.catalogue.handed))
        self.procedures = {name: today(one, moved) for name, one in procedures.items()}

    def relied_on(self, procedure: Summary) -> list[Summary]:
        """The procedures that are done before one, those they rely on themselves first."""
        found = (self.law.catalogue.find(ref) for ref in procedure.relations.get("relies_on", ()))
        return [one for other in found if other is not None
                for one in (*self.relied_on(other), today(other, self.law.catalogue.moved))]  # fmt: skip

    def before(self, procedure: Summary) -> Steps:
        """The steps of these."""
        return tuple(step for other in self.relied_on(procedure) for step in other.steps)

    def is_refused(self, procedure: Summary, steps: Steps) -> bool:
        """Whether the check has an error to tell; warnings do not count."""
        passed = [rule for other in self.relied_on(procedure) for rule in other.passes_on]
        brought = left_behind(self.law, self.before(procedure), passes_on=passed)
        breaches = judge(self.law, steps, brought, procedure.passes_on)
        if any(breach.rule is not None and breach.rule.level == "error" for breach in breaches):
            return True
        strange = stranger_problems(procedure._replace(steps=steps), self.law, nowhere)
        return any(problem.level == "error" for problem in strange)


def mutants(book: Book, seed: int = SEED) -> list[Mutant]:
    """Return up to `OF_EACH` distinct dangerous mutants of each kind, spread over the procedures at random."""
    chance = random.Random(seed)
    found: list[Mutant] = []
    told: set[tuple[str, Steps]] = set()
    known = {name: dangers(book, name, procedure.steps) for name, procedure in book.procedures.items()}
    links = {name: Trade(book.body, one.steps).links(one.steps) for name, one in book.procedures.items()}
    for kind in KINDS:
        count = 0
        for name, steps in _candidates(book, kind, links, chance):
            if count == OF_EACH:
                break
            if (name, steps) in told or steps == book.procedures[name].steps:
                continue
            told.add((name, steps))
            new = dangers(book, name, steps) - known[name]
            if new:
                count += 1
                found.append(Mutant(kind, name, steps, new, book.is_refused(book.procedures[name], steps)))
    return found


def dangers(book: Book, name: str, steps: Steps) -> frozenset[Danger]:
    procedure = book.procedures[name]
    return Trade(book.body, procedure.steps).dangers((*book.before(procedure), *steps))


def _candidates(
    book: Book, kind: str, links: Mapping[str, list[Link]], chance: random.Random
) -> list[tuple[str, Steps]]:
    found = []
    for name, procedure in book.procedures.items():
        found += [(name, steps) for steps in KINDS[kind].make(book.body, procedure.steps, links[name])]
    chance.shuffle(found)
    return found


class Row(NamedTuple):
    """One line of the table that is printed."""

    name: str
    of: int
    refused: int

    @property
    def share(self) -> float:
        return self.refused / self.of if self.of else 1.0

    def __str__(self) -> str:
        return f"{self.name:34} {self.of:6} {self.refused:8} {self.share:7.1%}"


def rows(pairs: Iterable[tuple[str, bool]]) -> list[Row]:
    """Count what was refused by name, in the order of first mention."""
    counts: dict[str, Counter[bool]] = defaultdict(Counter)
    for name, is_refused in pairs:
        counts[name][is_refused] += 1
    return [Row(name, count.total(), count[True]) for name, count in counts.items()]
