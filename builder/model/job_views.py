"""What the page where jobs are made shows before its script runs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from builder.model.drawings import Body
from builder.model.labelled import Link


@dataclass(frozen=True, slots=True)
class JobDesk:
    """The place where jobs are listed and made: a script fills it."""

    form: ClassVar[str] = "jobs"
    title: str
    bodies: tuple[Body, ...]
    """The body drawings that procedures are picked on."""
    examples: tuple[Link, ...]
    """Jobs that come with the book, each to its page; the script opens them as jobs."""
    anchor: str = "jobs"
