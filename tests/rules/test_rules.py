"""For every rule a smallest procedure that breaks it and one that keeps it; a failing id is a line of a case file."""

from __future__ import annotations

from builder.check.order import judge
from tests.rules.notation import Case, cases, edits, steps_of, written
from tests.rules.supplied import CONTENT, find, law

ALL = cases()
RULES = sorted(path.stem for path in (CONTENT / "rules").glob("*.yaml"))


def _of(word: str) -> list[Case]:
    found = [case for case in ALL if case.word == word]
    assert len(found) > 80
    return found


def broken(rule: str, steps: tuple[str, ...]) -> set[str]:
    """Return what a procedure breaks of one rule."""
    return {written(breach) for breach in judge(law(), steps_of(steps, find)) if breach.rule_id == rule}


def test_what_keeps_a_rule_is_not_told_of_it() -> None:
    assert {case.place: found for case in _of("keeps") if (found := broken(case.rule, case.steps))} == {}


def test_what_breaks_a_rule_breaks_just_that() -> None:
    wrong = {case.place: found for case in _of("breaks") if (found := broken(case.rule, case.steps)) != case.expected}
    assert wrong == {}


def test_what_breaks_a_rule_is_one_edit_away_from_what_keeps_it() -> None:
    assert [case.place for case in _of("breaks") if edits(case.kept, case.steps) != 1] == []


def test_a_rule_says_nothing_outside_its_scope() -> None:
    assert {case.place: found for case in _of("spares") if (found := broken(case.rule, case.steps))} == {}


def test_what_is_outside_its_scope_is_one_edit_away_from_what_breaks_it() -> None:
    assert [case.place for case in _of("spares") if edits(case.broken, case.steps) != 1] == []


def test_nothing_can_be_left_out() -> None:
    assert {case.place: step for case in _of("breaks") if (step := left_out(case))} == {}


def left_out(case: Case) -> str | None:
    """Return a step without which the two would still show the rule kept and broken."""
    for at, step in enumerate(case.kept):
        for other_at, other in enumerate(case.steps):
            kept, steps = case.kept[:at] + case.kept[at + 1:], case.steps[:other_at] + case.steps[other_at + 1:]
            if step == other and edits(kept, steps) == 1 and broken(case.rule, steps) and not broken(case.rule, kept):
                return step
    return None


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
