"""The shortest finish of a small job, found by trying everything: the oracle for what the planner finds by thumb.

Some best plan starts each task at the start, at the end of another, or when a lag after one is over, since any other
start could be earlier. So at each such moment every set of tasks that may start is tried, the empty one too. What is
ahead hangs only on what is done, what runs and what lags are left, all counted from now, and is kept by that.
"""

from __future__ import annotations

from collections.abc import Iterator

from tests.browser.planner.rules import Problem

Times = tuple[int, ...]
FAR = 10**9


class Exact:
    """A job of a few tasks with hands, places, arcs and lags; no hours, windows or traits."""

    def __init__(self, problem: Problem) -> None:
        self.tasks: list[Problem] = problem["tasks"]
        self.hands: int = problem["hands"]
        self.places: dict[str, int] = problem["places"]
        self.before: list[list[tuple[int, int]]] = [[] for _ in self.tasks]
        self.after: list[list[tuple[int, int]]] = [[] for _ in self.tasks]
        for before, after, lag in problem["arcs"]:
            self.before[after].append((before, lag))
            self.after[before].append((after, lag))
        self.rest = [task["wait"]["least"] if task["wait"] else 0 for task in self.tasks]
        self.known: dict[tuple[int, Times], int] = {}
        self.tails = [0] * len(self.tasks)
        for at in reversed(range(len(self.tasks))):  # arcs lead to later tasks
            ahead = [lag + self.tails[after] for after, lag in self.after[at]]
            self.tails[at] = self.tasks[at]["minutes"] + max(ahead, default=self.rest[at])
            self.tails[at] = max(self.tails[at], self.tasks[at]["minutes"] + self.rest[at])

    def finish(self) -> int:
        """The least finish there is."""
        return self._ahead(0, tuple(0 for _ in self.tasks))

    def _ahead(self, started: int, ends: Times) -> int:
        """The time from now to the finish; `ends` tells how long ago or from now each started task ends, as far as that
        still matters.
        """
        key = (started, ends)
        if key not in self.known:
            self.known[key] = self._least(started, ends)
        return self.known[key]

    def _least(self, started: int, ends: Times) -> int:
        waiting = [at for at in range(len(self.tasks)) if not started >> at & 1]
        tail = max((ends[at] + self.rest[at] for at in range(len(self.tasks)) if started >> at & 1), default=0)
        if not waiting:
            return max(0, tail)
        free = [at for at in waiting if self._is_free(at, started, ends)]
        best = FAR
        for chosen in self._sets(free, started, ends):
            found, then = started, list(ends)
            for at in chosen:
                found |= 1 << at
                then[at] = self.tasks[at]["minutes"]
            step = self._next(found, then)
            if step is None:
                if found == started:
                    continue
                step = 0
            if step and step + self._bound(found, then, step) >= best:
                continue
            best = min(best, max(tail, step + self._ahead(found, self._later(found, then, step))))
        return best

    def _bound(self, started: int, ends: list[int], step: int) -> int:
        """No finish can come sooner after a step than this."""
        left = [at for at in range(len(self.tasks)) if not started >> at & 1]
        work: int = sum(self.tasks[at]["minutes"] * self.tasks[at]["hands"] for at in left)
        work += sum(
            max(0, ends[at] - step) * self.tasks[at]["hands"] for at in range(len(self.tasks)) if started >> at & 1
        )
        return max(max((self.tails[at] for at in left), default=0), -(-work // self.hands))

    def _is_free(self, at: int, started: int, ends: Times) -> bool:
        return all(bool(started >> before & 1) and ends[before] + lag <= 0 for before, lag in self.before[at])

    def _sets(self, free: list[int], started: int, ends: Times) -> Iterator[list[int]]:
        """Every set of free tasks for which there are hands and places, the larger first."""
        running = [at for at in range(len(self.tasks)) if started >> at & 1 and ends[at] > 0]
        found: list[list[int]] = [[]]
        for at in free:
            found += [[*one, at] for one in found if self._is_room([*running, *one, at])]
        yield from sorted(found, key=len, reverse=True)

    def _is_room(self, running: list[int]) -> bool:
        if sum(self.tasks[at]["hands"] for at in running) > self.hands:
            return False
        taken = [place for at in running for place in self.tasks[at]["places"]]
        return all(taken.count(place) <= count for place, count in self.places.items())

    def _next(self, started: int, ends: list[int]) -> int | None:
        """How long until the next end, or the next lag that is over."""
        moments = []
        for at in range(len(self.tasks)):
            if started >> at & 1:
                moments += [ends[at], *(ends[at] + lag for after, lag in self.after[at] if not started >> after & 1)]
        return min((moment for moment in moments if moment > 0), default=None)

    def _later(self, started: int, ends: list[int], step: int) -> Times:
        """The same a step later; what no longer matters is told alike, so that it is known again."""
        found = []
        for at, end in enumerate(ends):
            matters = max([self.rest[at], *(lag for after, lag in self.after[at] if not started >> after & 1)])
            found.append(max(end - step, -matters) if started >> at & 1 else 0)
        return tuple(found)
