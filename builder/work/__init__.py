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
from builder.model.records.procedure import Procedure
from builder.model.records.supporting import Supply
from builder.model.reference import Ref
from builder.model.shelf import of_kind
from builder.model.work import Worked
from builder.work.around import surroundings
from builder.work.codes import CODES
from builder.work.decisions import decided_in, decided_on, decision_faults
from builder.work.methods import check_method, sound_methods
from builder.work.planned import place_faults
from builder.work.plots import plotted
from builder.work.seams import plan_seam
from builder.work.take_faults import supply_faults
from builder.work.takeoff import take_off
from builder.work.values import work_values
from builder.work.workings import Shop, started

FAULTY = frozenset({"method", "procedure", "decision", "supply"})
"""The kinds in which working out can find a fault."""


def work(ref: Ref, record: Record, catalogue: Catalogue, shop: Shop) -> tuple[Worked, tuple[Fault, ...]]:
    """Work one record out. Faults carry the path of the field in this record."""
    if isinstance(record, Seam):
        summary = catalogue.summaries[ref]
        plan = plan_seam(record, summary.facts, surroundings(summary, catalogue, shop), shop)
        return Worked({}, seam=plan, decided=decided_on(ref, catalogue, shop) if shop.is_drawn else ()), ()
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
        return Worked({}), tuple(check_method(record, shop))
    if isinstance(record, Supply):
        return Worked({}), tuple(supply_faults(record, shop))
    if isinstance(record, Procedure):
        values, faults = work_values(record, catalogue, shop)
        decided = decided_in(record, catalogue, shop) if shop.is_drawn else {}
        return Worked(values, steps_decided=decided), (*faults, *place_faults(record, shop.planning))
    return Worked({}), ()


def methods(shop: Shop) -> Iterator[tuple[str, Method]]:
    """Return the methods that can be worked out, by name."""
    yield from sound_methods(tuple(ref.id for ref, _ in of_kind(shop.shelf, "method", Method)), shop)


__all__ = ["CODES", "FAULTY", "Shop", "methods", "take_off", "work"]
