"""No rule is ever broken, whatever is planned: jobs of 5 to 400 tasks with everything that a job may ask for."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.browser.planner.asked import Planner
from tests.browser.planner.recipes import Recipe, made, recipes
from tests.browser.planner.rules import Rules
from tests.sweeps import examples

pytestmark = pytest.mark.slow
AS_IT_IS = [HealthCheck.function_scoped_fixture, HealthCheck.too_slow]


def check(planner: Planner, chosen: list[Recipe]) -> None:
    problems = [made(recipe) for recipe in chosen]
    for recipe, problem, plan in zip(chosen, problems, planner.plans(problems), strict=True):
        assert Rules(problem, plan).broken() == [], recipe
        if recipe.sure:
            assert [fault for fault in plan["impossible"] if fault["why"] == "window"] == [], recipe


@settings(max_examples=examples(30), suppress_health_check=AS_IT_IS)
@given(st.lists(recipes(5, 30), min_size=20, max_size=40))
def test_small_jobs_keep_every_rule(planner: Planner, chosen: list[Recipe]) -> None:
    check(planner, chosen)


@settings(max_examples=examples(15), suppress_health_check=AS_IT_IS)
@given(st.lists(recipes(40, 400), min_size=3, max_size=6))
def test_large_jobs_keep_every_rule(planner: Planner, chosen: list[Recipe]) -> None:
    check(planner, chosen)
