"""A job of 600 tasks is planned in under 50 ms by a processor four times slower than a quick one, in Chromium."""

from __future__ import annotations

from statistics import median

import pytest

from tests.browser.planner.asked import Planner
from tests.browser.planner.recipes import Recipe, made
from tests.browser.planner.rules import Rules

pytestmark = [pytest.mark.slow, pytest.mark.alone]
TIMED = """([problem, times]) => {
  const text = JSON.stringify(problem);
  const byLength = (one, other) => other.minutes - one.minutes || (one.id < other.id ? -1 : 1);
  const works = [
    () => seambook.schedule.plan(problem),
    () => { for (let n = 0; n < 4; n += 1) JSON.parse(text).tasks.sort(byLength); },
  ];
  return Array.from({length: times}, () => works.map((work) => {
    const start = performance.now();
    work();
    return performance.now() - start;
  }));
}"""
"""In milliseconds how long the problem takes to plan, and beside it how long the engine takes to read it and sort its
tasks four times."""
LARGE = Recipe(
    seed=1, size=600, chains=15, hands=2, hours=1, limits=10, attended=10, traits=20, places=20, split=10, longest=45
)
ROUNDS, RUNS = 8, 9
"""On a machine that is busy with other things a round may be slow; one that is not says what the planner needs."""
MOST_MS = 50
MOST_OF_THE_FLOOR = 5.0
"""So many times as long as reading and sorting may planning take where the whole machine is slow: what it does slower
is in both. As measured: 3.3 to 5 in a round, and 4.2 or less in the best of eight, where planning took 37 ms and where
it took 78."""


def test_six_hundred_tasks_are_planned_at_once(planner: Planner) -> None:
    problem = made(LARGE) | {"passes": planner.passes_for(LARGE.size)}
    assert Rules(problem, planner.plan(problem)).broken() == []
    planner.reload()
    session = planner.page.context.new_cdp_session(planner.page)
    session.send("Emulation.setCPUThrottlingRate", {"rate": 4})
    first = planner.page.evaluate(TIMED, [problem, 1])
    planner.page.evaluate(TIMED, [problem, 10])
    rounds: list[tuple[float, float]] = []
    while len(rounds) < ROUNDS and not any(_is_at_once(*one) for one in rounds):
        plans, floors = zip(*planner.page.evaluate(TIMED, [problem, RUNS]), strict=True)
        rounds.append((median(plans), median(floors)))
    session.send("Emulation.setCPUThrottlingRate", {"rate": 1})
    assert any(_is_at_once(*one) for one in rounds), f"the first and its floor took {first}, medians of {RUNS} {rounds}"


def _is_at_once(plan: float, floor: float) -> bool:
    return plan < max(MOST_MS, MOST_OF_THE_FLOOR * floor)
