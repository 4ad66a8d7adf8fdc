"""What the pages on which people learn show before their scripts run."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from builder.model.labelled import Link


@dataclass(frozen=True, slots=True)
class TrainingDesk:
    """The place where a script asks questions, keeps what people have learnt, or lays out a breakdown sheet."""

    form: ClassVar[str] = "training"
    title: str
    desk: str
    """Its id, by which the script finds it."""
    without: str
    """What it is for, and what reads where no script runs."""
    lesson: str = ""
    """The lesson that it belongs to."""
    ways: tuple[Link, ...] = ()
    """To what reads without a script."""
    anchor: str = ""
