"""What the page that shows one step at a time has before its script runs, and what it is handed of each procedure."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar, NamedTuple

from builder.model.labelled import Link

if TYPE_CHECKING:
    from builder.model.views import Step, Warning


@dataclass(frozen=True, slots=True)
class Bay:
    """The place where a script shows one step after the other."""

    form: ClassVar[str] = "bay"
    title: str
    planner: tuple[str, ...]
    """Scripts that the order of a job is worked out with, loaded once the first step is shown."""
    drawing: tuple[str, ...]
    """Scripts that the welds of a seam are drawn with, loaded at the first step that makes some."""
    ways: tuple[Link, ...]
    """Where the same is read without a script."""
    anchor: str = "bay"


class BayStep(NamedTuple):
    """One step, as its procedure's page shows it."""

    step: Step
    draws: str
    """How the welds it makes are drawn; empty where it makes none."""


class BayProcedure(NamedTuple):
    """A procedure as the bay is handed it."""

    path: str
    """Of its page, from which the ways in its steps lead."""
    banner: str
    steps: tuple[BayStep, ...]
    warnings: tuple[Warning, ...]
    """Each danger of its steps once, in full, with ways that lead from the book's own folder."""
