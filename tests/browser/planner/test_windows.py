"""A window is told as impossible only where no order keeps it: every order of small jobs for one hand is tried."""

from __future__ import annotations

from itertools import pairwise, permutations
from random import Random

import pytest

from tests.browser.planner.asked import Planner, problem, task
from tests.browser.planner.rules import Problem, Rules

pytestmark = pytest.mark.slow


def tight(seed: int) -> Problem:
    """3 to 6 tasks for one hand, with lags, and windows that are often too short for what lies between."""
    dice = Random(seed)
    size = dice.randint(3, 6)
    tasks = [task(f"step-{at}", dice.randint(5, 40)) for at in range(size)]
    arcs, limits = [], []
    for after in range(1, size):
        for before in range(after):
            if dice.random() < 0.35:
                lag = dice.choice((0, 0, 20, 60))
                arcs.append([before, after, lag])
                if dice.random() < 0.5:
                    limits.append([before, after, lag + dice.choice((0, 10, 30, 60))])
            elif dice.random() < 0.1:
                limits.append([before, after, dice.choice((0, 10, 30, 60))])
    return problem(tasks, arcs=arcs, limits=limits, hands=1, seed=seed, passes=30)


def can_be(job: Problem) -> bool:
    """Whether some order lets every arc and window be kept, with starts as early or as late as they must be."""
    minutes = [one["minutes"] for one in job["tasks"]]
    fixed = [(before, after, minutes[before] + lag) for before, after, lag in job["arcs"]]
    fixed += [(after, before, -minutes[before] - most) for before, after, most in job["limits"]]
    for order in permutations(range(len(minutes))):
        place = {at: turn for turn, at in enumerate(order)}
        if all(place[before] < place[after] for before, after, _ in job["arcs"]):
            gaps = [*fixed, *((one, other, minutes[one]) for one, other in pairwise(order))]
            if settles(len(minutes), gaps):
                return True
    return False


def settles(count: int, gaps: list[tuple[int, int, int]]) -> bool:
    """Whether starts exist of which the second is at least so much after the first (Bellman and Ford)."""
    start = [0] * count
    for _ in range(count + 1):
        before = start.copy()
        for one, other, gap in gaps:
            start[other] = max(start[other], start[one] + gap)
        if start == before:
            return True
    return False


def test_what_is_told_as_impossible_is_so(planner: Planner) -> None:
    jobs = [tight(seed) for seed in range(600)]
    wrong = []
    possible = 0
    for seed, (job, plan) in enumerate(zip(jobs, planner.plans(jobs), strict=True)):
        assert Rules(job, plan).broken() == []
        is_possible = can_be(job)
        possible += is_possible
        if is_possible != (plan["impossible"] == []):
            wrong.append(seed)
    assert 100 < possible < 550
    assert wrong == []
