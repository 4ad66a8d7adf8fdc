"""Stage 4: whole-book checks. `compile_programs`, `expression_faults` and `check_procedure` are the entry points."""

from __future__ import annotations

from builder.check.codes import CODES
from builder.check.formulas import compile_programs, expression_faults, problem_of_fault
from builder.check.law import Law, make_law
from builder.check.messages import problem_of
from builder.check.names import today
from builder.check.order import Held, judge, states_at_end
from builder.check.procedures import can_be_judged, circle_problems, stranger_problems
from builder.model.links import Catalogue
from builder.model.problem import Problem
from builder.model.reference import Ref
from builder.model.summary import Locate, Summary


def circles(catalogue: Catalogue, locate: Locate) -> tuple[Problem, ...]:
    """Find procedures that rely on one another in a circle; without them the states they bring can be followed."""
    return tuple(circle_problems(_procedures(catalogue), locate))


def check_procedure(ref: Ref, law: Law, locate: Locate, follow: bool = True) -> tuple[Problem, ...]:
    """Judge one procedure by the law of the book; `follow` brings in what the procedures it relies on leave behind."""
    procedure = today(law.catalogue.summaries[ref], law.catalogue.moved)
    if not can_be_judged(procedure, law):
        return tuple(stranger_problems(procedure, law, locate))
    brought = _brought(procedure, law) if follow else ()
    return (
        *stranger_problems(procedure, law, locate),
        *(problem_of(breach, procedure, law, locate) for breach in judge(law, procedure.steps, brought)),
    )


def _procedures(catalogue: Catalogue) -> dict[Ref, Summary]:
    return {ref: found for ref, found in catalogue.summaries.items() if ref.kind == "procedure"}


def _brought(procedure: Summary, law: Law) -> tuple[Held, ...]:
    """Return the states that the procedures this one relies on leave behind."""
    held: list[Held] = []
    for ref in procedure.relations.get("relies_on", ()):
        other = law.catalogue.find(ref)
        if other is not None:
            if other.ref not in law.at_end:
                steps = today(other, law.catalogue.moved).steps
                law.at_end[other.ref] = states_at_end(law, steps, _brought(other, law))
            held += law.at_end[other.ref]
    return tuple(held)


__all__ = [
    "CODES", "Law", "check_procedure", "circles", "compile_programs", "expression_faults", "make_law",
    "problem_of_fault",
]  # fmt: skip
