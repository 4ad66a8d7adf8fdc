"""A text of a page in both systems of units."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple


class Said(NamedTuple):
    """What a page shows first, and what stands there once a reader has switched."""

    text: str
    other: str = ""
    """Empty where it is the same."""


@lru_cache(maxsize=8192)
def said(*parts: str | Said) -> Said:
    """Put a text together from parts, some of which may depend on the system."""
    texts = [Said(part) if isinstance(part, str) else part for part in parts]
    text = "".join(part.text for part in texts)
    if not any(part.other for part in texts):
        return Said(text)
    return Said(text, "".join(part.other or part.text for part in texts))


def joined(between: str, parts: list[str | Said]) -> Said:
    """Put parts in a row with a text between each two."""
    spread: list[str | Said] = []
    for part in parts:
        spread += (between, part)
    return said(*spread[1:])
