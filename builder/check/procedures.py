"""A procedure's summary -> what is wrong with its steps beside their order: strangers, methods, circles of reliance."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from builder.check import codes
from builder.check.law import Law, names_what_is_there
from builder.check.messages import also, name_of
from builder.check.strangers import methods, sheets, strange_subjects
from builder.model.near import a, listed
from builder.model.problem import Problem
from builder.model.reference import LONE_SUBJECTS, Ref
from builder.model.summary import Locate, StepSummary, Summary


def can_be_judged(procedure: Summary, law: Law) -> bool:
    """Whether all that the steps and the law name is known; what is not was told already, at its own place."""
    return law.is_whole and names_what_is_there(procedure, law.catalogue) and all(
        step.act in law.acts
        and all(ref.kind in LONE_SUBJECTS or law.catalogue.find(ref) is not None for ref in step.subjects)
        for step in procedure.steps
    )


def stranger_problems(procedure: Summary, law: Law, locate: Locate) -> Iterator[Problem]:
    """Check what each step is done on, what it keeps and by which method it joins."""
    for step in procedure.steps:
        for at in strange_subjects(law, step):
            act = law.acts[step.act]
            yield also(
                codes.ACT_ON_STRANGER, procedure, step, ("on", at), locate,
                f'"{step.act}" is not done on {a(step.subjects[at].kind)}',
                f"name {a(' or '.join(act.on))}, or choose another act",
            )  # fmt: skip
        if step.keep:
            yield from _kept(procedure, step, law, locate)
        if step.method:
            yield from _method(procedure, step, law, locate)


def _seams(step: StepSummary, law: Law) -> list[Ref]:
    return [ref for ref in step.subjects if ref.kind == "seam" and law.catalogue.find(ref) is not None]


def _all_there(names: Iterable[str], kind: str, law: Law) -> bool:
    return all(law.catalogue.find(Ref(kind, name)) is not None for name in names)


def _kept(procedure: Summary, step: StepSummary, law: Law, locate: Locate) -> Iterator[Problem]:
    seams = _seams(step, law)
    panels = sheets(law, seams)
    for at, name in enumerate(step.keep):
        if seams and name not in panels and _all_there({name, *panels}, "panel", law):
            yield also(
                codes.KEPT_STRANGER, procedure, step, ("keep", at), locate,
                f'"{name}" is no sheet of {" or ".join(name_of(seam.record, law) for seam in seams)}',
                f"name one of: {listed(panels)}",
            )  # fmt: skip


def _method(procedure: Summary, step: StepSummary, law: Law, locate: Locate) -> Iterator[Problem]:
    for seam in _seams(step, law):
        allowed = methods(law, seam)
        if step.method not in allowed and _all_there({step.method, *allowed}, "method", law):
            yield also(
                codes.METHOD_NOT_ALLOWED, procedure, step, ("method",), locate,
                f'"{step.method}" is not allowed on {name_of(seam.record, law)}',
                f"use one of: {listed(allowed)}" if allowed else "the seam allows none; ask the vehicle maker",
            )  # fmt: skip


def circle_problems(summaries: Mapping[Ref, Summary], locate: Locate) -> Iterator[Problem]:
    """Find procedures that rely on one another in a circle; each circle is told once, at its first member."""
    done: set[Ref] = set()
    for ref in sorted(summaries):
        circle = _circle_from(ref, summaries, done)
        if circle:
            way = " -> ".join(member.id for member in (*circle, circle[0]))
            yield Problem(
                codes.RELIES_IN_A_CIRCLE, locate(circle[0], ("relies_on",)),
                f"these procedures rely on one another in a circle: {way}", "take one of them out of relies_on",
            )  # fmt: skip


def _circle_from(start: Ref, summaries: Mapping[Ref, Summary], done: set[Ref]) -> list[Ref]:
    """Follow relies_on without recursion; what has been left behind once is free of circles or told of."""
    path: list[Ref] = []
    found: list[Ref] = []
    stack: list[tuple[Ref, bool]] = [(start, False)]
    while stack:
        ref, leaving = stack.pop()
        if leaving:
            path.pop()
            done.add(ref)
        elif ref in path:
            found = found or path[path.index(ref):]
        elif ref not in done and ref in summaries:
            path.append(ref)
            stack.append((ref, True))
            stack.extend((other, False) for other in summaries[ref].relations.get("relies_on", ()))
    return found
