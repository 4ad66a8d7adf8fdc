"""What the page of labels shows before its script runs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar


@dataclass(frozen=True, slots=True)
class LabelDesk:
    """The place where labels are chosen and set out on their sheet: a script fills it."""

    form: ClassVar[str] = "labels"
    title: str
    has_address: bool
    """Whether the book is on a server, so that labels can carry a code."""
    anchor: str = "labels"
