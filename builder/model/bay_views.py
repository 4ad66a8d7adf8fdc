"""What the page that shows one step at a time has before its script runs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from builder.model.labelled import Link


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
