"""Decisions of the supplied library: what remains for its seams, steps and panels, and that unknown is never looser."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import replace
from urllib.parse import unquote

import pytest

from builder.formula import Program, evaluate_expression, run
from builder.formula.facts import fact_kinds, fact_values
from builder.formula.kinds import ChoiceKind
from builder.model.decided import Case, Decided, Way
from builder.model.records.decision import Decision
from builder.model.reference import Ref
from builder.model.summary import Facts
from builder.passes import unpack
from builder.work import Shop
from builder.work.deciding import Placed, decide
from builder.work.told import segment_facts, step_facts
from tests.sweeps import share
from tests.work.test_seam_plans import Library


@pytest.fixture(scope="module")
def library() -> Library:
    found = Library()
    assert found.problems == ()
    return found


@pytest.fixture(scope="module")
def shop(library: Library) -> Shop:
    return Shop(library.gathered.shelf, library.programs, library.gathered.scales)


def decisions(shop: Shop) -> dict[str, Decision]:
    return {ref.id: one for ref, one in shop.shelf.items() if isinstance(one, Decision)}


def all_decided(library: Library, kind: str) -> Iterator[Decided]:
    for ref in sorted(ref for ref in library.gathered.summaries if ref.kind == kind):
        worked = library.work(ref)
        yield from worked.decided
        yield from (one for found in worked.steps_decided.values() for one in found)


def places(library: Library, shop: Shop, decision: Decision) -> list[Facts]:
    """The facts of every place in the library that a decision is worked out for."""
    summaries = library.gathered.summaries
    seams = [found for ref, found in sorted(summaries.items()) if ref.kind == "seam"]
    if decision.when.on == "panel":
        return [found.facts[0] for ref, found in sorted(summaries.items()) if ref.kind == "panel"]
    if decision.when.on == "seam":
        return [segment_facts(seam, at, library.catalogue, shop) for seam in seams for at in range(len(seam.facts))]
    found = []
    for ref in sorted(ref for ref in summaries if ref.kind == "procedure"):
        record = unpack(ref, library.gathered)
        for step in (step for phase in record.phases for step in phase.steps):  # type: ignore[union-attr]
            for seam in seams:
                if step.act in decision.when.act and str(seam.ref) in step.on:
                    found += [step_facts(step, seam, at, library.catalogue, shop) for at in range(len(seam.facts))]
    return found


def ways(id_: str, decision: Decision, facts: Facts, shop: Shop) -> tuple[Way, ...]:
    found = decide(id_, decision, [Placed("", facts)], shop)
    assert found is not None
    return found.cases[0].ways


def says(found: tuple[Way, ...]) -> list[str]:
    return [way.say for way in found]


def given_in(fragment: str) -> dict[str, str]:
    """What a link fills the calculator's page with, as a reader of the address would understand it."""
    parts = unquote(fragment.removeprefix("in=")).split(",")
    return {name: text.replace("~", " ") for name, text in (part.split(":", 1) for part in parts)}


@pytest.mark.parametrize(("kind", "decision"), [
    ("seam", "how-to-join"), ("procedure", "how-to-free"), ("panel", "repair-or-renew"),
])  # fmt: skip
def test_each_of_the_three_is_shown_somewhere(library: Library, kind: str, decision: str) -> None:
    assert any(decided.decision == decision for decided in all_decided(library, kind))


@pytest.mark.parametrize("id_", ["how-to-join", "how-to-free", "repair-or-renew"])
def test_the_calculator_answers_from_its_link_with_one_of_the_answers_that_remain(
    library: Library, shop: Shop, id_: str
) -> None:
    """Whatever the open inputs turn out to be, as far as they are possible; where one answer remains, with that."""
    rng = random.Random(id_)
    decision = decisions(shop)[id_]
    program = library.programs[decision.works.calculator]
    seen: set[str] = set()
    for facts in places(library, shop, decision):
        found = decide(id_, decision, [Placed("", facts)], shop)
        assert found is not None
        case = found.cases[0]
        known = given_in(case.spots[0].fragment)
        for _ in range(40):
            others = {name: one_of(name, decision, program, facts, rng) for name in program.questions.keys() - known}
            answer = run(program, {**known, **others})
            assert answer.faults == ()
            text = answer.outputs[decision.works.show[0]].text
            assert text in says(case.ways), others
            seen.add(text)
    assert len(seen) > 3


def one_of(name: str, decision: Decision, program: Program, facts: Facts, rng: random.Random) -> str:
    question, possible = program.questions[name], decision.works.possible.get(name, {})
    values = fact_values(facts)
    ids = [id_ for id_ in question.choices
           if id_ not in possible or evaluate_expression(possible[id_], values) is not False]  # fmt: skip
    return rng.choice(ids) if ids else rng.choice([question.start or "0", "0", "1"])


@pytest.mark.parametrize(("id_", "fact"), [
    ("how-to-join", "strongest"), ("how-to-free", "kept_strength"), ("repair-or-renew", "strength"),
])  # fmt: skip
def test_unknown_steel_is_decided_as_the_hardest_is(library: Library, shop: Shop, id_: str, fact: str) -> None:
    decision = decisions(shop)[id_]
    for facts in places(library, shop, decision):
        unknown, advanced, mild, untold = (
            ways(id_, decision, {**facts, fact: word}, shop) for word in ("unknown", "advanced", "mild", None)
        )
        assert says(unknown) == says(advanced)
        assert [way.hangs_on for way in unknown] == [way.hangs_on for way in advanced]
        assert set(says(untold)) >= {*says(unknown), *says(mild)}, "what nobody tells leaves every answer open"


@pytest.mark.parametrize("id_", ["how-to-join", "how-to-free", "repair-or-renew"])
def test_a_fact_that_nobody_tells_takes_no_answer_away(library: Library, shop: Shop, id_: str) -> None:
    decision = decisions(shop)[id_]
    kinds = fact_kinds({"seam": "segment", "panel": "panel"}.get(decision.when.on or "", "step"), shop.scales_told)
    found = places(library, shop, decision)
    assert found
    for facts in share(found, 3):
        whole = set(says(ways(id_, decision, facts, shop)))
        for name, kind in kinds.items():
            untold = set(says(ways(id_, decision, {**facts, name: None}, shop)))
            assert untold >= whole, name
            if isinstance(kind, ChoiceKind):
                for word in kind.ids:
                    assert untold >= set(says(ways(id_, decision, {**facts, name: word}, shop))), (name, word)


def _case(library: Library, ref: Ref, segment: str, step: str = "") -> Case:
    worked = library.work(ref)
    found = worked.steps_decided[step] if step else worked.decided
    return next(case for one in found for case in one.cases if any(segment in spot.name for spot in case.spots))


def test_a_spot_flange_of_plain_steel_hangs_on_the_coupon_and_the_schedule(library: Library) -> None:
    """Table of trade practice, section 3, join method: rows 8, 9 and 12 remain where both faces are reached."""
    case = _case(library, Ref("seam", "rocker-lower"), "Front")
    assert [way.say.split()[0] for way in case.ways] == ["Spot", "MAG", "Stop"]
    assert [len(way.hangs_on) for way in case.ways] == [2, 1, 0]
    assert [spot.name for spot in case.spots] == ["Front and middle", "Jack point"]


def test_where_one_face_is_reached_the_plug_is_the_answer(library: Library) -> None:
    """Row 9; and row 5 where four sheets lie on each other."""
    pillar = Ref("seam", "rocker-to-hinge-pillar")
    assert [way.say.split()[0] for way in _case(library, pillar, "Up the pillar").ways] == ["MAG"]
    assert [way.say.split()[:3] for way in _case(library, pillar, "Foot").ways] == [["Join", "and", "prove"]]


def test_freeing_goes_by_the_sheets_the_step_keeps(library: Library) -> None:
    """Free welds: row 7 for three sheets of which the back two stay, row 5 where only the kept face is reached."""
    rocker = Ref("procedure", "renew-rocker-outer")
    jack = _case(library, rocker, "Jack point", "free-flanges")
    assert [way.say.split()[:4] for way in jack.ways] == [["Mill", "the", "top", "sheet"]]
    quarter = _case(library, rocker, "", "free-quarter")
    assert [way.say.split()[:6] for way in quarter.ways] == [["Drill", "through", "the", "sheet", "that", "stays"]]
    two = _case(library, rocker, "Under the door", "free-flanges")
    assert [way.say.split()[0] for way in two.ways] == ["Measure", "Weaken", "Mill"]


def test_a_part_nobody_sells_is_told_with_each_answer(library: Library) -> None:
    """Modifier after the table of repair or renew: no part made, then donor, else fabricated; never a mount's."""
    case = _case(library, Ref("panel", "floor-patch"), "")
    then = {after.say.split()[0] for way in case.ways for after in way.then}
    assert {"No", "Go"} <= then
    assert all(len(way.then) == 1 for way in case.ways), "the part being settled, so is what follows"


def test_places_for_which_the_same_remains_stand_together(shop: Shop, library: Library) -> None:
    decision = decisions(shop)["how-to-join"]
    facts = places(library, shop, decision)[0]
    found = decide("how-to-join", decision, [Placed("one", facts), Placed("two", {**facts, "layers": 3.0})], shop)
    assert found is not None
    assert [[spot.name for spot in case.spots] for case in found.cases] == [["one", "two"]]
    assert {warned.at for warned in found.cases[0].warned} == {("two",)}, "the warning of the third sheet"
    assert "layers" not in {told.ask for told in found.cases[0].known}


def test_what_contradicts_itself_leaves_everything_open(shop: Shop, library: Library) -> None:
    decision = decisions(shop)["how-to-join"]
    shut = dict.fromkeys(decision.works.possible["joint"], "1 > 2")
    none_left = replace(decision, works=replace(decision.works, possible={"joint": shut}))
    open_ = replace(decision, works=replace(decision.works, possible={}))
    for facts in places(library, shop, decision)[:4]:
        assert ways("a", none_left, facts, shop) == ways("b", open_, facts, shop)
