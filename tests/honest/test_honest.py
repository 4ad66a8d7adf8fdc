"""Odd but right: whole procedures that every shop would call sound, each of which must compile."""

from __future__ import annotations

import re

import pytest

from builder.model.problem import Problem
from tests.honest.book import FOLDER, LABEL, checked, honest, names
from tests.honest.odd import ODD, SET_ASIDE

WARNS = re.compile(r"# Warns: ([a-z-]+) - .{20,}")
"""A comment that heads a procedure: by which rule a warning is right there, and why."""


def problems_of(name: str) -> list[Problem]:
    return [problem for problem in checked().problems if problem.span.file == f"{LABEL}/procedures/{name}.yaml"]


def is_of_style(problem: Problem) -> bool:
    """Whether it objects to how a step is written, which is another matter."""
    return problem.code.id.startswith("H")


def told_by(problem: Problem) -> str:
    """Return the id of the rule by which something is told."""
    (rule,) = (other.span.file for other in problem.see if other.label == "the rule")
    return rule.rpartition("/")[2].removesuffix(".yaml")


@pytest.mark.parametrize("name", names())
def test_it_compiles(name: str) -> None:
    found = problems_of(name)
    assert [problem.message for problem in found if problem.level == "error"] == []
    text = (FOLDER / "procedures" / f"{name}.yaml").read_text("utf-8")
    assert sorted({told_by(problem) for problem in found if not is_of_style(problem)}) == sorted(WARNS.findall(text))


def test_nothing_is_wrong_with_the_body_they_work_on() -> None:
    assert [problem.message for problem in checked().problems
            if problem.span.file.startswith(f"{LABEL}/") and "/procedures/" not in problem.span.file] == []  # fmt: skip


@pytest.mark.parametrize("name", names())
def test_it_is_whole_work_and_still_odd(name: str) -> None:
    steps = honest()[name].steps
    acts = {step.act for step in steps}
    assert 8 <= len(steps) <= 50
    assert acts >= ODD[name].has
    assert not acts & ODD[name].lacks


def test_there_are_enough_and_each_is_known() -> None:
    assert names() == sorted(ODD)
    assert len(names()) >= 24


def test_rules_are_set_aside_only_where_the_trade_does_so() -> None:
    aside = {name: set().union(*(step.exempt for step in one.steps)) for name, one in honest().items()}
    assert {name: rules for name, rules in aside.items() if rules} == SET_ASIDE


def test_odd_ways_that_acts_do_not_tell() -> None:
    steps = {name: one.steps for name, one in honest().items()}
    assert sum(step.act == "drill-plug-holes" for step in steps["late-drill"]) == 2
    both = [step for step in steps["both-gussets-on-a-jig"] if step.act in ("cut-out", "weld-final")]
    assert all({ref.side for ref in step.subjects} == {"this", "other"} for step in both)
    (coupon,) = (step for step in steps["one-coupon-two-seams"] if step.act == "weld-coupon")
    assert len(coupon.subjects) == 2
    alone = (FOLDER / "procedures" / "alone-on-a-floor-edge.yaml").read_text("utf-8")
    assert set(re.findall(r"releases: ([^,]+, alone|[A-Z][a-z ]+)", alone.replace('"', ""))) == {"Technician, alone"}
    assert "approver: solo" in alone
