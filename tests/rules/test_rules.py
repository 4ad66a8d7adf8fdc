"""For every rule a smallest procedure that breaks it and one that keeps it; a failing id is a line of a case file."""

from __future__ import annotations

import pytest

from builder.check.order import judge
from tests.rules.notation import Case, cases, edits, steps_of, written
from tests.rules.supplied import CONTENT, find, law

ALL = cases()
RULES = sorted(path.stem for path in (CONTENT / "rules").glob("*.yaml"))


def _of(word: str) -> list[object]:
    return [pytest.param(case, id=case.place) for case in ALL if case.word == word]


def broken(rule: str, steps: tuple[str, ...]) -> set[str]:
    """Return what a procedure breaks of one rule."""
    return {written(breach) for breach in judge(law(), steps_of(steps, find)) if breach.rule_id == rule}


@pytest.mark.parametrize("case", _of("keeps"))
def test_what_keeps_a_rule_is_not_told_of_it(case: Case) -> None:
    assert broken(case.rule, case.steps) == set()


@pytest.mark.parametrize("case", _of("breaks"))
def test_what_breaks_a_rule_breaks_just_that(case: Case) -> None:
    assert broken(case.rule, case.steps) == case.expected
    assert edits(case.kept, case.steps) == 1, "it is more than one edit away from what keeps the rule"


@pytest.mark.parametrize("case", _of("spares"))
def test_a_rule_says_nothing_outside_its_scope(case: Case) -> None:
    assert broken(case.rule, case.steps) == set()
    assert edits(case.broken, case.steps) == 1, "it is more than one edit away from what breaks the rule"


@pytest.mark.parametrize("case", _of("breaks"))
def test_nothing_can_be_left_out(case: Case) -> None:
    """Without any further step the two would no longer show the rule kept and broken."""
    for at, step in enumerate(case.kept):
        for other_at, other in enumerate(case.steps):
            kept, steps = case.kept[:at] + case.kept[at + 1:], case.steps[:other_at] + case.steps[other_at + 1:]
            if step == other and edits(kept, steps) == 1:
                assert not (broken(case.rule, steps) and not broken(case.rule, kept)), f"{step} can be left out"


def test_every_rule_has_both() -> None:
    shown = {word: {case.rule for case in ALL if case.word == word} for word in ("keeps", "breaks")}
    assert sorted(shown["keeps"] & shown["breaks"]) == RULES
    assert len(RULES) > 80


def test_no_line_stands_twice() -> None:
    lines = [(case.rule, case.word, case.steps) for case in ALL]
    assert len(set(lines)) == len(lines)


def test_every_step_is_one_that_may_be_written() -> None:
    """Acts are done on what they are for, by methods that there are: no case shows what no author can write."""
    acts, catalogue = law().acts, law().catalogue
    methods = {ref.id for ref in catalogue.summaries if ref.kind == "method"} | {""}
    wrong = [
        (case.place, step.act) for case in ALL for step in steps_of(case.steps, find)
        if not {ref.kind for ref in step.subjects} <= set(acts[step.act].on) or step.method not in methods
    ]  # fmt: skip
    assert wrong == []
