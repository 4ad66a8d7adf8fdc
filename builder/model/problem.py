"""Problems as data: what was found, where, what to do, and why it matters."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal, NamedTuple

from builder.model.place import Span

Level = Literal["error", "warning"]


class OutsideError(Exception):
    """The disk or the system refused something: it is no fault of the records, and none of Seambook."""


class Code(NamedTuple):
    """One kind of problem; `explain` prints its explanation, and a broken book under tests/invalid shows it."""

    id: str
    """A letter for the stage and three digits, permanent: L203."""
    name: str
    """The bad thing itself in snake_case, so that "allow unknown_reference" reads well."""
    explanation: str
    """What it means, why it is refused, and how it is mended, in plain text."""


class Related(NamedTuple):
    """Another place that has to do with a problem."""

    span: Span
    label: str


@dataclass(frozen=True, slots=True)
class Problem:
    """One finding about the content; never raised, always returned."""

    code: Code
    span: Span
    message: str
    """One line, no full stop: what is wrong, in the author's own words and names."""
    do: str
    """What mends it, as an instruction."""
    why: str | None = None
    """The rule's own reason, where a rule of the trade was broken."""
    see: tuple[Related, ...] = ()
    level: Level = "error"

    def sort_key(self) -> tuple[str, int, int, str, str]:
        """Order problems as an author works through them: by file, then down the page."""
        return (self.span.file, self.span.line, self.span.column, self.code.id, self.message)


def in_order(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """Return the problems sorted for showing, each once."""
    return tuple(sorted(set(problems), key=Problem.sort_key))
