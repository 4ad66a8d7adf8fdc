"""A job of 600 tasks is planned in under 50 ms by a processor four times slower than this one, in Chromium."""

from __future__ import annotations

from statistics import median

import pytest

from tests.browser.planner.asked import Planner
from tests.browser.planner.recipes import Recipe, made

pytestmark = pytest.mark.slow
TIMED = """([problem, times]) => Array.from({length: times}, () => {
  const start = performance.now();
  seambook.schedule.plan(problem);
  return performance.now() - start;
})"""
LARGE = Recipe(
    seed=1, size=600, chains=15, hands=2, hours=1, limits=10, attended=10, traits=20, places=20, split=10, longest=45
)


def test_six_hundred_tasks_are_planned_at_once(planner: Planner) -> None:
    problem = made(LARGE) | {"passes": planner.passes_for(LARGE.size)}
    session = planner.page.context.new_cdp_session(planner.page)
    session.send("Emulation.setCPUThrottlingRate", {"rate": 4})
    took: list[float] = planner.page.evaluate(TIMED, [problem, 15])
    session.send("Emulation.setCPUThrottlingRate", {"rate": 1})
    print([round(one) for one in took])
    assert median(took[5:]) < 50, f"the first took {took[0]:.0f} ms, all of them {[round(one) for one in took]}"
