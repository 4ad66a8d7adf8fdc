"""Stage 4: whole-book checks. `compile_programs`, `expression_faults` and `check_procedure` are the entry points."""

from __future__ import annotations

from builder.check.binding import bind
from builder.check.brought import NOTHING, Brought
from builder.check.codes import CODES
from builder.check.formulas import compile_programs, expression_faults, problem_of_fault, program_facts
from builder.check.jobs import job_faults
from builder.check.law import Law, law_facts, make_law
from builder.check.lessons import lesson_faults
from builder.check.messages import problems_of
from builder.check.names import today
from builder.check.order import left_behind
from builder.check.planned import planning_faults
from builder.check.procedures import can_be_judged, circle_problems, stranger_problems
from builder.check.shells import drawing_faults
from builder.check.standing import standing_problems
from builder.check.taught import training_problems
from builder.check.told_job import anyones_rules, procedure_law
from builder.model.job_law import ProcedureLaw
from builder.model.links import Catalogue
from builder.model.problem import Problem
from builder.model.reference import Ref
from builder.model.summary import Locate, Summary


def circles(catalogue: Catalogue, locate: Locate) -> tuple[Problem, ...]:
    """Find procedures that rely on one another in a circle; without them the states they bring can be followed."""
    return tuple(circle_problems(_procedures(catalogue), locate))


def check_procedure(ref: Ref, law: Law, locate: Locate, follow: bool = True) -> tuple[Problem, ...]:
    """Judge one procedure by the law of the book; `follow` brings in what the procedures it relies on leave behind."""
    procedure = law.catalogue.summaries[ref]
    if not law.is_settled(procedure):
        procedure = today(procedure, law.catalogue.moved)
        if not can_be_judged(procedure, law):
            return tuple(stranger_problems(procedure, law, locate))
    brought = _brought(procedure, law) if follow else NOTHING
    bound = [bind(law, step) for step in procedure.steps]
    strange = stranger_problems(procedure, law, locate) if any(one.is_strange for one in bound) else ()
    return (*strange, *problems_of(procedure, law, locate, brought, bound))


def law_of(ref: Ref, law: Law) -> ProcedureLaw:
    """Return what the law says to the steps of a procedure that was judged, for jobs that put several together."""
    procedure = today(law.catalogue.summaries[ref], law.catalogue.moved)
    found = procedure_law(law, procedure, _brought(procedure, law))
    # Each procedure is asked about once when it is drawn: what was bound for its own subjects is of no more use.
    law.bound.clear()
    law.pieces.clear()
    return found


def _procedures(catalogue: Catalogue) -> dict[Ref, Summary]:
    return {ref: found for ref, found in catalogue.summaries.items() if ref.kind == "procedure"}


def _brought(procedure: Summary, law: Law) -> Brought:
    """Return what the procedures this one relies on leave behind.

    What is relied on is walked before what relies on it, from a stack: such chains may be as long as a book.
    """
    waiting = [*_relied_on(procedure, law)]
    while waiting:
        other = waiting[-1]
        unknown = [one for one in _relied_on(other, law) if not law.at_end.is_known(one.ref)]
        if unknown and not law.at_end.is_known(other.ref):
            waiting += unknown
            continue
        waiting.pop()
        at_end(other, law)
    return _left_behind(procedure, law)


def at_end(procedure: Summary, law: Law) -> Brought:
    """Return what a procedure leaves behind; of all that it relies on that is known."""
    def walked() -> Brought:
        own = today(procedure, law.catalogue.moved)
        return left_behind(law, own.steps, _left_behind(procedure, law), own.passes_on)

    return law.at_end.get(procedure.ref, walked)


def _left_behind(procedure: Summary, law: Law) -> Brought:
    """Return what is brought along; what lasts a day was of another day, and what one owes another may have settled."""
    ends = [at_end(other, law) for other in _relied_on(procedure, law)]
    held = {one: None for end in ends for one in end.held if law.states[one[0]].lasts == "job"}
    return Brought(tuple(held), tuple(debt for end in ends for debt in end.debts if debt[1] not in held))


def _relied_on(procedure: Summary, law: Law) -> list[Summary]:
    found = (law.catalogue.find(ref) for ref in procedure.relations.get("relies_on", ()))
    return [summary for summary in found if summary is not None]


__all__ = [
    "CODES", "Law", "anyones_rules", "at_end", "check_procedure", "circles", "compile_programs", "drawing_faults",
    "expression_faults", "job_faults", "law_facts", "law_of", "lesson_faults", "make_law", "planning_faults",
    "problem_of_fault", "program_facts", "standing_problems", "training_problems",
]  # fmt: skip
