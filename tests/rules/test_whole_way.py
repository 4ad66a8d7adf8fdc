"""A procedure in a file that breaks a rule -> the message: both steps, the reason, where the missing step belongs."""

from __future__ import annotations

import pytest
import yaml

from builder import pipeline
from builder.model.files import Layer
from builder.model.place import Span
from builder.model.problem import Problem
from builder.model.reference import LONE_SUBJECTS
from tests.books.laying import line_of
from tests.rules.supplied import CONTENT, LAYERS, find

HEAD = """\
title: {name}
purpose: Invented for the tests of the rules.
limits: none
status: draft
revision: {{number: 1, date: "2026-01-05", author: Somebody, approver: solo, reason: First issue.}}
applies_to: none
panels: [rocker-outer]
needs: {{conditions: none, people: none, tools: none, supplies: none, parts: none}}
hazards: none
phases:
  - title: All of it
    steps:
"""
STEP = "      - {{key: {key}, act: {act}, on: [{on}], do: Do it.{more}}}\n"
FOOT = "close_out: none\nsources: none\n"
WAYS = {
    # By rule: the steps, which step is at fault, what is said of it, what to do, and what is shown besides.
    "coupon-before-plugs": (
        "weld-coupon rocker-lower by mag-plug > change-setup welder > weld-final rocker-lower by mag-plug",
        3, 'step "s3" needs this first: Plugs proven (Rocker lower flange), which a step before it spoiled',
        'put a step "weld-coupon" after "s2" and before "s3"',
        [(2, "it was spoiled here")],
    ),
    "lap-is-protected": (
        "clean-bare rocker-lower > drill-plug-holes rocker-lower > weld-final rocker-lower by mag-plug"
        " > prime-weld-through rocker-lower",
        3, 'step "s3" needs this first: Protected (Rocker lower flange), which is made only after it',
        'put "s4" before "s3"',
        [(4, "it is made here, too late")],
    ),
    "no-pull-on-a-brace": (
        "brace front-door-opening > pull rocker-outer",
        2, 'step "s2" is refused while this holds: Braced (Front door opening)',
        'put a step before "s2" that ends it: unbrace',
        [(1, "it holds since this step")],
    ),
    "one-side-open": (
        "free-welds rocker-lower > cut-out other:rocker-outer",
        2, 'step "s2" is refused while this holds: Structure open (Rocker lower flange)',
        'put a step before "s2" that ends it: bond or weld-final',
        [(1, "it holds since this step")],
    ),
    "drains-proven-after-coat": (
        "prove-drains rocker-cavity > coat-inside rocker-cavity",
        2, 'step "s2" leaves this owed: Drains proven open (Rocker box), and nothing after it settles that',
        'put a step "prove-drains" after "s2"',
        [],
    ),
    "wax-comes-last": (
        "wax-cavity rocker-cavity > bake rocker-outer",
        1, 'step "s1" comes too early on Rocker box', 'put "s2" before "s1"',
        [(2, "this step comes first")],
    ),
    "restraint-gets-its-time": (
        "isolate-battery body",
        1, 'step "s1" lacks a wait (wait:)', 'add a wait (wait:) to "s1"',
        [],
    ),
}  # fmt: skip


def _step(at: int, text: str) -> str:
    act, subjects, *rest = text.split()
    on = ", ".join(name if name in LONE_SUBJECTS else _reference(name) for name in subjects.split(","))
    return STEP.format(key=f"s{at}", act=act, on=on, more=f", method: {rest[1]}" if rest else "")


def _reference(name: str) -> str:
    side, own = ("other:", name[6:]) if name.startswith("other:") else ("", name)
    return f"{side}{find(own)}"


@pytest.fixture(scope="module")
def outcome(tmp_path_factory: pytest.TempPathFactory) -> pipeline.Outcome:
    """One book with a procedure for each of the rules."""
    folder = tmp_path_factory.mktemp("broken") / "own"
    (folder / "procedures").mkdir(parents=True)
    for rule, (steps, *_) in WAYS.items():
        told = "".join(_step(at, text) for at, text in enumerate(steps.split(" > "), 1))
        (folder / "procedures" / f"{rule}.yaml").write_text(HEAD.format(name=rule) + told + FOOT, "utf-8")
    return pipeline.make(pipeline.Order((*LAYERS, Layer(folder, "own")), processes=1))


@pytest.mark.parametrize("rule", sorted(WAYS))
def test_a_breach_is_told_with_its_reason_and_both_places(rule: str, outcome: pipeline.Outcome) -> None:
    _, at, message, do, others = WAYS[rule]
    record = yaml.load((CONTENT / "rules" / f"{rule}.yaml").read_text("utf-8"), yaml.CSafeLoader)
    (problem,) = [one for one in outcome.problems if one.span.file == f"own/procedures/{rule}.yaml" and _is(one, rule)]
    assert (problem.message, problem.do) == (message, do)
    assert problem.why == f"{record['title']}: {record['because']}"
    assert problem.level == record["level"]
    assert _key(problem.span, outcome) == f"s{at}"
    assert [(_key(other.span, outcome), other.label) for other in problem.see[:-1]] == [
        (f"s{step}", label) for step, label in others
    ]
    assert problem.see[-1].span.file == f"content/rules/{rule}.yaml"


def test_nothing_of_the_book_is_built(outcome: pipeline.Outcome) -> None:
    assert outcome.failed(strict=False)
    assert outcome.published is None


def _is(problem: Problem, rule: str) -> bool:
    return any(other.span.file == f"content/rules/{rule}.yaml" for other in problem.see)


def _key(span: Span, outcome: pipeline.Outcome) -> str:
    """Return the key of the step that a place is in: each stands on a line of its own."""
    return line_of(outcome)(span).split("key: ")[1].split(",")[0]


def test_the_folder_of_made_up_records_is_sound(outcome: pipeline.Outcome) -> None:
    assert [problem.message for problem in outcome.problems if problem.span.file.startswith("made-up/")] == []
