"""A content folder -> how many steps a second are judged by the rules of the book, on one core.

Counted is all that checking a procedure takes once everything is read and linked: what its steps name, what each is
done on, and every rule. The processor's own time is taken, so that what else the machine does is left out.
"""

from __future__ import annotations

import gc
import time
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import NamedTuple

from builder.check import Law, check_procedure, make_law
from builder.model.files import Layer
from builder.model.reference import Ref
from builder.model.summary import Locate, StepSummary
from builder.order import Order
from builder.passes import Way

FIRST = 2
"""A first pass is made so often, each by a law that has said nothing yet, and the fastest taken."""
AGAIN = 5
"""A second pass is made so often and the fastest taken: over a small library it lasts a millisecond."""


class Rate(NamedTuple):
    """Steps a second."""

    steps: int
    first: float
    """With what the law says to each step still to be worked out."""
    again: float
    """With that known."""
    floor: float
    """Of looking each step and its subjects up once in a dictionary, first pass: what no check could do without."""


def rate(content: Path) -> Rate:
    """Judge every procedure of a content folder and take the time, without the cycle collector, as the program runs."""
    gc.disable()
    try:
        return _rate(content)
    finally:
        gc.enable()


def _rate(content: Path) -> Rate:
    way = Way(Order((Layer(content, "content"),)))
    gathered = way.gather(way.discover())
    catalogue = way.connect(gathered)
    refs = sorted(ref for ref in catalogue.summaries if ref.kind == "procedure")
    steps = [step for ref in refs for step in catalogue.summaries[ref].steps]
    least = _seconds(lambda: _look_up(steps))
    laws = [make_law(gathered.shelf, catalogue) for _ in range(FIRST)]
    first = min(_seconds(partial(judge_all, refs, law, way.places.locate)) for law in laws)
    law = laws[-1]
    again = min(_seconds(lambda: judge_all(refs, law, way.places.locate)) for _ in range(AGAIN))
    return Rate(len(steps), len(steps) / first, len(steps) / again, len(steps) / least)


def judge_all(refs: Sequence[Ref], law: Law, locate: Locate) -> None:
    """Check every procedure; what is right says nothing, so a problem would be time spent on words."""
    for ref in refs:
        problems = check_procedure(ref, law, locate)
        assert problems == (), problems[0]


def _look_up(steps: Sequence[StepSummary]) -> None:
    seen: dict[object, int] = {}
    for step in steps:
        seen[step[2:]] = seen.get(step[2:], 0) + 1
        for subject in step.subjects:
            seen[subject] = seen.get(subject, 0) + 1


def _seconds(work: Callable[[], None]) -> float:
    started = time.process_time()
    work()
    return time.process_time() - started
