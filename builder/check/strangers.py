"""A step -> whether it is done on what its act is for, keeps sheets that are there, and joins as it may.

Asked of every step that differs, so it says yes or no; what is wrong is put into words in `procedures`.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import get_args

from builder.check.law import Law
from builder.model.records.law import SubjectKind
from builder.model.reference import Ref
from builder.model.summary import StepSummary

SUBJECT_KINDS = frozenset(get_args(SubjectKind))


def is_strange(law: Law, step: StepSummary) -> bool:
    """Whether something about a step may be wrong by itself, whatever comes before and after it."""
    if any(True for _ in strange_subjects(law, step)):
        return True
    if not (step.keep or step.method):
        return False
    seams = [ref for ref in step.subjects if ref.kind == "seam"]
    if step.keep and seams and not sheets(law, seams).issuperset(step.keep):
        return True
    return bool(step.method) and any(step.method not in methods(law, seam) for seam in seams)


def strange_subjects(law: Law, step: StepSummary) -> Iterator[int]:
    """Yield the positions of subjects that the act is not done on."""
    act = law.acts.get(step.act)
    if act is not None:
        for at, ref in enumerate(step.subjects):
            if ref.kind not in act.on and ref.kind in SUBJECT_KINDS:
                yield at


def sheets(law: Law, seams: list[Ref]) -> set[str]:
    """Return the panels that seams join."""
    return {ref.id for seam in seams for ref in law.relations.related(seam, "panels")}


def methods(law: Law, seam: Ref) -> list[str]:
    """Return the methods that a seam's record allows, best first."""
    return [ref.id for ref in law.relations.related(seam, "methods")]
