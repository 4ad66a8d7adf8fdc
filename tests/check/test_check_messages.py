"""What a step lacks, in words: the part, the step, the rule's reason, and where it may be added."""

from __future__ import annotations

import pytest

from builder.check import check_procedure
from builder.model.problem import Problem
from builder.model.reference import Ref
from tests.check.little import little_law, locate, steps_of, summary


def told(steps: str) -> list[Problem]:
    procedure = summary(Ref("procedure", "x"), steps_of(steps))
    return list(check_procedure(procedure.ref, little_law(procedure), locate))


@pytest.mark.parametrize(("steps", "message", "do"), [
    ("look a with photo", 'step "s1" lacks a wait that somebody stays for (wait: with attended: yes)',
     'add a wait that somebody stays for (wait: with attended: yes) to "s1"'),
    ("look a with attended", 'step "s1" lacks a photograph (photo:)', 'add a photograph (photo:) to "s1"'),
    ("look p with measure,photo", 'step "s1" lacks a hold (point: with sort: hold)',
     'add a hold (point: with sort: hold) to "s1" or to a step after it'),
    ("lay a", 'step "s1" lacks an answer of size among its values', 'add an answer of size among its values to "s1"'),
])  # fmt: skip
def test_what_a_step_lacks_is_told(steps: str, message: str, do: str) -> None:
    (problem,) = told(steps)
    assert (problem.code.id, problem.message, problem.do) == ("C314", message, do)
    assert problem.span == locate(Ref("procedure", "x"), ("phases", 0, "steps", 0, "act"))
    assert [related.label for related in problem.see] == ["the rule"]


def test_each_step_that_lacks_is_told_by_itself() -> None:
    assert [problem.message.split()[1] for problem in told("lay a > lay a answers size > lay b")] == ['"s1"', '"s3"']


def test_what_holds_anywhere_is_told_by_its_own_name_and_side() -> None:
    (problem,) = told("free other:a > give-back body")
    assert problem.message == 'step "s2" is refused while this holds: opened (other side, A)'
    assert problem.see[0].label == "it holds since this step"


def test_one_cause_is_told_once_with_every_place() -> None:
    (problem,) = told("try a by spot > join a by plug > join a by plug > drain k")
    assert problem.message == 'step "s2" needs this first: tested (A), which no step before it makes'
    assert problem.do == 'put a step "try" after "s1" and before "s2"'
    assert [(related.span.file.rpartition("steps/")[2], related.label) for related in problem.see[1:]] == [
        ("2/act", "the same is missing or wrong here"),
    ]  # fmt: skip
