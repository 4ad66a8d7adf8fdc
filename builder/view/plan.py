"""A segment worked out -> its block: for each method the verdict first, then what its plan comes to, in groups."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby

from builder.formula import unit
from builder.formula.numbers import plain
from builder.model.plan_views import (
    LengthAsk,
    PlanCaution,
    PlanFact,
    PlanGroup,
    PlanLink,
    PlannedMethod,
    PlannedSegment,
    PlanPart,
    PlanRow,
)
from builder.model.records.body import Segment
from builder.model.records.calculator import Calculator, Input
from builder.model.records.law import Method
from builder.model.reference import Ref
from builder.model.said import Said, joined
from builder.model.views import Html
from builder.model.work import MethodPlan, Remark, SegmentPlan, WorkedOut
from builder.view.here import Here
from builder.view.offered import asked_units, limits_of
from builder.view.worked import value_row

LEVELS = ("stop", "care", "note")
FACES = {"both": "both faces", "one": "one face only", "unknown": "nobody knows which faces"}
INTERFACES = ("interface_1", "interface_2", "interface_3")


def planned(here: Here, seam: str, segment: Segment, plan: SegmentPlan, at: int, count: int) -> PlannedSegment:
    """Make the block; `at` counts from 1."""
    return PlannedSegment(
        title=f"Worked out: {plan.name}" if count > 1 else "Worked out", seam=seam, number=at,
        facts=tuple(_facts(here, segment, plan)), methods=tuple(_method(here, one, at) for one in plan.methods),
        ask=_ask(here, plan.asked, at) if plan.asked and any(one.is_moved for one in plan.methods) else None,
        anchor=f"plan-{at}",
    )  # fmt: skip


def _facts(here: Here, segment: Segment, plan: SegmentPlan) -> Iterator[PlanFact]:
    yield PlanFact("Length", here.quantity(segment.length), is_length=True)
    yield PlanFact("Flange", here.quantity(segment.flange))
    for value in plan.facts:
        row = value_row(here, value)
        yield PlanFact(row.label, row.value)
    interfaces = tuple(_interfaces(here, plan))
    if interfaces:
        yield PlanFact("Thinner sheet at each interface", here.both(joined(", ", [*interfaces])))
    welds = "none" if segment.factory == "none" else str(segment.factory.count or "not counted")
    yield PlanFact("Factory welds", here.text(welds))
    yield PlanFact("Reach", Html(f"{FACES[segment.reach.sides]}, {here.quantity(segment.reach.depth)}"))


def _interfaces(here: Here, plan: SegmentPlan) -> Iterator[Said]:
    millimetre = unit("mm")
    for name in INTERFACES:
        value = plan.known.get(name)
        if value is None:
            yield Said("unknown")
        elif isinstance(value, float) and value > 0 and millimetre is not None:
            number = millimetre.from_base(value)
            yield here.book.units.answer(plain(number), "mm", number)


def _ask(here: Here, asked: Input, at: int) -> LengthAsk:
    units = here.book.units
    return LengthAsk(
        id=f"length_{at}", label=asked.ask, unit=units.name(asked.unit or ""),
        start=units.entry(asked.start or "", asked.unit or ""), limits=here.both(limits_of(units, asked)),
        units=asked_units(units, asked),
    )  # fmt: skip


def _method(here: Here, plan: MethodPlan, at: int) -> PlannedMethod:
    record = here.book.shelf.get(Ref("method", plan.method))
    link = here.link("method", plan.method)
    order = record.headings if isinstance(record, Method) else ()
    limits = tuple(_in_order([
        *(_limit(here, remark) for remark in plan.remarks),
        *(_limit(here, remark)._replace(is_waiting=True) for remark in plan.waiting),
        *_stops(here, plan.worked),
    ]))  # fmt: skip
    holding = [caution.level for caution in limits if not caution.is_waiting]
    return PlannedMethod(
        plan.method, link.text, link.href, f"plan-{at}-{plan.method}", next(iter(holding), ""),
        limits, tuple(_groups(here, plan.worked, order)),
    )  # fmt: skip


def _in_order(cautions: Iterable[PlanCaution]) -> list[PlanCaution]:
    return sorted(cautions, key=lambda caution: LEVELS.index(caution.level))


def _limit(here: Here, remark: Remark) -> PlanCaution:
    source = here.anchor(here.link("source", remark.source))
    because = Html(f"{here.line(remark.because)} {source}")
    return PlanCaution(remark.level, here.line(remark.say), because, remark.unjudged, remark.at)


def _stops(here: Here, worked: Iterable[WorkedOut]) -> Iterator[PlanCaution]:
    """What calculators stop at is said with the verdict, and by which."""
    for one in worked:
        for remark in one.remarks:
            if remark.level == "stop":
                because = here.anchor(here.link("calculator", one.calculator))
                yield PlanCaution("stop", here.line(remark.say), because, remark.unjudged)


def _groups(here: Here, worked: tuple[WorkedOut, ...], order: tuple[str, ...]) -> Iterator[PlanGroup]:
    places = {heading: at for at, heading in enumerate(order)}
    inside = sorted(worked, key=lambda one: places.get(one.say, len(order)))
    for heading, found in groupby(inside, key=lambda one: one.say):
        parts = tuple(found)
        yield PlanGroup(heading, tuple(_part(here, one) for one in parts), tuple(_links(here, parts)))


def _links(here: Here, parts: Iterable[WorkedOut]) -> Iterator[PlanLink]:
    """Return one link for each calculator and what it is filled in with."""
    seen = set()
    for one in parts:
        key = (one.calculator, one.fragment)
        if key not in seen:
            seen.add(key)
            link = here.link("calculator", one.calculator)
            yield PlanLink(one.at, link.text, f"{link.href}#{one.fragment}" if one.fragment else link.href)


def _part(here: Here, worked: WorkedOut) -> PlanPart:
    record = here.book.shelf.get(Ref("calculator", worked.calculator))
    outputs = record.outputs if isinstance(record, Calculator) else {}
    rows = []
    before = ""
    for name, value in zip(worked.names, worked.answers, strict=True):
        row = value_row(here, value)
        note = "" if value.why and value.why == before else row.note  # a reason is said once for answers in a row
        rows.append(PlanRow(name, row.label, row.value, here.book.units.behind(outputs[name].unit or ""), note))
        before = value.why
    cares = tuple(
        PlanCaution(remark.level, here.line(remark.say), unjudged=remark.unjudged)
        for remark in worked.remarks if remark.level == "care"
    )  # fmt: skip
    return PlanPart(worked.at, tuple(rows), cares)
