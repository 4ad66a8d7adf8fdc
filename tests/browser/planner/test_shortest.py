"""How near the planner comes to the shortest plan there is, for jobs small enough to try everything."""

from __future__ import annotations

from random import Random

import pytest

from tests.browser.planner.asked import Planner, problem, task
from tests.browser.planner.exact import Exact
from tests.browser.planner.rules import Problem
from tests.sweeps import examples

pytestmark = pytest.mark.slow
JOBS = examples(200)


def small(seed: int) -> Problem:
    """Up to ten tasks for one or two hands; every other job has lags, and every third has places."""
    dice = Random(seed)
    size, hands = dice.randint(4, 10), dice.randint(1, 2)
    has_lags, has_places = seed % 2 == 0, seed % 3 == 0
    tasks = [
        task(f"step-{at}", dice.randint(1, 60), hands=dice.choice((1, 1, 1, hands)),
             places=[dice.choice(("lift", "booth"))] if has_places and dice.random() < 0.4 else [])
        for at in range(size)
    ]  # fmt: skip
    density = dice.choice((0.1, 0.2, 0.35))
    arcs = [
        [before, after, dice.choice((0, 10, 30, 90)) if has_lags else 0]
        for after in range(size) for before in range(after) if dice.random() < density
    ]  # fmt: skip
    return problem(tasks, arcs=arcs, hands=hands, places={"lift": 1, "booth": 1}, seed=seed)


def test_small_jobs_are_planned_nearly_as_short_as_can_be(planner: Planner) -> None:
    jobs = [small(seed) for seed in range(JOBS)]
    for job in jobs:
        job["passes"] = planner.passes_for(len(job["tasks"]))
    over = []
    for job, plan in zip(jobs, planner.plans(jobs), strict=True):
        least = Exact(job).finish()
        assert plan["finish"] >= least, "the search that tries everything has missed a plan"
        over.append((plan["finish"] - least) / least)
    assert sum(over) / JOBS <= 0.005, over
    assert max(over) <= 0.05, over
