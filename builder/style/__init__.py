"""Stage 5 beside working out: records -> what the style of the house objects to. `lint` is the entry point."""

from __future__ import annotations

from builder.formula import Fault
from builder.model.records import Record
from builder.model.records.procedure import Procedure
from builder.style.codes import CODES
from builder.style.manner import Manner, make_manner
from builder.style.steps import hedges, not_listed, second_actions
from builder.style.unused import unknown, unused
from builder.style.whole import late_dangers, nothing_measured, steps_of


def lint(record: Record, manner: Manner) -> tuple[Fault, ...]:
    """Return what is objected to in one record; of records other than procedures nothing is."""
    if not isinstance(record, Procedure):
        return ()
    found: list[Fault] = [*late_dangers(record, manner), *nothing_measured(record, manner)]
    for path, step in steps_of(record):
        found += [
            fault.under(path)
            for fault in (*hedges(step, manner), *second_actions(step, manner), *not_listed(step, manner))
        ]
    return tuple(found)


__all__ = ["CODES", "Manner", "lint", "make_manner", "unknown", "unused"]
