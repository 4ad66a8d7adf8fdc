"""What procedures bring along for one another, circles in which they may not, and a breach in words."""

from __future__ import annotations

import pytest

from builder.check import check_procedure, circles
from builder.model.problem import Problem
from builder.model.reference import Ref
from builder.model.summary import Summary
from tests.check.little import catalogue, little_law, locate, steps_of, summary

WELD = "coat k > air body > coupon welder > weld a > watch body > seal a"


def procedure(name: str, steps: str, *relies_on: str) -> Summary:
    return summary(Ref("procedure", name), steps_of(steps), relies_on)


def judged(name: str, *procedures: Summary) -> list[Problem]:
    law = little_law(*procedures)
    return list(check_procedure(Ref("procedure", name), law, locate))


def test_states_are_brought_along_over_several_procedures() -> None:
    first, second, third = procedure("first", "prime a"), procedure("second", "air body", "first"), "third"
    assert judged(third, first, second, procedure(third, WELD, "second")) == []
    assert [problem.code.id for problem in judged(third, first, second, procedure(third, WELD))] == ["C301"]


def test_what_the_procedure_before_spoils_is_not_brought() -> None:
    spoiled = procedure("first", "prime a > air body > drill a")
    (problem,) = judged("then", spoiled, procedure("then", WELD, "first"))
    assert problem.message == 'step "s4" needs this first: protected (A), which no step before it makes'


def test_what_lasts_a_day_is_not_brought_along() -> None:
    first = procedure("first", "prime a > air body > coupon welder > watch body")
    (problem,) = judged("then", first, procedure("then", "coat k > air body > weld a > watch body > seal a", "first"))
    assert problem.message == 'step "s3" needs this first: proven (welder), which no step before it makes'


def test_vapour_is_brought_along_too_and_has_no_place_here() -> None:
    (problem,) = judged("then", procedure("first", "coat k"), procedure("then", "coupon welder", "first"))
    assert problem.code.id == "C302"
    assert [related.label for related in problem.see] == ["the rule"]


@pytest.mark.parametrize(("relies", "told"), [
    ({"a": "b", "b": "a"}, ["a -> b -> a"]),
    ({"a": "a"}, ["a -> a"]),
    ({"a": "b", "b": "c", "c": "b"}, ["b -> c -> b"]),
    ({"a": "b", "b": "a", "c": "d", "d": "c"}, ["a -> b -> a", "c -> d -> c"]),
    ({"a": "bc", "b": "d", "c": "d", "d": ""}, []),
    ({"a": "b", "b": "c", "c": "a", "d": "a"}, ["a -> b -> c -> a"]),
])  # fmt: skip
def test_each_circle_is_told_once(relies: dict[str, str], told: list[str]) -> None:
    found = circles(catalogue(*(procedure(name, "air body", *others) for name, others in relies.items())), locate)
    assert [problem.message.rsplit(": ", 1)[1] for problem in found] == told
    assert {problem.code.id for problem in found} <= {"C306"}


def test_a_long_chain_of_reliance_is_no_circle() -> None:
    chain = [procedure(f"p{at}", "air body", *([f"p{at - 1}"] if at else [])) for at in range(3000)]
    assert circles(catalogue(*chain), locate) == ()


def test_a_breach_quotes_the_reason_and_shows_both_places() -> None:
    (problem,) = judged("spoiled", procedure("spoiled", f"prime a > drill a > {WELD}"))
    assert problem.message == 'step "s6" needs this first: protected (A), which a step before it spoiled'
    assert problem.do == 'put a step "prime" after "s3" and before "s4"'
    assert problem.why == "lap: the reason of lap"
    assert problem.span == locate(Ref("procedure", "spoiled"), ("phases", 0, "steps", 5, "act"))
    assert [(related.span.file, related.label) for related in problem.see] == [
        ("procedure:spoiled/phases/0/steps/1/act", "it was spoiled here"), ("rule:lap/title", "the rule"),
    ]  # fmt: skip


def test_an_exemption_is_placed_at_its_own_rule() -> None:
    (problem,) = judged("x", procedure("x", "air body but lap"))
    assert (problem.code.id, problem.level) == ("C305", "warning")
    assert problem.span.file.endswith("steps/0/except/0/rule")


HOT = "coat k > prime a > air body > coupon welder > watch body > weld a"
"""It leaves a watch and a bead owed."""


def passing(name: str, steps: str, passes_on: str, *relies_on: str) -> Summary:
    rules = tuple(passes_on.split())
    return procedure(name, steps, *relies_on)._replace(passes_on=rules, passed_because=("-",) * len(rules))


def told(*procedures: Summary) -> list[str]:
    """What is owed in the last of these: the rule, and the field it is told at."""
    found = judged(procedures[-1].ref.id, *procedures)
    return sorted(f"{problem.why}, {problem.span.file.split('/', 1)[1]}" for problem in found)


def test_what_is_passed_on_is_owed_by_who_relies() -> None:
    first = passing("first", HOT, "fire bead")
    assert told(first) == []
    owed = ["bead: the reason of bead, relies_on", "fire: the reason of fire, relies_on"]
    assert told(first, procedure("then", "air body", "first")) == owed
    assert told(first, procedure("then", "watch body > seal a", "first")) == []
    assert told(first, procedure("then", "seal a", "first")) == owed[1:]


def test_what_is_not_passed_on_stays_with_who_owes_it() -> None:
    first = passing("first", HOT, "bead")
    assert told(first) == ["fire: the reason of fire, phases/0/steps/5/act"]
    assert told(first, procedure("then", "seal a", "first")) == []


def test_it_may_be_passed_on_again_and_is_settled_once() -> None:
    first, second = passing("first", HOT, "fire bead"), passing("second", "seal a", "fire", "first")
    assert told(first, second) == []
    assert told(first, second, procedure("third", "air body", "second")) == ["fire: the reason of fire, relies_on"]
    assert told(first, second, procedure("third", "watch body", "second")) == []
    paid = procedure("paid", "watch body > seal a", "first")
    assert told(first, paid, procedure("last", "air body", "first", "paid")) == []


def test_what_is_set_aside_is_not_passed_on() -> None:
    first = passing("first", HOT.replace("weld a", "weld a but bead"), "fire")
    assert told(first, procedure("then", "watch body", "first")) == []


def test_nothing_owed_is_needlessly_passed_on() -> None:
    (problem,) = judged("first", passing("first", "air body", "fire"))
    assert (problem.code.id, problem.level) == ("C305", "warning")
    assert problem.span == locate(Ref("procedure", "first"), ("passes_on", 0, "rule"))
    assert problem.do == "take it out of passes_on"
