"""A procedure as a whole -> what the house style objects to: dangers told late, nothing measured."""

from __future__ import annotations

from collections.abc import Iterator

from builder.formula import Fault
from builder.model.near import listed
from builder.model.records.procedure import Procedure, Step
from builder.style import codes
from builder.style.manner import Manner

Path = tuple[str | int, ...]


def steps_of(procedure: Procedure) -> Iterator[tuple[Path, Step]]:
    """Every step with the path to it."""
    for phase_at, phase in enumerate(procedure.phases):
        for at, step in enumerate(phase.steps):
            yield ("phases", phase_at, "steps", at), step


def late_dangers(procedure: Procedure, manner: Manner) -> Iterator[Fault]:
    """First steps of an act that do not name the hazard that begins with it."""
    for danger in manner.dangers:
        first = next(((path, step) for path, step in steps_of(procedure) if step.act in danger.acts), None)
        if first is None:
            continue
        path, step = first
        if not set(danger.hazard) & set(step.hazards):
            message = f"this is the first step of the act {step.act}, and it names no hazard of {listed(danger.hazard)}"
            do = f"add hazards: [{danger.hazard[0]}], or the one of them that fits"
            yield Fault(codes.LATE_DANGER, message, do, path=(*path, "act"), level="warning")


def nothing_measured(procedure: Procedure, manner: Manner) -> Iterator[Fault]:
    """A procedure that does one of the acts named and records no reading."""
    if manner.measured is None:
        return
    steps = [*steps_of(procedure)]
    first = next(((path, step) for path, step in steps if step.act in manner.measured.acts), None)
    if first is not None and not any(step.measure for _, step in steps):
        path, step = first
        message = f"{step.act} in a procedure that records no reading: {manner.measured.because}"
        yield Fault(codes.NOT_MEASURED, message, "record what is read, under measure of the step that reads it",
                    path=(*path, "act"), level="warning")  # fmt: skip
