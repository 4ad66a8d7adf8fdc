"""A method -> what is wrong with its plan; and on one segment of a seam what its plan, limits and places come to."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.formula import TRUTH, Fault, Kind, NoAnswer, Value, check_expression, evaluate_expression, names_in, number
from builder.formula.facts import fact_values
from builder.formula.kinds import TEXT
from builder.formula.turns import turns_of
from builder.formula.units import unit
from builder.model.records.law import Limit, Mark, Method, WeldPlaces
from builder.model.reference import Ref
from builder.model.summary import Facts
from builder.model.work import MethodPlan, Remark, WeldRow
from builder.work.naming import Naming, fixed_values, named_answers
from builder.work.take_faults import takes_faults
from builder.work.workings import Result, Shop, faults_of, work_out

LENGTH = "length"


def check_method(method: Method, shop: Shop) -> Iterator[Fault]:
    """Check its workings one after the other, then the formulas that may use all their answers."""
    naming = shop.naming()
    yield from naming.add_fixed(method.fixed)
    for at, working in enumerate(method.plan):
        program = shop.programs.get(working.calculator)
        faults = faults_of(working, program, shop, naming) if program is not None else ()
        yield from (fault.under(("plan", at)) for fault in faults)
        yield from (fault.under(("plan", at)) for fault in naming.add_answers(working, program))
        if program is not None:
            yield from (fault.under(("plan", at)) for fault in takes_faults(working, program, shop.shelf))
    for at, limit in enumerate(method.limits):
        yield from _checked(limit.if_, naming, TRUTH, ("limits", at, "if"))
    if method.places is not None:
        yield from _check_places(method.places, naming)
    if method.mark is not None:
        # A mark's own fixed values are named there alone, and may go by a name that is used elsewhere.
        own = Naming({name: kind for name, kind in naming.facts.items() if name not in method.mark.fixed},
                     {name: kind for name, kind in naming.added.items() if name not in method.mark.fixed},
                     naming.broken)  # fmt: skip
        yield from (fault.under(("mark",)) for fault in own.add_fixed(method.mark.fixed))
        yield from _checked(method.mark.width, own, number("mm"), ("mark", "width"))
        for name, drawn in (("stepped", method.mark.stepped), ("staggered", method.mark.staggered)):
            if drawn is not None:
                yield from _checked(drawn, own, TRUTH, ("mark", name))


def _check_places(places: WeldPlaces, naming: Naming) -> Iterator[Fault]:
    yield from _checked(places.count, naming, number(), ("places", "count"))
    yield from _checked(places.first, naming, number("mm"), ("places", "first"))
    yield from _checked(places.spacing, naming, number("mm"), ("places", "spacing"))
    if places.order is not None:
        yield from _checked(places.order, naming, TEXT, ("places", "order"))


def _checked(text: str, naming: Naming, wanted: Kind, path: tuple[str | int, ...]) -> Iterator[Fault]:
    yield from (fault.under(path) for fault in check_expression(text, naming.over(text), wanted).faults)


def plan_method(id_: str, method: Method, facts: Facts, segment: str, shop: Shop) -> MethodPlan:
    """Work a method out on a segment; the method is one that `check_method` found without fault."""
    values, results = work_plan(method, facts, segment, shop)
    worked = [
        result.shown._replace(at=at)
        for at, result in enumerate(results) if result.shown is not None and result.shown.answers
    ]  # fmt: skip
    moved, is_moved = moved_by_length(method, shop)
    held, waiting = [], []
    for at, limit in enumerate(method.limits):
        holds = evaluate_expression(limit.if_, values)
        remark = _remark(limit, at, unjudged=isinstance(holds, NoAnswer))
        if holds is not False:
            held.append(remark)
        elif names_in(limit.if_) & moved:
            waiting.append(remark)
    calculators = dict.fromkeys(shop.programs[working.calculator].id for working in method.plan)
    mark = method.mark
    return MethodPlan(
        id_, tuple(held), tuple(worked), _mark_width(mark, values), mark.say if mark else "",
        row_of(method.places, values), has_stepped_holes=_is_drawn(mark.stepped if mark else None, values),
        is_staggered=_is_drawn(mark.staggered if mark else None, values), waiting=tuple(waiting), is_moved=is_moved,
        calculators=tuple(calculators),
    )  # fmt: skip


def work_plan(
    method: Method, facts: Facts, segment: str, shop: Shop
) -> tuple[dict[str, Value], tuple[Result, ...]]:
    """Work a method's workings out, one after the other; return all that is named at the end, and each result."""
    values: dict[str, Value] = {**fact_values(facts), **fixed_values(method.fixed)}
    results: list[Result] = []
    for working in method.plan:
        results.append(work_out(working, shop.programs[working.calculator], values, segment, shop))
        values.update(results[-1].named)
    return values, tuple(results)


def _is_drawn(condition: str | None, values: Mapping[str, Value]) -> bool:
    """Whether it surely holds; what cannot be judged is not drawn."""
    return condition is not None and evaluate_expression(condition, values) is True


def _remark(limit: Limit, at: int, *, unjudged: bool) -> Remark:
    return Remark(limit.level, limit.say, limit.because, unjudged, limit.source, at)


def moved_by_length(method: Method, shop: Shop) -> tuple[frozenset[str], bool]:
    """Return every name whose value may change with the segment's length, the length too; and whether any working's."""
    moved, is_moved = {LENGTH}, False
    for working in method.plan:
        if any(names_in(text) & moved for text in (*working.with_.values(), *filter(None, (working.when,)))):
            is_moved = True
            moved.update(named_answers(working, shop.programs[working.calculator], {}))
    return frozenset(moved), is_moved


def _mark_width(mark: Mark | None, values: Mapping[str, Value]) -> float | None:
    """Return the weld's drawn width in mm; None where it is unknown."""
    if mark is None:
        return None
    return _millimetres(evaluate_expression(mark.width, {**values, **fixed_values(mark.fixed)}))


def row_of(places: WeldPlaces | None, values: Mapping[str, Value]) -> WeldRow | None:
    """Return where the welds stand; None where anything that is needed for it has no answer."""
    if places is None:
        return None
    length = _millimetres(values[LENGTH])
    count = evaluate_expression(places.count, values)
    first, spacing = (_millimetres(evaluate_expression(text, values)) for text in (places.first, places.spacing))
    if not isinstance(count, float) or count < 1 or length is None or first is None:
        return None
    if count > 1 and not spacing:
        return None  # several welds on one place are no row
    order = evaluate_expression(places.order, values) if places.order is not None else ""
    turns = turns_of(order) if isinstance(order, str) else ()
    return WeldRow(length, round(count), first, spacing or 0.0, turns if len(turns) == round(count) else ())


def _millimetres(value: Value) -> float | None:
    millimetre = unit("mm")
    is_number = isinstance(value, float) and not isinstance(value, bool)
    return millimetre.from_base(value) if is_number and millimetre is not None else None  # type: ignore[arg-type]


def sound_methods(ids: tuple[str, ...], shop: Shop) -> Iterator[tuple[str, Method]]:
    """Return the methods whose records are sound; what is wrong with others was told there."""
    for id_ in ids:
        record = shop.shelf.get(Ref("method", id_))
        if isinstance(record, Method) and _is_sound(id_, record, shop):
            yield id_, record


def _is_sound(id_: str, method: Method, shop: Shop) -> bool:
    def is_sound() -> bool:
        is_whole = all(working.calculator in shop.programs for working in method.plan)
        return is_whole and not any(check_method(method, shop))

    return shop.sound.get(id_, is_sound)
