"""Steps -> every danger that stands in them, by the trade's own table, which knows no rule of the book."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator
from functools import cache
from typing import NamedTuple

from builder.model.reference import BODY, Ref
from builder.model.summary import StepSummary
from tests.mutation.body import Body, Steps
from tests.mutation.debts import CARRIES, DEBTS, Debt
from tests.mutation.guards import GUARDS, Guard
from tests.mutation.when import WHEN


class Danger(NamedTuple):
    """One guard that is missing where it is needed, or one debt left open."""

    name: str
    key: str
    """Of the step that should not have been done so."""
    target: Ref


class Link(NamedTuple):
    """Which step guards which: what a mutation aims at."""

    about: Guard | Debt
    giver: int
    """Position of the step that gives it or pays it; less than 0 where nothing had to."""
    act: int
    """Position of the step that is guarded or owes."""
    target: Ref


@cache
def words(text: str) -> frozenset[str]:
    """Return the words of one field of the table."""
    return frozenset(text.split())


class Trade:
    """The table, applied to one procedure, which is given as it was before anything was changed in it."""

    def __init__(self, body: Body, original: Steps) -> None:
        self.body = body
        self.had = frozenset(f"had:{step.act}" for step in original)
        self.ways: dict[str, Callable[[Ref], list[Ref]]] = {
            "body": lambda _: [Ref(BODY, BODY)], "own": lambda ref: [ref], "joints": body.seams_at,
            "panels": body.panels, "openings": body.openings, "cavities": body.cavities,
        }  # fmt: skip

    def dangers(self, steps: Steps) -> frozenset[Danger]:
        """Return all that is dangerous."""
        look = Look(self, steps)
        return frozenset([*look.unguarded(), *look.unpaid(), *_lacking(steps)])

    def links(self, steps: Steps) -> list[Link]:
        """Return which step guards which, as the steps stand."""
        return list(Look(self, steps).links())

    def speaks(self, about: Guard | Debt) -> bool:
        """Whether the procedure had what this is about."""
        return self.had.issuperset(word for word in words(about.when) if word.startswith("had:"))

    def targets(self, whose: str, subject: Ref) -> list[Ref]:
        """Whose guard is meant, seen from an act's subject."""
        if whose == "across":
            other = self.body.across(subject)
            return [] if other is None else [other]
        return self.ways[whose](subject)


class Look:
    """One list of steps, looked at from each act back or on."""

    def __init__(self, trade: Trade, steps: Steps) -> None:
        self.trade = trade
        self.body = trade.body
        self.steps = steps
        self.places: dict[str, list[int]] = defaultdict(list)
        self.done: dict[str, list[int]] = {}
        for at, step in enumerate(steps):
            self.places[step.act].append(at)

    def links(self) -> Iterator[Link]:
        for guard in GUARDS:
            for at, target in self._subjects(guard):
                for giver, holds in [self._last(guard, way, at, target) for way in guard.ways]:
                    if holds:
                        yield Link(guard, giver, at, target)
        for debt in DEBTS:
            for at, target in self._subjects(debt):
                paid = self._paid(debt, at, target)
                if paid:
                    yield Link(debt, paid[-1], at, target)

    def unguarded(self) -> Iterator[Danger]:
        for guard in GUARDS:
            for at, target in self._subjects(guard):
                if not any(self._last(guard, way, at, target)[1] for way in guard.ways):
                    yield Danger(guard.name, self.steps[at].key, target)

    def unpaid(self) -> Iterator[Danger]:
        for debt in DEBTS:
            for at, target in self._subjects(debt):
                paid = self._paid(debt, at, target)
                spoiled = paid and any(n > paid[-1] and self._takes(debt, n, target) for n in self._done(debt.spoilers))
                if spoiled or not (paid or (debt.once and self._paid(debt, self._first(debt, target), target))):
                    yield Danger(debt.name, self.steps[at].key, target)

    def _done(self, acts: str) -> list[int]:
        """Positions of the steps that do one of these acts; of one with a mark, where it makes holes."""
        if acts not in self.done:
            found = [at for act in words(acts) if not act.endswith("!") for at in self.places.get(act, ())]
            found += [at for act in words(acts) if act.endswith("!") for at in self.places.get(act[:-1], ())
                      if "holes" in self.steps[at].carries]  # fmt: skip
            self.done[acts] = sorted(found)
        return self.done[acts]

    def _subjects(self, about: Guard | Debt) -> Iterator[tuple[int, Ref]]:
        places = self._done(about.acts)
        if not places or not self.trade.speaks(about):
            return
        asked = [WHEN[word] for word in words(about.when) if not word.startswith("had:")]
        for at in places:
            for subject in self.steps[at].subjects:
                for target in self.trade.targets(about.whose, subject):
                    if all(holds((self.body, self.steps, at, subject, target)) for holds in asked):
                        yield at, target

    def _last(self, guard: Guard, way: tuple[str, str], at: int, target: Ref) -> tuple[int, bool]:
        """The last step that gave the guard before a position, and whether it still holds there."""
        gives, takes = way
        given = [n for n in self._done(gives) if n < at and self._gives(guard, n, target)
                 and (not guard.by_method or self.steps[n].method == self.steps[at].method)]  # fmt: skip
        giver = given[-1] if given else -1
        holds = bool(given) or (guard.at_first and way is guard.ways[0])
        return giver, holds and not any(giver < n < at and self._takes(guard, n, target) for n in self._done(takes))

    def _first(self, debt: Debt, target: Ref) -> int:
        return next(n for n in self._done(debt.acts) if target in self.steps[n].subjects) - 1

    def _paid(self, debt: Debt, at: int, target: Ref) -> list[int]:
        return [n for n in self._done(debt.payers) if n > at and self._gives(debt, n, target)]

    def _gives(self, about: Guard | Debt, at: int, target: Ref) -> bool:
        step = self.steps[at]
        if about.whose == "across" and step.act == "weld-final":
            return any(ref.side == target.side for ref in step.subjects)
        if isinstance(about, Debt) and _joins(self.body, step, target):
            return True
        return target in step.subjects or target.kind == BODY or any(ref.kind == BODY for ref in step.subjects)

    def _takes(self, about: Guard | Debt, at: int, target: Ref) -> bool:
        subjects = self.steps[at].subjects
        if about.whose == "across":
            return any(ref.side == target.side and self._bears_load(ref) for ref in subjects)
        return any(self.body.reaches(subject, target) for subject in subjects)

    def _bears_load(self, ref: Ref) -> bool:
        """Whether something that carries load is opened, on a side that the car has two of."""
        return WHEN["load-bearing"]((self.body, (), 0, ref, ref))


def _joins(body: Body, step: StepSummary, panel: Ref) -> bool:
    """Whether a step on a seam is one on this sheet of it."""
    return panel.kind == "panel" and any(panel in body.panels(ref) for ref in step.subjects if ref.kind == "seam")


def _lacking(steps: Steps) -> Iterator[Danger]:
    for at, step in enumerate(steps):
        for part in CARRIES.get(step.act, ("", ""))[0].split():
            if part not in step.carries:
                yield Danger(f"carries {part}", step.key, step.subjects[0])
        if "measure" in step.carries and not any("hold" in other.carries for other in steps[at:]):
            yield Danger("reading at a hold", step.key, step.subjects[0])
