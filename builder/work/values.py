"""A procedure's steps -> the values worked out for them over the facts of their seams."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from builder.formula import Fault, Program, Value, names_in
from builder.formula.facts import fact_values
from builder.model.links import Catalogue
from builder.model.records.procedure import Procedure, Step
from builder.model.records.working import Working
from builder.model.reference import Ref, parse_reference
from builder.model.summary import Facts
from builder.model.work import StepValues, WorkedOut
from builder.work import codes
from builder.work.around import surroundings
from builder.work.naming import LEFT_OUT, Naming
from builder.work.told import step_facts
from builder.work.workings import Shop, faults_of, work_out

Place = tuple[Ref, int]
"""A seam and one of its segments, counted from 0."""


@dataclass(slots=True)
class _Step:
    """What the values of one step have named so far."""

    naming: Naming
    named: dict[Place, dict[str, Value]] = field(default_factory=dict)
    """By seam and segment."""


def work_values(
    record: Procedure, catalogue: Catalogue, shop: Shop
) -> tuple[StepValues, tuple[Fault, ...]]:
    """Work out the values of every step; a value may use the named answers of those before it in the same step."""
    values: dict[str, tuple[WorkedOut, ...]] = {}
    faults: list[Fault] = []
    for phase_at, phase in enumerate(record.phases):
        for at, step in enumerate(phase.steps):
            found: list[WorkedOut] = []
            state = _Step(shop.naming("step"))
            for value_at, working in enumerate(step.values):
                path = ("phases", phase_at, "steps", at, "values", value_at)
                for result in _work_value(step, working, state, catalogue, shop):
                    if isinstance(result, Fault):
                        faults.append(result.under(path))
                    else:
                        found.append(result)
            if found:
                values[step.key] = tuple(found)
    return values, tuple(faults)


def _work_value(
    step: Step, working: Working, state: _Step, catalogue: Catalogue, shop: Shop
) -> Iterator[WorkedOut | Fault]:
    program = shop.programs.get(working.calculator)
    if program is None:
        yield from state.naming.add_answers(working, program)
        return
    faults = faults_of(working, program, shop, state.naming)
    yield from faults
    yield from state.naming.add_answers(working, program)
    seam = _seam_of(step, working)
    if seam is None:
        yield Fault(codes.NO_SUCH_SEGMENT, "this step works on no one seam", "say which seam's facts to use with seam:")
        return
    summary = catalogue.find(seam)
    if summary is None or faults:
        return
    facts = summary.facts
    wanted = range(len(facts)) if working.segment is None else (working.segment - 1,)
    for at in wanted:
        if not 0 <= at < len(facts):
            yield Fault(codes.NO_SUCH_SEGMENT, f"{summary.title} has {len(facts)} segments, counted from 1",
                        "name one of them", path=("segment",))  # fmt: skip
        else:
            name = str(facts[at]["name"] or f"segment {at + 1}") if len(facts) > 1 else ""
            told = {**step_facts(step, summary, at, catalogue, shop), **surroundings(summary, catalogue, shop)}
            yield from _on_segment(working, program, (seam, at), told, name, state, shop)


def _on_segment(
    working: Working, program: Program, place: Place, facts: Facts, segment: str, state: _Step, shop: Shop
) -> Iterator[WorkedOut | Fault]:
    earlier = state.named.setdefault(place, {})
    # What was worked out for other segments alone is no answer here.
    elsewhere = dict.fromkeys(state.naming.added, LEFT_OUT)
    values = {**elsewhere, **fact_values(facts), **earlier}
    result = work_out(working, program, values, segment, shop)
    # What was written for this very seam and is not admitted is a mistake; what comes of an earlier value is none.
    if result.wrong is not None and not any(names_in(text) & earlier.keys() for text in working.with_.values()):
        yield result.wrong
        return
    earlier.update(result.named)
    if result.shown is not None and result.shown.answers:
        yield result.shown


def _seam_of(step: Step, working: Working) -> Ref | None:
    if working.seam is not None:
        return Ref("seam", working.seam)
    refs = [ref for text in step.on if (ref := parse_reference(text)) is not None and ref.kind == "seam"]
    return refs[0].record if len(refs) == 1 else None
