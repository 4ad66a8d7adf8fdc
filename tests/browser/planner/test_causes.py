"""The chain that makes the finish says of each task what it waited for."""

from __future__ import annotations

from typing import Any

import pytest

from tests.browser.planner.asked import Planner, problem, task
from tests.browser.planner.rules import Problem

pytestmark = pytest.mark.slow
DAY = {"opens": 480, "closes": 1020, "days": [1, 2, 3, 4, 5]}
TWO = [task("one", 30), task("other", 30)]


def cause(at: int, why: str, by: int | None, of: str = "") -> dict[str, Any]:
    return {"task": at, "why": why, "by": by, "of": of}


CASES: dict[str, tuple[Problem, list[dict[str, Any]]]] = {
    "an arc and its lag": (problem(TWO, arcs=[[0, 1, 15]]), [cause(0, "start", None), cause(1, "arc", 0)]),
    "hands": (problem(TWO, hands=1), [cause(0, "start", None), cause(1, "hands", 0)]),
    "a place": (
        problem([task(name, 30, places=["lift"]) for name in "ab"], places={"lift": 1}),
        [cause(0, "start", None), cause(1, "place", 0, "lift")],
    ),
    "a clash and its linger": (
        problem([task("wet", 30, traits=["v"], linger={"v": 5}), task("hot", 30, traits=["h"])], clashes=[["v", "h"]],
                passes=0),
        [cause(0, "start", None), cause(1, "clash", 0, "v")],
    ),
    "closing, after an arc": (
        problem([task("one", 500), task("other", 60)], arcs=[[0, 1, 0]], hours=DAY),
        [cause(0, "start", None), cause(1, "hours", 0)],
    ),
    "closing, after hands": (
        problem([task("one", 500), task("other", 60)], hands=1, hours=DAY, previous=["one", "other"]),
        [cause(0, "start", None), cause(1, "hours", 0)],
    ),
    "not before a minute": (problem([task("one", 30, earliest=45)]), [cause(0, "earliest", None)]),
}  # fmt: skip


@pytest.mark.parametrize("name", CASES)
def test_a_task_says_what_it_waited_for(planner: Planner, name: str) -> None:
    job, causes = CASES[name]
    plan = planner.plan(job)
    assert plan["causes"] == causes
    assert plan["critical"] == [one["task"] for one in causes]


def test_a_task_held_back_by_the_window_of_another(planner: Planner) -> None:
    """What dries must be coated again within half an hour, not sooner than it may; the last waits for the first."""
    tasks = [task("coat", 10), task("recoat", 20, earliest=100), task("last", 200)]
    job = problem(tasks, arcs=[[0, 1, 15], [0, 2, 0]], limits=[[0, 1, 30]])
    plan = planner.plan(job)
    assert [row["start"] for row in plan["rows"]] == [60, 100, 70]
    assert plan["causes"] == [cause(1, "earliest", None), cause(0, "limit", 1), cause(2, "arc", 0)]


def test_idle_time_counts_hands_and_open_minutes(planner: Planner) -> None:
    plan = planner.plan(problem([task("one", 30), task("other", 30)], arcs=[[0, 1, 40]], hands=2))
    assert plan["idle"] == {"hands": 2 * 100 - 60, "minutes": 40}
