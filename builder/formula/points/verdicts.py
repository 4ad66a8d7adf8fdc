"""A point's deviation -> what is said of it, in the record's words. `point_fit.js` says the same."""

from __future__ import annotations

from collections.abc import Callable
from typing import Protocol

from builder.model.records.points import Points


class Judged(Protocol):
    """What a verdict is made of."""

    @property
    def is_beyond(self) -> bool: ...  # noqa: D102
    @property
    def is_doubtful(self) -> bool: ...  # noqa: D102
    @property
    def is_first(self) -> bool: ...  # noqa: D102
    @property
    def alone(self) -> float | None: ...  # noqa: D102
    @property
    def rest(self) -> float | None: ...  # noqa: D102


def verdict(record: Points, row: Judged, shown: Callable[[float], str]) -> str:
    """Say whether the point is within the tolerance, and of a doubtful one why; `shown` writes a length."""
    said = record.verdicts
    word = said.beyond if row.is_beyond else said.within
    if not row.is_doubtful:
        return word
    why = f"{said.alone} {shown(row.alone or 0.0)}, {said.rest} {shown(row.rest or 0.0)}"
    first = f" {said.first}" if row.is_first else ""
    return f"{word}. {said.doubtful}: {why}.{first}"
