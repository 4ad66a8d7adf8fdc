"""Without hands, places or hours a plan is the critical path of the textbooks."""

from __future__ import annotations

from itertools import pairwise
from random import Random
from typing import Any

import networkx as nx
import pytest

from tests.browser.planner.asked import Planner, problem, task
from tests.browser.planner.rules import Plan, Problem, Rules

pytestmark = pytest.mark.slow


def test_the_published_problem_comes_out_as_published(planner: Planner) -> None:
    """Read at homeworksource.com/p/4323963: its path list and its columns of starts and slack, in days."""
    days = {"A": 8, "B": 4, "C": 3, "D": 5, "E": 1, "F": 2, "G": 7, "H": 6, "I": 9, "J": 6}
    after = {"D": "A", "E": "A", "F": "C", "G": "D", "H": "C", "I": "BEF", "J": "H"}
    names = "".join(days)
    arcs = [[names.index(one), names.index(name), 0] for name, before in after.items() for one in before]
    plan = planner.plan(problem([task(name, length) for name, length in days.items()], arcs=arcs))
    assert plan["finish"] == 20
    assert "".join(names[at] for at in plan["critical"]) == "ADG"
    slack = {"A": 0, "B": 7, "C": 5, "D": 0, "E": 2, "F": 6, "G": 0, "H": 5, "I": 2, "J": 5}
    assert dict(zip(names, plan["slack"], strict=True)) == slack


def test_the_finish_is_the_longest_path(planner: Planner) -> None:
    problems = [woven(seed) for seed in range(300)]
    for job, plan in zip(problems, planner.plans(problems), strict=True):
        assert plan["finish"] == longest(job)
        assert Rules(job, plan).broken() == []
        is_joined(job, plan)


def test_slack_is_the_total_slack_of_the_textbooks(planner: Planner) -> None:
    problems = [woven(seed) for seed in range(1000, 1060)]
    for job, plan in zip(problems, planner.plans(problems), strict=True):
        assert plan["slack"] == total_slack(job)


def is_joined(job: Problem, plan: Plan) -> None:
    """Each of the chain starts where the arc from the one before lets it, and none may slip."""
    arcs = {(before, after, lag) for before, after, lag in job["arcs"]}
    chain = plan["critical"]
    assert plan["rows"][chain[0]]["start"] == 0
    assert [plan["slack"][at] for at in chain] == [0] * len(chain)
    for before, after in pairwise(chain):
        gap = plan["rows"][after]["start"] - plan["rows"][before]["end"]
        assert (before, after, gap) in arcs
    assert [cause["why"] for cause in plan["causes"]] == ["start", *["arc"] * (len(chain) - 1)]


def woven(seed: int) -> Problem:
    """5 to 120 tasks whose arcs lead from earlier to later, some with a lag."""
    dice = Random(seed)
    size, density = dice.randint(5, 120), dice.choice((0.02, 0.08, 0.3))
    arcs = [
        [before, after, dice.choice((0, 0, 15, 240))]
        for after in range(size) for before in range(after) if dice.random() < density
    ]  # fmt: skip
    return problem([task(f"step-{at}", dice.randint(1, 90)) for at in range(size)], arcs=arcs, passes=2, seed=seed)


def graph(job: Problem) -> Any:
    """A task's minutes lie on the edges that leave it, so that the last one counts too."""
    found = nx.DiGraph()
    for at, one in enumerate(job["tasks"]):
        found.add_edge(at, "end", weight=one["minutes"])
    for before, after, lag in job["arcs"]:
        found.add_edge(before, after, weight=job["tasks"][before]["minutes"] + lag)
    return found


def longest(job: Problem) -> int:
    return int(nx.dag_longest_path_length(graph(job)))


def total_slack(job: Problem) -> list[int]:
    """The finish less the longest path through each task."""
    net = graph(job)
    order = list(nx.topological_sort(net))
    head = dict.fromkeys(order, 0)
    tail = dict.fromkeys(order, 0)
    for one in order:
        head[one] = max((head[before] + data["weight"] for before, _, data in net.in_edges(one, data=True)), default=0)
    for one in reversed(order):
        tail[one] = max((tail[after] + data["weight"] for _, after, data in net.out_edges(one, data=True)), default=0)
    return [head["end"] - head[at] - tail[at] for at in range(len(job["tasks"]))]
