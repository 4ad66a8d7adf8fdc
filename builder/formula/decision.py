"""Decisions: from the rows of a decision what is checked and run; the first row that holds gives the answer."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from builder.formula.codes import BAD_DECISION
from builder.formula.evaluate import Values, Worker
from builder.formula.fault import Fault
from builder.model.expression import Expression
from builder.model.records.calculator import Row


class Branch(NamedTuple):
    """One row; the last has no condition."""

    condition: Expression | None
    worker: Worker | None
    answer: str
    say: str
    because: str


class Decision(NamedTuple):
    """The rows in their order."""

    branches: tuple[Branch, ...]

    def branch(self, values: Values) -> Branch:
        """Return the row that wins; raise `Unanswered` where a row before it cannot be judged."""
        for branch in self.branches:
            if branch.worker is None or branch.worker(values):
                return branch
        raise AssertionError("the last row has no condition")

    @property
    def ids(self) -> tuple[str, ...]:
        """Every answer there is."""
        return tuple(dict.fromkeys(branch.answer for branch in self.branches))


def form_faults(rows: tuple[Row, ...]) -> Iterator[Fault]:
    """Every row but the last has `if` and `answer`; the last has `otherwise` in their place."""
    if not rows:
        yield Fault(BAD_DECISION, "the decision has no rows", "write a row with otherwise")
    for number, row in enumerate(rows):
        is_last = number == len(rows) - 1
        if row.otherwise is not None and (row.if_ is not None or row.answer is not None):
            do = "write otherwise: answer-id alone, or if and answer"
            yield Fault(BAD_DECISION, "this row has otherwise beside if or answer", do, path=(number,))
        elif row.otherwise is not None and not is_last:
            do = "put it last"
            yield Fault(BAD_DECISION, "no row below this one can be reached", do, path=(number, "otherwise"))
        elif row.otherwise is None and is_last:
            do = "add a last row: {otherwise: answer-id, say: ..., because: ...}"
            yield Fault(BAD_DECISION, "the last row has no otherwise, so there may be no answer", do, path=(number,))
        elif row.otherwise is None and (row.if_ is None or row.answer is None):
            missing = "if" if row.if_ is None else "answer"
            yield Fault(BAD_DECISION, f"this row has no {missing}", f"write {missing}", path=(number,))
