"""No answer: the one value that stands where a formula has none, with the reason a reader is shown.

Within a formula it travels as `Unanswered`, raised where the answer is lost and caught where one formula ends; so it
passes through arithmetic, comparisons and conditions alike, in both targets. Only `and` and `or` look at it: a
condition is judged by what is known. `a and b` is false where either side is false, `a or b` is true where either
side is true, whatever the other side is; else they have no answer where a side has none.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class NoAnswer:
    """Stands in place of a value."""

    why: str


Value = float | str | bool | NoAnswer
"""A number in base units, the id of a choice, a truth, or no answer."""


class Unanswered(Exception):  # noqa: N818 - no error: it carries a value out of a formula
    """Carries a `NoAnswer` to the end of its formula."""

    def __init__(self, answer: NoAnswer) -> None:
        super().__init__(answer.why)
        self.answer = answer


def unanswered(why: str) -> Unanswered:
    """Return what to raise where the answer is lost."""
    return Unanswered(NoAnswer(why))


BY_ZERO = "division by zero"
TOO_LARGE = "the number is too large"
NEGATIVE_ROOT = "root of a negative number"
NO_LOGARITHM = "logarithm of a number not above zero"
NO_POWER = "power of a negative number"
OUTSIDE = "outside the table"
NOT_COUNTABLE = "not a whole number of marks from 1 to 400"
