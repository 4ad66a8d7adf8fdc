"""Problems to plan, made from a few choices and a seed: chains with cross arcs, and as much of each rule as chosen."""

from __future__ import annotations

from dataclasses import dataclass
from random import Random

from hypothesis import strategies as st

from tests.browser.planner.rules import Problem

WEEKDAYS, EVERY_DAY = [1, 2, 3, 4, 5], [1, 2, 3, 4, 5, 6, 7]
HOURS = (
    None, {"opens": 480, "closes": 1020, "days": WEEKDAYS}, {"opens": 420, "closes": 960, "days": [1, 3, 4, 6]},
    {"opens": 0, "closes": 1440, "days": WEEKDAYS}, {"opens": 0, "closes": 1440, "days": EVERY_DAY},
    {"opens": 540, "closes": 780, "days": [2]},
)  # fmt: skip
SHORT = 5
"""A day too short for two tasks and the wait between them, so that a window may be out of reach."""
TRAITS = ("heat", "vapour", "dust", "wet", "watch")
CLASHES = [["heat", "vapour"], ["dust", "wet"]]


@dataclass(frozen=True, slots=True)
class Recipe:
    """What a problem is like; `sure` keeps to windows that can be met whatever else there is."""

    seed: int
    size: int
    chains: int = 4
    hands: int | None = 2
    hours: int = 1
    limits: int = 0
    """Of a hundred arcs within a chain, how many have a most as well; so for all that follow."""
    waits: int = 20
    attended: int = 0
    traits: int = 0
    places: int = 0
    split: int = 0
    done: int = 0
    cross: int = 10
    longest: int = 90
    sure: bool = True
    passes: int = 2


def recipes(least: int, most: int) -> st.SearchStrategy[Recipe]:
    """Choices of every sort, with so many tasks."""
    share = st.sampled_from((0, 10, 40))
    return st.builds(
        Recipe, seed=st.integers(0, 2**32), size=st.integers(least, most), chains=st.integers(1, 15),
        hands=st.sampled_from((None, 1, 2, 3, 4)), hours=st.integers(0, len(HOURS) - 1), limits=share, waits=share,
        attended=share, traits=share, places=share, split=share, done=share, cross=share,
        longest=st.sampled_from((5, 60, 90)), sure=st.booleans(), passes=st.integers(0, 4),
    )  # fmt: skip


def made(recipe: Recipe) -> Problem:
    """The problem of a recipe, the same each time."""
    dice = Random(recipe.seed)
    hours = HOURS[recipe.hours]
    tasks = [_task(recipe, dice, at) for at in range(recipe.size)]
    arcs, limits = _arcs(recipe, dice, tasks)
    problem: Problem = {
        "tasks": tasks, "arcs": arcs, "limits": limits, "hands": recipe.hands,
        "places": {"lift": 1, "welder": dice.choice((1, 2)), "booth": 1} if recipe.places else {}, "clashes": CLASHES,
        "watch": "watch", "hours": hours, "passes": recipe.passes, "seed": dice.randrange(2**31),
        "start": {"minute": dice.choice((480, 600, 1000, 0)), "day": dice.randint(1, 7)},
    }  # fmt: skip
    if recipe.done:
        _tick(recipe, dice, problem)
    return problem


def _task(recipe: Recipe, dice: Random, at: int) -> Problem:
    def falls(share: int) -> bool:
        return dice.randrange(100) < share

    minutes = 0 if falls(5) else dice.randint(1, recipe.longest)
    traits = sorted({dice.choice(TRAITS) for _ in range(dice.randint(1, 2))}) if falls(recipe.traits) else []
    wait = None
    if falls(recipe.waits):
        is_attended = falls(recipe.attended)
        least = dice.randint(0, 60) if is_attended or "watch" in traits else dice.choice((5, 30, 60, 200, 960, 3000))
        wait = {"least": least, "most": None, "attended": is_attended}
    is_split = falls(recipe.split)
    return {
        "id": f"run{at % recipe.chains}#step-{at}", "chain": f"run{at % recipe.chains}", "split": is_split,
        "minutes": minutes * (8 if is_split and recipe.hours != SHORT else 1), "traits": traits, "wait": wait,
        "hands": dice.choices((0, 1, min(2, recipe.hands or 2)), (1, 8, 1))[0],
        "places": dice.sample(("lift", "welder", "booth", "bench"), dice.randint(1, 2)) if falls(recipe.places) else [],
        "linger": {trait: dice.randint(1, 60) for trait in traits if falls(50)},
        "earliest": dice.randint(0, 3000) if falls(3) else None,
    }  # fmt: skip


def _arcs(recipe: Recipe, dice: Random, tasks: list[Problem]) -> tuple[list[list[int]], list[list[int]]]:
    arcs, limits = [], []
    bound: set[int] = set()
    for at in range(recipe.chains, recipe.size):
        before = at - recipe.chains
        lag = tasks[before]["wait"]["least"] if tasks[before]["wait"] else 0
        arcs.append([before, at, lag])
        is_free = not recipe.sure or not (before in bound or lag > 60 or tasks[before]["split"] or tasks[at]["split"])
        is_late = recipe.sure and (tasks[at]["earliest"] or recipe.hours == SHORT)
        if is_free and not is_late and dice.randrange(100) < recipe.limits:
            more = (60, 90, 600, 1500, 3000) if recipe.sure else (0, 5, 60, 1440)
            limits.append([before, at, lag + dice.choice(more)])
            bound |= {before, at}
    targets = {after for _, after, _ in limits}
    arcs += [
        [dice.randrange(at), at, dice.choice((0, 0, 10, 120))]
        for at in range(1, recipe.size) if dice.randrange(100) < recipe.cross and not (recipe.sure and at in targets)
    ]  # fmt: skip
    return arcs, limits


def _tick(recipe: Recipe, dice: Random, problem: Problem) -> None:
    """The first so many are done, at times that need keep no rule; the others start from now on, or not told."""
    now = 0
    first = dice.randrange(recipe.size * recipe.done // 100 + 1)
    for task in problem["tasks"][:first]:
        start = now - dice.randint(0, 20)
        now = start + dice.randint(0, 60)
        task["done"] = {"start": start, "end": now}
    if dice.random() < 0.7:
        for task in problem["tasks"][first:]:
            task["earliest"] = max(0, now, task["earliest"] or 0)
    if recipe.sure:
        problem["limits"] = [limit for limit in problem["limits"] if limit[0] >= first]
