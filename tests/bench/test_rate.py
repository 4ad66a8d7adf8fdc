"""Every step of the library is judged by the rules of the book, a hundred thousand of them a second."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.bench.generator import generate
from tests.bench.rate import rate
from tests.bench.table import CONTENT, LEAST_RATE

COPIES = 600
"""With fewer, what is looked up stays in the processor's cache and what is judged does not: that compares caches."""
FLOORS = {"known": 12.0, "again": 8.0, "first": 25.0}
"""So many times as long as looking each step and its subjects up once may it take where the machine is slow or busy:
what it does slower is in both. Of the supplied library all that is looked up lies in the cache; and the first pass
makes what the looking up does not, so between machines it moves most."""


def _is_fast(found: float, floor: float, name: str) -> bool:
    return found >= min(LEAST_RATE, floor / FLOORS[name])


@pytest.mark.alone
@pytest.mark.slow
def test_known_steps_are_judged_in_time() -> None:
    supplied = rate(CONTENT)
    print(supplied)
    assert supplied.steps > 1000
    assert _is_fast(supplied.again, supplied.floor, "known")


@pytest.mark.soak
@pytest.mark.alone
@pytest.mark.slow
def test_steps_are_judged_in_time_where_there_are_many(tmp_path: Path) -> None:
    copied = rate(generate(CONTENT, tmp_path / "content", COPIES, with_panels=True))
    print(copied)
    assert copied.steps > COPIES
    assert _is_fast(copied.first, copied.floor, "first")
    assert _is_fast(copied.again, copied.floor, "again")
