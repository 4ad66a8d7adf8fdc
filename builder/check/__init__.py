"""Stage 4: whole-book checks. `compile_programs`, `expression_faults` and `check_procedures` are the entry points."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.check.codes import CODES
from builder.check.formulas import compile_programs, expression_faults, problem_of_fault
from builder.check.law import Law, make_law
from builder.check.messages import problem_of
from builder.check.order import Held, judge, states_at_end
from builder.check.procedures import circle_problems, stranger_problems
from builder.model.problem import Problem
from builder.model.reference import Ref
from builder.model.summary import Locate, Summary


def check_procedures(law: Law, locate: Locate) -> Iterator[Problem]:
    """Judge every procedure by the law of the book."""
    procedures = {ref: found for ref, found in law.catalogue.summaries.items() if ref.kind == "procedure"}
    circles = tuple(circle_problems(procedures, locate))
    yield from circles
    at_end: dict[Ref, tuple[Held, ...]] = {}
    for ref in sorted(procedures):
        procedure = procedures[ref]
        yield from stranger_problems(procedure, law, locate)
        brought = () if circles else _brought(procedure, procedures, law, at_end)
        for breach in judge(law, procedure.steps, brought):
            yield problem_of(breach, procedure, law, locate)


def _brought(
    procedure: Summary, procedures: Mapping[Ref, Summary], law: Law, at_end: dict[Ref, tuple[Held, ...]]
) -> tuple[Held, ...]:
    """Return the states that the procedures this one relies on leave behind."""
    held: list[Held] = []
    for ref in procedure.relations.get("relies_on", ()):
        if ref not in procedures:
            continue
        if ref not in at_end:
            other = procedures[ref]
            at_end[ref] = states_at_end(law, other.steps, _brought(other, procedures, law, at_end))
        held += at_end[ref]
    return tuple(held)


__all__ = [
    "CODES", "Law", "check_procedures", "compile_programs", "expression_faults", "make_law", "problem_of_fault",
]  # fmt: skip
