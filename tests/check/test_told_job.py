"""What the law says to a procedure's steps, told by names: the same as it tells the walk by numbers."""

from __future__ import annotations

from builder.check.binding import bind
from builder.check.brought import NOTHING, Brought
from builder.check.law import Law
from builder.check.told_job import procedure_law
from builder.model.job_law import ProcedureLaw, Whose
from builder.model.reference import Ref
from builder.model.summary import Summary
from tests.check.little import little_law, steps_of


def told(text: str, brought: Brought = NOTHING) -> ProcedureLaw:
    steps = steps_of(text)
    law = little_law()
    found = procedure_law(law, Summary(Ref("procedure", "x"), "X", (), (), (), (), (), {}, steps), brought)
    for step, said in zip(steps, found.steps, strict=True):
        bound = bind(law, step)
        assert {_held(law, number) for number in bound.makes} == {found.states[at] for at in said.makes}
        assert {_held(law, number) for number in bound.spoils} == {found.states[at] for at in said.spoils}
        if not bound.exempt:
            assert {_held(law, one) for one in bound.needed} == {found.states[one.state] for one in said.needs}
        assert len(said.owes) == len(bound.owes)
        assert len(said.orders) == len(bound.orders)
        assert len(said.anywhere) == len(bound.wide)
    return found


def _held(law: Law, number: int) -> Whose:
    state, ref = law.numbers.held(number)
    handed = ref.record in law.catalogue.handed
    return Whose(state, str(ref.record), ref.side if handed else None)


def test_states_are_named_by_whose_they_are() -> None:
    found = told("weld a,other:a by plug > weld b by bond")
    needed = {found.states[one.state] for one in found.steps[0].needs if one.rule == "lap"}
    assert needed == {Whose("protected", "seam:a", "this"), Whose("protected", "seam:a", "other")}
    assert {one.rule for one in found.steps[0].needs} == {"lap", "inside", "coupon-first"}
    welder = {found.states[one.state] for one in found.steps[0].needs if one.rule == "coupon-first"}
    assert welder == {Whose("proven", "welder", None)}


def test_what_excuses_is_told_beside_the_rule() -> None:
    (step,) = told("join a by bond").steps
    found = told("join a by bond")
    (ban,) = step.bans
    assert (ban.rule, found.states[ban.state].name) == ("no-holes", "holed")
    assert [found.states[at] for at in ban.excuse] == [Whose("held", "body", None)]


def test_rules_that_a_step_sets_aside_are_left_out() -> None:
    assert "lap" in {one.rule for one in told("weld a by plug").steps[0].needs}
    assert "lap" not in {one.rule for one in told("weld a by plug but lap").steps[0].needs}


def test_what_comes_first_is_told_by_acts() -> None:
    found = told("seal a > colour p > give-back body")
    (first,), (colour,), (last,) = (step.orders for step in found.steps)
    assert (first.rule, [found.acts[at] for at in first.acts]) == ("bead-last", [Whose("weld", "seam:a", "this")])
    assert colour.rule == "colour-last"
    assert (last.rule, [found.acts[at] for at in last.acts]) == ("joined-first", [Whose("join", "", None)])


def test_rules_about_anybody_say_from_whose_side() -> None:
    found = told("free a > give-back body > change-wire welder")
    (one,), (two,), () = (step.anywhere for step in found.steps)
    assert (one.rule, one.subject, one.side) == ("one-side", "seam:a", "this")
    assert (two.rule, two.subject, two.side) == ("all-closed", "body", None)
    assert found.steps[2].wipes == ("tested",)


def test_of_what_is_brought_along_only_what_is_asked_for() -> None:
    clean, sealed = ("protected", Ref("seam", "a")), ("sealed", Ref("seam", "b"))
    found = told("weld a by plug", Brought((clean, sealed)))
    assert [found.states[at] for at in found.brought] == [Whose("protected", "seam:a", "this")]
