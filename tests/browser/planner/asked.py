"""The planner's scripts in a page of Chromium: problems in, plans out, many at a time."""

from __future__ import annotations

import json
from typing import Any

from playwright.sync_api import Browser, Page

from tests.browser.planner.rules import Plan, Problem
from tests.shape_of_code.modules import TEMPLATES

SCRIPTS = (
    "schedule_time", "schedule_problem", "schedule_place", "schedule_order", "schedule_told", "schedule",
)  # fmt: skip
"""In the order in which a page loads them."""
PLANNED = "(text) => JSON.stringify(JSON.parse(text).map((one) => seambook.schedule.plan(one)))"


class Planner:
    """Asks a page of its own that holds nothing but the planner."""

    def __init__(self, chromium: Browser) -> None:
        self.page: Page = chromium.new_context(offline=True).new_page()
        self.troubles: list[str] = []
        self.page.on("pageerror", lambda error: self.troubles.append(str(error)))
        self.reload()

    def reload(self) -> None:
        """An empty page with the scripts as good as new."""
        self.page.goto("about:blank")
        for name in SCRIPTS:
            self.page.add_script_tag(path=TEMPLATES / "assets" / "js" / f"{name}.js")

    def plans(self, problems: list[Problem]) -> list[Plan]:
        """The plan of each problem."""
        # As text: the driver turns nested values over one by one, which takes far longer than to plan.
        found: list[Plan] = json.loads(self.page.evaluate(PLANNED, json.dumps(problems)))
        return found

    def plan(self, problem: Problem) -> Plan:
        """The plan of one problem."""
        return self.plans([problem])[0]

    def passes_for(self, count: int) -> int:
        """How many passes the planner takes for so many tasks."""
        found: int = self.page.evaluate("(count) => seambook.schedule.passesFor(count)", count)
        return found


def task(name: str, minutes: int, **more: Any) -> Problem:
    """A task for one hand that asks for nothing else."""
    plain: Problem = {"hands": 1, "places": [], "split": False, "traits": [], "linger": {}, "wait": None}
    return {"id": name, "minutes": minutes, "chain": "run", **plain, **more}


def problem(tasks: list[Problem], **more: Any) -> Problem:
    """A problem without arcs, limits, hours or hands' end unless told."""
    plain: Problem = {
        "arcs": [], "limits": [], "hands": None, "places": {}, "clashes": [], "watch": None, "hours": None,
        "start": {"minute": 480, "day": 1}, "passes": 20, "seed": 1,
    }  # fmt: skip
    return {"tasks": tasks, **plain, **more}
