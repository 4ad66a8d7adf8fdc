"""What goes through every page, record or stop of something: a share of it in `make test`, all of it in `make soak`.

The share is spread evenly and is always the same, so a test that fails fails again. `SEAMBOOK_SOAK=1` asks for all.
"""

from __future__ import annotations

import os
from collections.abc import Sequence
from typing import TypeVar
from zlib import crc32

T = TypeVar("T")


def is_soak() -> bool:
    """Whether everything is gone through."""
    return os.environ.get("SEAMBOOK_SOAK") == "1"


def share(items: Sequence[T], every: int, first: int = 0) -> list[T]:
    """Return every so many-th of several things from one on; in a soak all of them."""
    return list(items) if is_soak() else list(items[first % every::every])


def examples(count: int, every: int = 3) -> int:
    """Return how many made-up examples of a property are tried: every so many-th of what a soak tries."""
    return count if is_soak() else -(-count // every)


def first_of(name: str, every: int, count: int) -> int:
    """Return from which place on a test of this name takes its share, so that tests over one list take others."""
    return crc32(name.encode()) % max(1, min(every, count))
