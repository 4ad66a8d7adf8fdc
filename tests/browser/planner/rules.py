"""Whether a plan keeps every rule of its problem, written from what the rules say and not from how the planner works.

A problem and its plan come in as the plain data that the page takes and gives; what is broken comes out in words. A
rule that the plan itself names as impossible for a task is waived for that task alone.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby, pairwise
from typing import Any

Problem = dict[str, Any]
Plan = dict[str, Any]
Span = tuple[int, int]
DAY = 1440


class Rules:
    """The rules of one problem, held against its plan."""

    def __init__(self, problem: Problem, plan: Plan) -> None:
        self.problem = problem
        self.plan = plan
        self.tasks = problem["tasks"]
        self.rows = plan["rows"]
        self.told = {(fault["task"], fault["why"]) for fault in plan["impossible"]}
        self.windows = {(fault["with"][0], fault["task"]) for fault in plan["impossible"] if fault["why"] == "window"}
        self.loops = [set(fault["with"]) for fault in plan["impossible"] if fault["why"] == "loop"]
        last = max((row["until"] for row in self.rows), default=0)
        self.openings = openings(problem["hours"], problem["start"], last)

    def broken(self) -> list[str]:
        """What is not kept, nothing when all is."""
        checks = (self._rows, self._before, self._limits, self._hours, self._attended, self._hands, self._places)
        return [said for check in (*checks, self._clashes, self._sums) for said in check()]

    def open_tasks(self) -> Iterator[tuple[int, Any, Any]]:
        """Those still to do, with their rows."""
        for at, (task, row) in enumerate(zip(self.tasks, self.rows, strict=True)):
            if not task.get("done"):
                yield at, task, row

    def is_watch(self, task: Any) -> bool:
        return self.problem.get("watch") is not None and self.problem["watch"] in task["traits"]

    def _rows(self) -> Iterator[str]:
        for at, (task, row) in enumerate(zip(self.tasks, self.rows, strict=True)):
            least = task["wait"]["least"] if task.get("wait") else 0
            if row["until"] != row["end"] + least:
                yield f"{at}: its wait ends wrongly"
            if task.get("done"):
                if (row["start"], row["end"]) != (task["done"]["start"], task["done"]["end"]):
                    yield f"{at}: what is done was moved"
                continue
            if not all(isinstance(one, int) for one in (row["start"], row["end"], row["until"])):
                yield f"{at}: no whole minutes"
            if row["start"] < max(0, task.get("earliest") or 0):
                yield f"{at}: starts too early"
            parts = row["parts"]
            if (parts[0][0], parts[-1][1]) != (row["start"], row["end"]):
                yield f"{at}: parts do not span the row"
            if sum(to - start for start, to in parts) != task["minutes"]:
                yield f"{at}: {task['minutes']} minutes became {parts}"
            is_split = task["split"] and not self.is_watch(task)
            if len(parts) > 1 and not is_split and (at, "opening") not in self.told and (at, "watch") not in self.told:
                yield f"{at}: was split"

    def _before(self) -> Iterator[str]:
        for before, after, lag in self.problem["arcs"]:
            if self.tasks[after].get("done") or any({before, after} <= loop for loop in self.loops):
                continue
            if self.rows[after]["start"] < self.rows[before]["end"] + lag:
                yield f"arc {before}-{after} with {lag}"

    def _limits(self) -> Iterator[str]:
        for before, after, most in self.problem["limits"]:
            if self.tasks[after].get("done") or (before, after) in self.windows:
                continue
            if self.rows[after]["start"] > self.rows[before]["end"] + most:
                yield f"limit {before}-{after} of {most}"

    def _hours(self) -> Iterator[str]:
        if self.openings is None:
            return
        for at, _, row in self.open_tasks():
            for start, to in row["parts"]:
                if not any(opens <= start and to <= closes for opens, closes in self.openings):
                    yield f"{at}: {start}-{to} is not in opening hours"
            for (_, to), (start, _) in pairwise(row["parts"]):
                if not any(to == one[1] and start == other[0] for one, other in pairwise(self.openings)):
                    yield f"{at}: was interrupted by something other than closing"

    def rest(self, at: int) -> Span | None:
        """The minutes after a task that hold a hand."""
        task, row = self.tasks[at], self.rows[at]
        wait = task.get("wait")
        if not wait or not wait["least"] or {(at, "wait"), (at, "watch")} & self.told:
            return None
        return (row["end"], row["end"] + wait["least"]) if wait.get("attended") or self.is_watch(task) else None

    def _attended(self) -> Iterator[str]:
        if self.openings is None:
            return
        for at, task, row in self.open_tasks():
            rest = self.rest(at)
            start = row["start"] if self.is_watch(task) else row["parts"][-1][0]
            if rest and not any(opens <= start and rest[1] <= closes for opens, closes in self.openings):
                yield f"{at}: what must be attended goes beyond closing"

    def _over(self, taken: list[tuple[int, int, int, bool]], most: int) -> bool:
        """Whether more than so much is taken at once while anything still to do takes part."""
        edges = [(start, 1, amount, is_open) for start, _, amount, is_open in taken]
        edges += [(to, 0, -amount, is_open) for _, to, amount, is_open in taken]
        level, still_open = 0, 0
        for minute, group in groupby(sorted(edges), key=lambda edge: edge[0]):
            for _, _, amount, is_open in group:
                level += amount
                still_open += amount if is_open else 0
            if level > most and still_open:
                return True
            assert level >= 0, minute
        return False

    def _hands(self) -> Iterator[str]:
        there = self.problem["hands"]
        if there is None:
            return
        taken = []
        for at, (task, row) in enumerate(zip(self.tasks, self.rows, strict=True)):
            hands = max(1, task["hands"]) if self.is_watch(task) else task["hands"]
            asked = min(hands, there) if (at, "hands") in self.told else hands
            is_open = not task.get("done")
            taken += [(start, to, asked, is_open) for start, to in row["parts"] if asked and to > start]
            rest = self.rest(at)
            taken += [(*rest, 1, is_open)] if rest else []
        if self._over(taken, there):
            yield f"more than {there} hands at once"

    def _places(self) -> Iterator[str]:
        for place, count in self.problem["places"].items():
            taken = [
                (row["start"], row["end"], 1, not task.get("done"))
                for at, (task, row) in enumerate(zip(self.tasks, self.rows, strict=True))
                if place in task["places"] and (at, "place") not in self.told and row["end"] > row["start"]
            ]
            if self._over(taken, count):
                yield f"more than {count} at {place}"

    def _clashes(self) -> Iterator[str]:
        foes = {pair for one, other in self.problem["clashes"] for pair in ((one, other), (other, one))}
        spans = [
            (at, trait, row["start"], row["end"] + task.get("linger", {}).get(trait, 0), not task.get("done"))
            for at, (task, row) in enumerate(zip(self.tasks, self.rows, strict=True)) for trait in task["traits"]
        ]  # fmt: skip
        spans = sorted((span for span in spans if span[3] > span[2]), key=lambda span: span[2])
        running: list[tuple[int, str, int, int, bool]] = []
        for one in spans:
            running = [other for other in running if other[3] > one[2]]
            for other in running:
                if one[0] != other[0] and (one[1], other[1]) in foes and (one[4] or other[4]):
                    yield f"{one[0]} with {one[1]} while {other[0]} with {other[1]}"
            running.append(one)

    def _sums(self) -> Iterator[str]:
        plan, rows = self.plan, self.rows
        if plan["finish"] != max((row["until"] for row in rows), default=0):
            yield "the finish is not the last end"
        if sorted(plan["order"]) != list(range(len(rows))):
            yield "the order does not name every task once"
        if any(slack < 0 for slack in plan["slack"]) or min(plan["idle"].values()) < 0:
            yield "slack or idle time below nothing"
        chain = plan["critical"]
        if [cause["task"] for cause in plan["causes"]] != chain or len(set(chain)) != len(chain):
            yield "the chain is not what was told of it"
        for before, cause in pairwise(plan["causes"]):
            if cause["by"] != before["task"]:
                yield "the chain has a gap"
            if cause["why"] != "limit" and rows[before["task"]]["start"] > rows[cause["task"]]["until"]:
                yield "the chain goes back"
        is_any_open = any(True for _ in self.open_tasks())
        is_last_open = any(row["until"] == plan["finish"] for _, _, row in self.open_tasks())
        if is_any_open and is_last_open and rows[plan["critical"][-1]]["until"] != plan["finish"]:
            yield "the chain does not make the finish"


def openings(hours: Any, start: Any, last: int) -> list[Span] | None:
    """Opening hours in elapsed minutes until well after the last; None where it is always open, or never."""
    if hours is None or not hours["days"] or hours["closes"] <= hours["opens"]:
        return None
    found: list[Span] = []
    for day in range((last + start["minute"]) // DAY + 16):
        if (start["day"] - 1 + day) % 7 + 1 in hours["days"]:
            at = day * DAY - start["minute"]
            one = (at + hours["opens"], at + hours["closes"])
            if found and found[-1][1] == one[0]:
                one = (found.pop()[0], one[1])
            found.append(one)
    return found
