"""The rules that plans are held against see what is broken: a wrong plan of every sort, and the same put right."""

from __future__ import annotations

from typing import Any

import pytest

from tests.browser.planner.asked import problem, task
from tests.browser.planner.rules import Plan, Problem, Rules

DAY = {"opens": 480, "closes": 1020, "days": [1, 2, 3, 4, 5]}
REST = {"least": 30, "most": None, "attended": True}
GUARD = task("guard", 20, traits=["w"], wait=REST | {"attended": False})
FOES = [["heat", "vapour"]]
HOT, WET = task("hot", 20, traits=["heat"]), task("wet", 20, traits=["vapour"], linger={"vapour": 15})


def plan_of(job: Problem, rows: list[Any]) -> Plan:
    """A plan with so many starts, or with the parts of a task that was interrupted."""
    made = []
    for one, row in zip(job["tasks"], rows, strict=True):
        parts = row if isinstance(row, list) else [[row, row + one["minutes"]]]
        end = parts[-1][1]
        until = end + (one["wait"] or {"least": 0})["least"]
        made.append({"start": parts[0][0], "end": end, "parts": parts, "until": until})
    finish = max(row["until"] for row in made)
    last = [at for at, row in enumerate(made) if row["until"] == finish][:1]
    return {
        "rows": made, "order": list(range(len(made))), "finish": finish, "critical": last,
        "causes": [{"task": at, "why": "start", "by": None, "of": ""} for at in last], "slack": [0] * len(made),
        "idle": {"hands": 0, "minutes": 0}, "impossible": [],
    }  # fmt: skip


def two(**more: Any) -> Problem:
    return problem([task("one", 20), task("other", 20)], **more)


CASES: list[tuple[str, Problem, list[Any], list[Any]]] = [
    ("arc", two(arcs=[[0, 1, 5]]), [0, 24], [0, 25]),
    ("limit", two(limits=[[0, 1, 5]]), [0, 26], [0, 25]),
    ("hands", two(hands=1), [0, 19], [0, 20]),
    ("hands", problem([task("one", 20, hands=2), task("other", 20)], hands=2), [0, 19], [0, 20]),
    ("lift", problem([task("one", 20, places=["lift"])] * 2, places={"lift": 1}), [0, 19], [0, 20]),
    ("heat", problem([HOT, WET], clashes=FOES), [34, 0], [35, 0]),
    ("heat", problem([HOT, WET], clashes=FOES), [0, 19], [0, 20]),
    ("opening hours", two(hours=DAY), [0, 521], [0, 520]),
    ("opening hours", two(hours=DAY), [0, 1439], [0, 1440]),
    ("split", problem([task("one", 40)], hours=DAY), [[[520, 540], [1440, 1460]]], [500]),
    ("minutes", problem([task("one", 40, split=True)], hours=DAY),
     [[[520, 540], [1440, 1459]]], [[[520, 540], [1440, 1460]]]),
    ("closing", problem([task("one", 40, split=True)], hours=DAY), [[[500, 520], [530, 550]]], [500]),
    ("closing", problem([task("one", 20, wait=REST)], hours=DAY), [491], [490]),
    ("hands", problem([task("one", 20, wait=REST), task("other", 20)], hands=1), [0, 49], [0, 50]),
    ("hands", problem([GUARD, task("other", 20)], hands=1, watch="w"), [0, 49], [0, 50]),
    ("early", problem([task("one", 20, earliest=7)]), [6], [7]),
    ("done", problem([task("one", 20, done={"start": -9, "end": 11})]), [0], [[[-9, 11]]]),
]  # fmt: skip


@pytest.mark.parametrize(("told", "job", "wrong", "right"), CASES, ids=lambda one: one if isinstance(one, str) else "")
def test_a_broken_rule_is_seen(told: str, job: Problem, wrong: list[Any], right: list[Any]) -> None:
    assert Rules(job, plan_of(job, right)).broken() == []
    assert told in " ".join(Rules(job, plan_of(job, wrong)).broken())


def test_what_was_done_may_have_broken_the_rules() -> None:
    past = [task(name, 20, done={"start": 0, "end": 20}) for name in "ab"]
    job = problem([*past, task("now", 20)], hands=1)
    assert Rules(job, plan_of(job, [0, 0, 20])).broken() == []
    assert Rules(job, plan_of(job, [0, 0, 19])).broken() == ["more than 1 hands at once"]
