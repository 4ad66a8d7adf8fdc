"""Near names for a misspelt one, to be offered in a problem's `do` line."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches

MOST = 3


def near_names(word: str, names: Iterable[str]) -> tuple[str, ...]:
    """Return at most three of `names` that are spelt much like `word`, nearest first."""
    return tuple(get_close_matches(word[:80], sorted(set(names)), n=MOST, cutoff=0.72))


def offer(word: str, names: Iterable[str], otherwise: str) -> str:
    """Return `write x, the nearest name` or, where nothing is near, what to do instead."""
    near = near_names(word, names)
    if not near:
        return otherwise
    if len(near) == 1:
        return f"write {near[0]}, the nearest name"
    return f"write one of the nearest names: {', '.join(near)}"


def a(noun: str) -> str:
    """Return a noun behind its article: `a seam`, `an opening`."""
    return f"an {noun}" if noun[:1] in "aeio" else f"a {noun}"


def listed(names: Iterable[str], most: int = 12) -> str:
    """Return names as a short readable list."""
    every = sorted(names)
    return ", ".join(every[:most]) + (f" and {len(every) - most} more" if len(every) > most else "")
