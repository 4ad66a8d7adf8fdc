"""What the page that shows one step at a time is handed of each procedure."""

from __future__ import annotations

from typing import NamedTuple

from builder.model.views import Step, Warning


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
