"""A job of 600 tasks is planned in under 50 ms by a processor four times slower than this one, in Chromium."""

from __future__ import annotations

from statistics import median

import pytest

from tests.browser.planner.asked import Planner
from tests.browser.planner.recipes import Recipe, made
from tests.browser.planner.rules import Rules

pytestmark = [pytest.mark.slow, pytest.mark.alone]
TIMED = """([problem, times]) => Array.from({length: times}, () => {
  const start = performance.now();
  seambook.schedule.plan(problem);
  return performance.now() - start;
})"""
LARGE = Recipe(
    seed=1, size=600, chains=15, hands=2, hours=1, limits=10, attended=10, traits=20, places=20, split=10, longest=45
)
ROUNDS, RUNS = 8, 9
"""On a machine that is busy with other things a round may be slow; one that is not says what the planner needs."""


def test_six_hundred_tasks_are_planned_at_once(planner: Planner) -> None:
    problem = made(LARGE) | {"passes": planner.passes_for(LARGE.size)}
    assert Rules(problem, planner.plan(problem)).broken() == []
    planner.reload()
    session = planner.page.context.new_cdp_session(planner.page)
    session.send("Emulation.setCPUThrottlingRate", {"rate": 4})
    first: list[float] = planner.page.evaluate(TIMED, [problem, 1])
    planner.page.evaluate(TIMED, [problem, 10])
    medians: list[float] = []
    while len(medians) < ROUNDS and min(medians, default=50) >= 50:
        medians.append(median(planner.page.evaluate(TIMED, [problem, RUNS])))
    session.send("Emulation.setCPUThrottlingRate", {"rate": 1})
    assert min(medians) < 50, f"the first took {first[0]:.0f} ms, rounds of {RUNS} {[round(one) for one in medians]}"
