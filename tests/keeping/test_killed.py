"""Builds that are killed at any moment: the book is the old one or the new one, whole, and the next build recovers."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.books.laying import TINY
from tests.keeping.killing import killed_at_random
from tests.keeping.walk import walk
from tests.site.building import CONTENT


@pytest.mark.slow
def test_killed_at_random_moments_the_book_is_whole_and_the_next_build_recovers(tmp_path: Path) -> None:
    old, new = killed_at_random(tmp_path, 6, 20261127)
    assert old + new == 6


@pytest.mark.soak
@pytest.mark.timeout(3600)
def test_two_hundred_kills(tmp_path: Path) -> None:
    old, new = killed_at_random(tmp_path, 200, 7)
    print(f"{old} times the old book stood there, {new} times the new one")
    assert old > 20
    assert new > 5


@pytest.mark.soak
@pytest.mark.timeout(7200)
@pytest.mark.parametrize("seed", range(5))
def test_five_hundred_edits(tmp_path: Path, seed: int) -> None:
    walked = walk(TINY, tmp_path, 100, 100 + seed)
    assert walked.published + walked.refused == 100
    assert walked.published > 60


@pytest.mark.soak
@pytest.mark.timeout(7200)
def test_edits_of_the_supplied_library(tmp_path: Path) -> None:
    walked = walk(CONTENT, tmp_path, 40, 5, processes=2)
    assert walked.published + walked.refused == 40
    assert walked.published > 20
