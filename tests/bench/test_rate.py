"""Every step of the library is judged by the rules of the book, a hundred thousand of them a second."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.bench.generator import generate
from tests.bench.rate import rate
from tests.bench.table import CONTENT, LEAST_RATE

COPIES = 600
"""With fewer, what is looked up stays in the processor's cache and what is judged does not: that compares caches."""
FLOORS = {"supplied, again": 8.0, "copies, first": 25.0, "copies, again": 8.0}
"""So many times as long as looking each step and its subjects up once may it take where the machine is slow or busy:
what it does slower is in both. The first pass makes what the looking up does not, so between machines it moves most."""


def _is_fast(found: float, floor: float, name: str) -> bool:
    return found >= min(LEAST_RATE, floor / FLOORS[name])


@pytest.mark.alone
@pytest.mark.slow
def test_steps_are_judged_in_time(tmp_path: Path) -> None:
    supplied, copied = rate(CONTENT), rate(generate(CONTENT, tmp_path / "content", COPIES, with_panels=True))
    print(supplied, copied)
    assert copied.steps > COPIES
    assert _is_fast(supplied.again, copied.floor, "supplied, again")
    assert _is_fast(copied.first, copied.floor, "copies, first")
    assert _is_fast(copied.again, copied.floor, "copies, again")
