"""A calculator put to work on a record: which one, with what, and which answers are shown."""

from typing import Annotated

from pydantic import StringConstraints

from builder.model.records.fields import (
    ActId,
    CalculatorId,
    Count,
    Expression,
    Many,
    Name,
    SeamId,
    Stated,
    SupplyId,
    Variable,
    YesNo,
    record,
)

Given = Annotated[str, StringConstraints(min_length=1, max_length=200)]
"""A quantity (`40 mm`), a choice id of that input, or an expression over the seam's facts (`length`, `2 * flange`)."""


@record
class Takes:
    """A supply of which a working's answer says how much is used up."""

    supply: SupplyId
    answer: Variable
    """An answer of the calculator, without waste where the supply's record adds that."""
    acts: Many[ActId]
    """Steps of these acts use it up."""
    how: Name
    """What the amount came of, with the calculator's inputs in braces: `{length} {profile} {size}`."""


@record
class Working:
    """One calculator worked out with a segment's facts."""

    calculator: CalculatorId
    as_: Variable | None = None
    """A name by which what comes after may use its answers: `layout` makes `layout_count` of the answer `count`."""
    say: Name | None = None
    """Heading; the calculator's title where absent. What follows under the same heading stands in one group."""
    when: Expression | None = None
    """Left out where this does not hold; where it has no answer it is worked out all the same."""
    seam: SeamId | None = None
    """Whose facts are used; the step's only seam where absent."""
    segment: Count | None = None
    """Which segment, counted from 1; each of them where absent."""
    with_: dict[Variable, Given]
    show: Stated[Variable]
    """Outputs to show, in this order; `none` where only what comes after uses them."""
    otherwise: Name | None = None
    """Said in place of an answer that there is none, before the reason."""
    takes: tuple[Takes, ...] = ()
    """Of a method: what of a supply is ordered for a job by these answers."""
    quiet: YesNo = False
    """The calculator's own warnings are not repeated here: limits say what they say."""
