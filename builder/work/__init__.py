"""Stage 5: records -> what calculators make of them. `work` is the entry point."""

from __future__ import annotations

from collections.abc import Iterator

from builder.formula import Fault
from builder.model.links import Catalogue
from builder.model.records import Record
from builder.model.records.body import Panel, Seam
from builder.model.records.calculator import Calculator
from builder.model.records.decision import Decision
from builder.model.records.law import Method
from builder.model.records.procedure import Procedure, Step
from builder.model.records.working import Working
from builder.model.reference import Ref, parse_reference
from builder.model.work import Worked, WorkedOut
from builder.work import codes
from builder.work.codes import CODES
from builder.work.decisions import decided_in, decided_on, decision_faults
from builder.work.plots import plotted
from builder.work.seams import plan_seam
from builder.work.told import step_facts
from builder.work.workings import Shop, faults_of, started, work_out

FAULTY = frozenset({"seam", "method", "procedure", "decision"})
"""The kinds in which working out can find a fault."""


def work(ref: Ref, record: Record, catalogue: Catalogue, shop: Shop) -> tuple[Worked, tuple[Fault, ...]]:
    """Work one record out. Faults carry the path of the field in this record."""
    if isinstance(record, Seam):
        plan, faults = plan_seam(record, catalogue.summaries[ref].facts, shop)
        return Worked({}, seam=plan, decided=decided_on(ref, catalogue, shop) if shop.is_drawn else ()), faults
    if isinstance(record, Panel):
        return Worked({}, decided=decided_on(ref, catalogue, shop) if shop.is_drawn else ()), ()
    if isinstance(record, Decision):
        return Worked({}), decision_faults(ref.id, record, shop)
    if isinstance(record, Calculator):
        program = shop.programs.get(ref.id) if shop.is_drawn else None
        if program is None:
            return Worked({}), ()
        charts, measures = plotted(program)
        return Worked({}, started=started(program, shop.usual), charts=charts, measured=measures), ()
    if isinstance(record, Method):
        return Worked({}), tuple(_plan_faults(record, shop))
    if isinstance(record, Procedure):
        return _work_procedure(record, catalogue, shop)
    return Worked({}), ()


def _plan_faults(method: Method, shop: Shop) -> Iterator[Fault]:
    for at, working in enumerate(method.plan):
        program = shop.programs.get(working.calculator)
        if program is not None:
            yield from (fault.under(("plan", at)) for fault in faults_of(working, program, shop))


def _work_procedure(record: Procedure, catalogue: Catalogue, shop: Shop) -> tuple[Worked, tuple[Fault, ...]]:
    values: dict[str, tuple[WorkedOut, ...]] = {}
    faults: list[Fault] = []
    for phase_at, phase in enumerate(record.phases):
        for at, step in enumerate(phase.steps):
            found: list[WorkedOut] = []
            for value_at, working in enumerate(step.values):
                path = ("phases", phase_at, "steps", at, "values", value_at)
                for result in _work_value(step, working, catalogue, shop):
                    if isinstance(result, Fault):
                        faults.append(result.under(path))
                    else:
                        found.append(result)
            if found:
                values[step.key] = tuple(found)
    decided = decided_in(record, catalogue, shop) if shop.is_drawn else {}
    return Worked(values, steps_decided=decided), tuple(faults)


def _work_value(step: Step, working: Working, catalogue: Catalogue, shop: Shop) -> Iterator[WorkedOut | Fault]:
    program = shop.programs.get(working.calculator)
    if program is None:
        return
    faults = faults_of(working, program, shop, "step")
    yield from faults
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
            told = step_facts(step, summary, at, catalogue, shop)
            yield work_out(working, program, told, name, shop)


def _seam_of(step: Step, working: Working) -> Ref | None:
    if working.seam is not None:
        return Ref("seam", working.seam)
    refs = [ref for text in step.on if (ref := parse_reference(text)) is not None and ref.kind == "seam"]
    return refs[0].record if len(refs) == 1 else None


__all__ = ["CODES", "FAULTY", "Shop", "work"]
