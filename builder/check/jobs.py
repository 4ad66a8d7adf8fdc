"""Jobs of the book -> what in them fits no procedure: steps of work that is not chosen, wrong sides, unknown measures.

That a procedure or a step exists at all is told where references are resolved; what is told there is told once.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.check import codes
from builder.formula import Fault
from builder.model.links import Catalogue
from builder.model.near import listed, offer
from builder.model.records import Record
from builder.model.records.job import Chosen, Job, Run
from builder.model.reference import Ref, RunStep, parse_run_step
from builder.model.summary import KEY, Path, Summary

BY_STEP = ("done", "readings", "releases", "notes_by_step", "photos")
"""Keys of a job whose own keys are steps."""
SIDES = ("left", "right", "")


def job_faults(shelf: Mapping[Ref, Record], catalogue: Catalogue) -> Iterator[tuple[Ref, Fault]]:
    """Check every job of the book."""
    for ref in sorted(shelf):
        job = shelf[ref]
        if isinstance(job, Job):
            for fault in _faults(job, catalogue):
                yield ref, fault


def _faults(job: Job, catalogue: Catalogue) -> Iterator[Fault]:
    runs: set[tuple[str, str]] = set()
    told: set[tuple[str, str]] = set()
    for path, run in _chosen(job):
        faults = [*_side(path, run, catalogue)]
        yield from faults
        name = _today(run.procedure, catalogue)
        runs.add((name, run.side or ""))
        # Steps of a run whose side is wrong would all say so again, and those of one that is unknown can be any run's.
        told |= {(name, side) for side in SIDES} if faults else set()
    is_known = all(catalogue.find(Ref("procedure", name)) is not None for name, _ in runs)
    for path, text in _steps(job):
        step = parse_run_step(text)
        procedure = catalogue.find(step.ref) if step is not None else None
        if step is None or procedure is None or step.key not in procedure.anchors:
            continue
        own = (procedure.ref.id, step.side)
        if own not in runs and is_known:
            if own not in told:
                yield _stranger(path, step, procedure, runs)
            told.add(own)
        elif step.measure:
            yield from _measure(path, step, procedure)


def _today(procedure: str, catalogue: Catalogue) -> str:
    found = catalogue.find(Ref("procedure", procedure))
    return found.ref.id if found is not None else procedure


def _chosen(job: Job) -> Iterator[tuple[Path, Run | Chosen]]:
    yield from ((("runs", at), run) for at, run in enumerate(job.runs))
    for at, finding in enumerate(job.findings):
        yield from ((("findings", at, "procedures", place), one) for place, one in enumerate(finding.procedures))


def _steps(job: Job) -> Iterator[tuple[Path, str]]:
    """Every step that a job names, and where."""
    for key in BY_STEP:
        yield from (((key, text, KEY), text) for text in getattr(job, key))
    for name in ("coupons", "findings"):
        for at, one in enumerate(getattr(job, name)):
            if one.step is not None:
                yield (name, at, "step"), one.step
    yield from ((("order", at), text) for at, text in enumerate(job.order))


def _side(path: Path, run: Run | Chosen, catalogue: Catalogue) -> Iterator[Fault]:
    """A procedure on panels of which a car has two is done on one side, any other on none."""
    procedure = catalogue.find(Ref("procedure", run.procedure))
    if procedure is None:
        return
    handed = catalogue.is_handed(procedure)
    if handed and run.side is None:
        message = f'"{procedure.title}" is done on one side of the car, and no side is said'
        yield Fault(codes.SIDE_THAT_DOES_NOT_FIT, message, "add side: left or side: right", path=(*path, "procedure"))
    elif not handed and run.side is not None:
        yield Fault(codes.SIDE_THAT_DOES_NOT_FIT, f'a car has only one of what "{procedure.title}" works on',
                    "leave side out", path=(*path, "side"))  # fmt: skip


def _stranger(path: Path, step: RunStep, procedure: Summary, runs: set[tuple[str, str]]) -> Fault:
    sides = sorted(side for name, side in runs if name == procedure.ref.id)
    where = f" on the {step.side}" if step.side else " without a side"
    do = "add the procedure to runs"
    if sides:
        near = " or ".join(f"{procedure.ref.id}@{side}#{step.key}" for side in sides)
        do = f"write {near}, or add the procedure to runs"
    return Fault(codes.STEP_OF_NO_RUN, f'the job does not do "{procedure.title}"{where}', do, path=path)


def _measure(path: Path, step: RunStep, procedure: Summary) -> Iterator[Fault]:
    measures = next(one.measures for one in procedure.steps if one.key == step.key)
    if step.measure not in measures:
        known = f"write one of: {listed(measures)}" if measures else "take it out: the step measures nothing"
        yield Fault(codes.UNKNOWN_MEASURE, f'the step "{step.key}" measures nothing called "{step.measure}"',
                    offer(step.measure, measures, known), path=path)  # fmt: skip
