"""What cannot be is told by code and data, and everything else is planned."""

from __future__ import annotations

from typing import Any

import pytest

from tests.browser.planner.asked import Planner, problem, task
from tests.browser.planner.rules import Problem, Rules

pytestmark = pytest.mark.slow
DAY = {"opens": 480, "closes": 1020, "days": [1, 2, 3, 4, 5]}
AFTER = task("after", 30)


def waiting(least: int, **more: Any) -> dict[str, Any]:
    return {"least": least, "most": None, "attended": False, **more}


CASES: dict[str, tuple[Problem, list[Any]]] = {
    "opening": (problem([task("long", 600), AFTER], arcs=[[0, 1, 0]], hours=DAY, hands=1), [600, 540]),
    "hands": (problem([task("heavy", 60, hands=3), AFTER], arcs=[[0, 1, 0]], hands=2), [3, 2]),
    "place": (
        problem([task("raise", 60, places=["lift"]), AFTER], arcs=[[0, 1, 0]], hands=1, places={"lift": 0}),
        ["lift"],
    ),
    "wait": (
        problem([task("watched", 60, wait=waiting(500, attended=True)), AFTER], arcs=[[0, 1, 500]], hands=1, hours=DAY),
        [60, 500, 540],
    ),
    "watch": (
        problem([task("hot", 100, traits=["w"], wait=waiting(500)), AFTER], arcs=[[0, 1, 500]], hands=1, hours=DAY,
                watch="w"),
        [600, 540],
    ),
}  # fmt: skip


@pytest.mark.parametrize("code", CASES)
def test_what_a_task_asks_for_is_not_there(planner: Planner, code: str) -> None:
    job, data = CASES[code]
    plan = planner.plan(job)
    assert plan["impossible"] == [{"task": 0, "why": code, "with": data}]
    assert Rules(job, plan).broken() == []
    assert plan["rows"][1]["start"] >= plan["rows"][0]["until"]


def test_a_window_shorter_than_what_must_be_done_in_it(planner: Planner) -> None:
    tasks = [task("coat", 10), task("long", 50), task("recoat", 10), task("else", 20)]
    job = problem(tasks, arcs=[[0, 1, 0], [1, 2, 0]], limits=[[0, 2, 30]], hands=1)
    plan = planner.plan(job)
    assert plan["impossible"] == [{"task": 2, "why": "window", "with": [0, 30]}]
    assert Rules(job, plan).broken() == []
    assert plan["finish"] == 90


def test_a_window_that_lies_in_the_night(planner: Planner) -> None:
    """Ten to twelve hours after any minute of the day the doors are shut."""
    job = problem([task("coat", 60), task("recoat", 10)], arcs=[[0, 1, 600]], limits=[[0, 1, 720]], hands=1, hours=DAY)
    plan = planner.plan(job)
    assert plan["impossible"] == [{"task": 1, "why": "window", "with": [0, 720]}]
    assert plan["rows"][1]["start"] == 1440


def test_a_window_after_what_is_done_has_passed(planner: Planner) -> None:
    done = task("coat", 10, done={"start": 0, "end": 10})
    job = problem([done, task("recoat", 10, earliest=100)], arcs=[[0, 1, 20]], limits=[[0, 1, 60]], hands=1)
    plan = planner.plan(job)
    assert plan["impossible"] == [{"task": 1, "why": "window", "with": [0, 60]}]
    assert plan["rows"][1]["start"] == 100


def test_a_window_after_what_is_done_goes_before_all_else(planner: Planner) -> None:
    done = task("coat", 10, done={"start": 0, "end": 10})
    others = [task(f"long-{at}", 50, earliest=10) for at in range(4)]
    job = problem([done, *others, task("recoat", 10, earliest=10)], arcs=[[0, 5, 20]], limits=[[0, 5, 60]], hands=1)
    plan = planner.plan(job)
    assert plan["impossible"] == []
    assert Rules(job, plan).broken() == []


def test_a_loop_names_its_tasks(planner: Planner) -> None:
    tasks = [task(name, 10) for name in "abcdef"]
    job = problem(tasks, arcs=[[0, 1, 0], [1, 2, 0], [2, 1, 0], [2, 3, 0], [4, 4, 0]], hands=1)
    plan = planner.plan(job)
    loop = {"why": "loop", "with": [1, 2]}
    assert plan["impossible"] == [{"task": 1, **loop}, {"task": 2, **loop}, {"task": 4, "why": "loop", "with": [4]}]
    assert Rules(job, plan).broken() == []
    assert plan["rows"][3]["start"] >= max(plan["rows"][1]["end"], plan["rows"][2]["end"]) >= plan["rows"][0]["end"]


def test_hours_that_never_open(planner: Planner) -> None:
    plan = planner.plan(problem([task("any", 10), task("mark", 0)], hours=DAY | {"days": []}, hands=1))
    assert plan["impossible"] == [{"task": 0, "why": "opening", "with": [10, 0]}]


def test_two_reasons_are_both_told(planner: Planner) -> None:
    job = problem([task("both", 600, hands=2, places=["lift"]), AFTER], hands=1, places={"lift": 0}, hours=DAY)
    plan = planner.plan(job)
    assert [fault["why"] for fault in plan["impossible"]] == ["opening", "hands", "place"]
    assert Rules(job, plan).broken() == []


def test_nothing_to_plan_is_a_plan(planner: Planner) -> None:
    plan = planner.plan(problem([], hands=1, hours=DAY))
    assert (plan["rows"], plan["finish"], plan["critical"], plan["impossible"]) == ([], 0, [], [])
