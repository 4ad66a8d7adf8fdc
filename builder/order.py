"""What a build is asked for, as one value."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from builder.model.files import Layer
from builder.model.records.settings import ShopSettings
from builder.warm import Warm

Progress = Callable[[str, int, int], None]
"""Told what is being done, how many are done, and of how many."""


def no_progress(_what: str, _done: int, _of: int) -> None:
    """Say nothing."""


class NotInBookError(Exception):
    """What was asked for by its id is not in the book; the message names the id and what may have been meant."""


@dataclass(frozen=True, slots=True)
class Order:
    """What is asked for."""

    layers: tuple[Layer, ...]
    templates: Path = Path()
    target: Path | None = None
    """Where the book goes; None checks only."""
    name: str | None = None
    """The shop's own name, in place of the book's."""
    strict: bool = False
    processes: int | None = None
    progress: Progress = no_progress
    shop: ShopSettings | None = None
    """What the shop says of itself; it outranks the layers' own words."""
    pocket: Path | None = None
    """Where the copy of the book in one file goes, if one is asked for."""
    only: tuple[str, ...] = ()
    """Ids of what the copy holds, with what they lead to; none means all."""
    whole: bool = False
    """Whether the whole book is made to print, too, however large it is."""
    kept: Path | None = None
    """Where results are kept for the next build; None keeps nothing."""
    anew: bool = False
    """Whether everything is made anew, whatever was kept."""
    warm: Warm | None = None
    """What a process keeps that builds again and again."""
