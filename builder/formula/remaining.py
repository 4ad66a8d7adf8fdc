"""Which rows of a decision remain when some of what it asks is open, and what each of them still hangs on.

Open choices are tried out one after the other, and only where a row hangs on them; so for choices the rows found are
exactly those that can come first. Of open numbers every comparison may turn out either way, so a row may be listed that
two comparisons together rule out, and none is ever missing.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from builder.formula.compiling import Step
from builder.formula.decision import Branch
from builder.formula.evaluate import evaluate
from builder.formula.no_answer import NoAnswer, Unanswered, Value
from builder.formula.program import Program
from builder.formula.rest import Known, Options, Rest, rest_of
from builder.model.expression import Expression, names_read

MAX_TRIES = 20000
"""Where a decision asks for more, the choices left are taken as free."""
OPEN = NoAnswer("it is not known here")
Chosen = Mapping[str, str]
"""Open choices tried out; or what decisions before this one answered."""


class _Tried(NamedTuple):
    """A decision under what was tried out and answered so far."""

    name: str
    chosen: Chosen
    answered: Chosen
    values: Mapping[str, Value]
    """All that is known then."""


class Remaining(NamedTuple):
    """A row that can still be the first that holds."""

    row: int
    """Counted from 0."""
    branch: Branch
    rest: Rest
    """What it hangs on; True where it holds as soon as no row above it does."""
    then: tuple[Remaining, ...] = ()
    """If it is the one: of the decision asked for after this one the rows that remain."""


@dataclass
class Partly:
    """A calculator of whose inputs not all are known."""

    program: Program
    known: Mapping[str, Value]
    """In base units; an input that is not there is open."""
    options: Options
    """Of the open choices, those that are possible; none other are open."""
    steps: dict[str, Step] = field(init=False)
    reads: dict[str, frozenset[str]] = field(init=False)
    """By formula or decision, the open choices that it hangs on."""
    asked: dict[str, list[frozenset[str]]] = field(init=False)
    """By decision, of each row the open choices that its condition hangs on."""
    hanging: dict[str, list[str]] = field(init=False)
    """By open choice, the formulas and decisions that hang on it, each after what it needs."""
    tries: int = 0

    def __post_init__(self) -> None:
        """Note what each step hangs on; steps stand after what they need."""
        self.steps = {step.name: step for step in self.program.steps}
        self.reads = {}
        self.asked = {}
        for step in self.program.steps:
            self.reads[step.name] = frozenset().union(*(self.asks(node) for node in _nodes(step)))
            conditions = [branch.condition for branch in step.decision.branches] if step.decision is not None else []
            self.asked[step.name] = [frozenset() if one is None else self.asks(one) for one in conditions]
        self.hanging = {
            choice: [name for name, reads in self.reads.items() if choice in reads] for choice in self.options
        }

    def asks(self, node: Expression) -> frozenset[str]:
        """Return the open choices that an expression hangs on."""
        names = {name.name for name in names_read(node)}
        return frozenset(names & self.options.keys()).union(*(self.reads.get(name, frozenset()) for name in names))

    def remaining(self, names: Sequence[str]) -> tuple[Remaining, ...]:
        """Return the rows of the first decision named that remain, in their order; of those after it for each."""
        return self._remaining(names, [{}], {})

    def _remaining(self, names: Sequence[str], ways: Sequence[Chosen], answered: Chosen) -> tuple[Remaining, ...]:
        """The rows that can come first after what was tried out and answered so far."""
        if not names:
            return ()
        name, *after = names
        known = self.known_at(answered)
        found: dict[int, list[Chosen]] = {}
        for way in ways:
            for row, chosen in self._first_rows(name, way, answered):
                found.setdefault(row, []).append(chosen)
        rows = []
        for row in sorted(found):
            branch = self.rows(name)[row]
            rest = True if branch.condition is None else rest_of(branch.condition, known)
            if rest is False:
                continue  # what was tried out one by one could not see that its parts rule each other out
            then = self._remaining(after, found[row], {**answered, name: branch.answer})
            rows.append(Remaining(row, branch, rest, then))
            if rest is True:
                break
        return tuple(rows)

    def _first_rows(self, name: str, chosen: Chosen, answered: Chosen) -> list[tuple[int, Chosen]]:
        """Return each row that can come first, with the choices that bring it about."""
        found: list[tuple[int, Chosen]] = []
        self._look_from(0, _Tried(name, chosen, answered, self._values(chosen, answered)), found)
        return found

    def _look_from(self, first: int, tried: _Tried, found: list[tuple[int, Chosen]]) -> None:
        """Go on from a row: those above it were found not to hang on what was chosen since."""
        self.tries += 1
        rows = self.rows(tried.name)
        for row in range(first, len(rows)):
            worker = rows[row].worker
            holds = True if worker is None else evaluate(worker, tried.values)
            if holds is False:
                continue
            if not isinstance(holds, NoAnswer):
                found.append((row, tried.chosen))
                return
            asked = self._to_try(tried, row)
            if asked is not None:
                for id_ in self.options[asked]:
                    self._look_from(row, self._chosen(tried, asked, id_), found)
                return
            found.append((row, tried.chosen))

    def _to_try(self, tried: _Tried, row: int) -> str | None:
        asks = self.asked[tried.name][row]
        untried = (name for name in self.options if name in asks and name not in tried.chosen)
        return next(untried, None) if self.tries < MAX_TRIES else None

    def _chosen(self, tried: _Tried, asked: str, id_: str) -> _Tried:
        """Try a choice out: only what hangs on it is worked out anew."""
        values = {**tried.values, asked: id_}
        for name in self.hanging[asked]:
            if name not in tried.answered:
                values[name] = _worked(self.steps[name], values)
        return tried._replace(chosen={**tried.chosen, asked: id_}, values=values)

    def rows(self, name: str) -> tuple[Branch, ...]:
        """Return all rows of a decision."""
        decision = self.steps[name].decision
        assert decision is not None, f"{name} is no decision"
        return decision.branches

    def _values(self, chosen: Chosen, answered: Chosen) -> dict[str, Value]:
        program = self.program
        values: dict[str, Value] = {
            **program.fixed, **dict.fromkeys(program.questions, OPEN), **self.known, **chosen,
        }  # fmt: skip
        for step in program.steps:
            values[step.name] = answered[step.name] if step.name in answered else _worked(step, values)
        return values

    def known_at(self, answered: Chosen) -> Known:
        """Return what is known once the decisions named have been answered."""
        formulas = {name: step.node for name, step in self.steps.items() if step.node is not None}
        return Known(self._values({}, answered), self.options, formulas, self.program.tables)


def _nodes(step: Step) -> list[Expression]:
    if step.decision is None:
        return [step.node] if step.node is not None else []
    return [branch.condition for branch in step.decision.branches if branch.condition is not None]


def _worked(step: Step, values: Mapping[str, Value]) -> Value:
    if step.decision is None:
        assert step.worker is not None
        return evaluate(step.worker, values)
    try:
        return step.decision.branch(values).answer
    except Unanswered as lost:
        return lost.answer
