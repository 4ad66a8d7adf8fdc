"""Answers worked out for a record -> the blocks that show them."""

from __future__ import annotations

from collections.abc import Iterable

from builder.model.reference import Ref
from builder.model.views import Caution, Html, Row, Worked
from builder.model.work import Remark, Value, WorkedOut
from builder.view.here import Here


def worked_blocks(here: Here, worked: Iterable[WorkedOut]) -> tuple[Worked, ...]:
    """Return one block an answer."""
    return tuple([worked_block(here, one) for one in worked])


def worked_block(here: Here, worked: WorkedOut) -> Worked:
    """Show what was asked, what came out, and what the calculator warns of."""
    title = f"{worked.say}: {worked.segment}" if worked.segment else worked.say
    return Worked(
        title=title,
        href=f"{here.href(Ref('calculator', worked.calculator))}#{worked.fragment}",
        given=tuple([value_row(here, value) for value in worked.given]),
        answers=tuple([value_row(here, value) for value in worked.answers]),
        cautions=cautions(here, worked.remarks),
    )


def value_row(here: Here, value: Value) -> Row:
    """Show a value, or why there is none."""
    if value.why:
        return here.row(value.say, value.instead or "no answer", value.why)
    return here.row(value.say, here.book.units.answer(value.text, value.unit, value.number), value.because)


def cautions(here: Here, remarks: Iterable[Remark]) -> tuple[Caution, ...]:
    """Show remarks, those that stop the work first."""
    order = {"stop": 0, "care": 1, "note": 2}
    return tuple(
        Caution(remark.level, here.line(remark.say), remark.unjudged, here.line(remark.because) or Html(""))
        for remark in sorted(remarks, key=lambda remark: order[remark.level])
    )  # fmt: skip
