"""Decisions worked out for a record or a step -> the blocks that show them."""

from __future__ import annotations

from collections.abc import Iterable

from builder.model.choosing import CaseView, Choosing, WayView
from builder.model.decided import Case, Clause, Decided, Piece, Warned, Way
from builder.model.records.decision import Decision
from builder.model.reference import Ref
from builder.model.views import Caution, Html, Link, Row
from builder.view.here import Here

REWORK = "Work it out with other values"
IF, AND = '<span class="label">If</span>', '<span class="label">and</span>'
MOST_ASKS = 4
"""So many questions are told before the answers are unfolded; more are found beside the answers."""


def choosing_blocks(here: Here, decided: Iterable[Decided], *, is_folded: bool = False) -> tuple[Choosing, ...]:
    """Return one block a decision."""
    return tuple(_block(here, one, is_folded) for one in decided)


def _block(here: Here, decided: Decided, is_folded: bool) -> Choosing:
    ref = Ref("decision", decided.decision)
    record = here.book.shelf[ref]
    assert isinstance(record, Decision)
    calculator = here.href(Ref("calculator", decided.calculator))
    return Choosing(
        title=record.title, href=here.href(ref),
        cases=tuple(_case(here, case, calculator) for case in decided.cases),
        outranks=here.line(record.outranks), source=here.link("source", record.source),
        # No record's key holds an underscore, so it clashes with no step and no other part of a page.
        anchor="" if is_folded else f"decided_{decided.decision}", is_folded=is_folded,
    )  # fmt: skip


def _case(here: Here, case: Case, calculator: str) -> CaseView:
    shared = case.ways[0].then if all(way.then == case.ways[0].then for way in case.ways) else ()
    links = tuple(
        Link(spot.whole if len(case.spots) > 1 else REWORK, f"{calculator}#{spot.fragment}") for spot in case.spots
    )
    return CaseView(
        where="; ".join(filter(None, case.where)),
        ways=tuple(_way(here, way, with_then=not shared) for way in case.ways),
        asks=case.asks if len(case.asks) <= MOST_ASKS else (),
        then=tuple(_way(here, way) for way in shared),
        cautions=tuple(_caution(here, one) for one in case.warned if not one.hangs_on),
        doubts=tuple(_caution(here, one) for one in case.warned if one.hangs_on),
        known=tuple(Row(told.ask, _piece(here, told.answer._replace(is_answer=False))) for told in case.known),
        links=links,
    )


def _way(here: Here, way: Way, *, with_then: bool = True) -> WayView:
    then = tuple(_way(here, after) for after in way.then) if with_then else ()
    hangs_on = tuple(_clause(here, clause) for clause in way.hangs_on)
    return WayView(hangs_on, here.line(way.say), here.line(way.because), then)


def _caution(here: Here, warned: Warned) -> Caution:
    where = f'<div class="where">{here.text("; ".join(warned.at))}</div> ' if warned.at else ""
    clauses = f" {AND} ".join(_clause(here, clause) for clause in warned.hangs_on)
    condition = f'<div class="if">{IF} {clauses}</div> ' if clauses else ""
    return Caution(warned.level, Html(f"{where}{condition}{here.line(warned.say)}"))


def _clause(here: Here, clause: Clause) -> Html:
    return Html("".join(_piece(here, piece) for piece in clause))


def _piece(here: Here, piece: Piece) -> Html:
    if piece.number is None:
        shown = here.text(piece.text)
    else:
        shown = here.both(here.book.units.answer(piece.text, piece.unit, piece.number))
    return Html(f"<b>{shown}</b>") if piece.is_answer else shown
