"""What a decision comes to for one record: the answers that remain, in their order, and what each still hangs on."""

from __future__ import annotations

from typing import Literal, NamedTuple


class Piece(NamedTuple):
    """A part of a condition in words."""

    text: str
    """Words; of a number as it is shown."""
    unit: str = ""
    number: float | None = None
    """In its unit, before it was rounded."""
    is_answer: bool = False
    """Whether it answers the question before it."""


Clause = tuple[Piece, ...]
"""One thing that must be so."""


class Way(NamedTuple):
    """An answer that remains."""

    say: str
    because: str
    hangs_on: tuple[Clause, ...]
    """All of it must be so; empty where this is the answer as soon as those before it are not."""
    then: tuple[Way, ...] = ()
    """What follows from this answer, in the same manner."""


class Warned(NamedTuple):
    """A warning of the calculator that holds, or holds where what it hangs on is so."""

    level: Literal["stop", "care"]
    say: str
    hangs_on: tuple[Clause, ...] = ()
    at: tuple[str, ...] = ()
    """Of several places those where it does; empty where it does at all of them."""


class Told(NamedTuple):
    """An input that is known here."""

    ask: str
    answer: Piece


class Chosen(NamedTuple):
    """What remains for one set of facts."""

    ways: tuple[Way, ...]
    """In the order in which they are tried; one alone is the answer."""
    asks: tuple[str, ...]
    """The questions that decide between them."""
    warned: tuple[Warned, ...]
    known: tuple[Told, ...]
    fragment: str
    """Opens the calculator's page with what is known: `in=layers:2,...`."""


class Spot(NamedTuple):
    """A place that a decision was worked out for."""

    name: str
    """Empty where the record has only one."""
    fragment: str
    of: str = ""
    """What it is a part of: of a step on several seams the seam."""

    @property
    def whole(self) -> str:
        """Its name with that of what it is a part of."""
        return ", ".join(filter(None, (self.of, self.name)))


class Case(NamedTuple):
    """Places of one record for which the same remains."""

    spots: tuple[Spot, ...]
    where: tuple[str, ...]
    """The places in words, those of one seam together; a seam that is here with all its places stands for them, and of
    a page's only seam that is said by nothing."""
    ways: tuple[Way, ...]
    asks: tuple[str, ...]
    warned: tuple[Warned, ...]
    known: tuple[Told, ...]
    """What is known at all of them alike."""


class Decided(NamedTuple):
    """A decision for one record or step."""

    decision: str
    calculator: str
    cases: tuple[Case, ...]
