"""A seam -> its plan: each segment's facts, and what every allowed method comes to on it."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from builder.formula import Fault, NoAnswer, evaluate_expression
from builder.formula.facts import fact_values
from builder.formula.numbers import fixed, plain
from builder.formula.units import unit
from builder.model.records.body import Seam, Segment
from builder.model.records.calculator import Fixed
from builder.model.records.fields import Expression
from builder.model.records.law import Limit, Mark, Method
from builder.model.reference import Ref
from builder.model.summary import Facts
from builder.model.work import MethodPlan, Remark, SeamPlan, SegmentPlan, Value, WorkedOut
from builder.work.workings import Shop, faults_of, work_out

SHOWN = (("layers", "Sheets", ""), ("governing", "Governing sheet", "mm"), ("total", "Whole stack", "mm"),
         ("ratio", "Thickest to thinnest", ""))  # fmt: skip
"""Facts a reader wants to see: name, label, unit."""


def plan_seam(seam: Seam, facts: tuple[Facts, ...], shop: Shop) -> tuple[SeamPlan, tuple[Fault, ...]]:
    """Work a seam out. A method whose record is broken is passed over: that was told elsewhere."""
    faults: list[Fault] = []
    segments: list[SegmentPlan] = []
    for at, (segment, known) in enumerate(zip(seam.segments, facts, strict=True)):
        name = named(segment, at, len(seam.segments))
        methods: list[MethodPlan] = []
        for method_at, id_ in enumerate(seam.methods):
            record = shop.shelf.get(Ref("method", id_))
            if isinstance(record, Method):
                plan, found = _plan_method(id_, record, known, name, shop)
                methods.append(plan)
                faults += [fault.under(("methods", method_at)) for fault in found]
        segments.append(SegmentPlan(name, tuple(_facts_shown(known)), tuple(methods)))
    return tuple(segments), tuple(faults)


def named(segment: Segment, at: int, count: int) -> str:
    """Return what a segment is called; the only one has no name of its own."""
    return segment.name or (f"segment {at + 1}" if count > 1 else "")


def _facts_shown(facts: Facts) -> Iterator[Value]:
    for name, label, unit_name in SHOWN:
        value = facts.get(name)
        known = unit(unit_name) if unit_name else None
        if not isinstance(value, float):
            yield Value(label, "", unit_name, why="a sheet's thickness is unknown")
        else:
            number = known.from_base(value) if known is not None else value
            yield Value(label, fixed(number, 2) if name == "ratio" else plain(number), unit_name)


def _plan_method(
    id_: str, method: Method, facts: Facts, segment: str, shop: Shop
) -> tuple[MethodPlan, list[Fault]]:
    remarks = tuple(remark for limit in method.limits if (remark := _judge(limit, facts)) is not None)
    worked: list[WorkedOut] = []
    faults: list[Fault] = []
    for working in method.plan:
        program = shop.programs.get(working.calculator)
        if program is None or faults_of(working, program, shop):
            continue  # told at the method's or the calculator's own record
        result = work_out(working, program, facts, segment, shop)
        if isinstance(result, Fault):
            faults.append(result)
        else:
            worked.append(result)
    width = _mark_width(method.mark, facts)
    say = method.mark.say if method.mark is not None else ""
    stepped, staggered = (_is_drawn(expression, facts) for expression in _steps(method.mark))
    return MethodPlan(id_, remarks, tuple(worked), width, say, None, stepped, staggered), faults


def _judge(limit: Limit, facts: Facts) -> Remark | None:
    holds = evaluate_expression(limit.if_, fact_values(facts))
    if holds is False:
        return None
    return Remark(limit.level, limit.say, limit.because, unjudged=isinstance(holds, NoAnswer))


def _steps(mark: Mark | None) -> tuple[Expression | None, Expression | None]:
    return (mark.stepped, mark.staggered) if mark is not None else (None, None)


def _is_drawn(expression: Expression | None, facts: Facts) -> bool:
    """Whether it surely holds; what cannot be judged is not drawn."""
    return expression is not None and evaluate_expression(expression, fact_values(facts)) is True


def _mark_width(mark: Mark | None, facts: Facts) -> float | None:
    """Return the weld's drawn width in mm; None where it is unknown."""
    if mark is None:
        return None
    constants = {name: base_of(value) for name, value in mark.fixed.items()}
    width = evaluate_expression(mark.width, {**fact_values(facts), **constants})
    millimetre = unit("mm")
    return millimetre.from_base(width) if isinstance(width, float) and millimetre is not None else None


def base_of(constant: Fixed) -> float:
    """Return a constant in base units; a bare number as it is."""
    known = unit(constant.unit) if constant.unit else None
    return known.to_base(Fraction(constant.value)) if known is not None else float(constant.value)
