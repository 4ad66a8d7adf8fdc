"""Rows of a decision that remain while inputs are open, held against working every case out."""

from __future__ import annotations

import random
from collections.abc import Iterator, Mapping
from itertools import product
from pathlib import Path

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from builder.formula import ChoiceKind, Program, Value, choice, number, parse, run
from builder.formula.evaluate import evaluate, worker_of
from builder.formula.inputs import answer
from builder.formula.reach import unreachable_rows
from builder.formula.remaining import Partly, Remaining
from builder.formula.rest import AllOf, Compared, OneOf, Picks, Rest
from builder.model.expression import Expression
from builder.pipeline import calculators
from builder.supplied import layer
from tests.formula.test_formula_program import program
from tests.sweeps import examples

IDS = {"joint": ("lap", "butt", "hem"), "side": ("both", "one"), "old": ("yes", "no", "unknown")}
NUMBERS = ("1", "2", "3")
"""All that may be given for the count, so that every case can be worked out."""
KINDS = {**{name: choice(ids) for name, ids in IDS.items()}, "count": number(), "carried": number(), "chosen": choice(
    ("lap", "hem"))}  # fmt: skip
Case = Mapping[str, str]

of_choices = st.sampled_from(
    [f'{name} {sign} "{id_}"' for name, ids in IDS.items() for id_ in ids for sign in ("==", "!=")]
)
carried = st.sampled_from(["carried > 0", "carried <= 0", '"lap" == chosen', 'chosen != "hem"'])
of_numbers = st.sampled_from(["count < 2", "count >= 2", "2 < count"])


def joined(atoms: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    return st.recursive(
        atoms,
        lambda inner: st.tuples(inner, st.sampled_from(["and", "or"]), inner).map(
            lambda parts: "({} {} {})".format(*parts))
        | inner.map(lambda text: f"(not {text})"),
        max_leaves=5,
    )  # fmt: skip


def made(texts: list[str], carried_if: str) -> Program:
    """A calculator of these rows; those that nothing reaches are left out, as it would not be compiled with them."""
    trees = [tree for text in texts if not hasattr(tree := parse(text), "message")]
    unreached = unreachable_rows(trees, KINDS)  # type: ignore[arg-type]
    rows = [{"if": text, "answer": f"a{at}", "say": f"S{at}", "because": "B"}
            for at, text in enumerate(texts) if at not in unreached]  # fmt: skip
    inputs = {name: {"ask": name, "start": ids[0], "choose": dict(zip(ids, ids, strict=True))}
              for name, ids in IDS.items()}  # fmt: skip
    return program(
        inputs={**inputs, "count": {"ask": "Count", "start": "1", "one_of": list(NUMBERS)}},
        fixed={"two": {"value": "2", "source": "s"}},
        work={"carried": f"1 if {carried_if} else 0", "chosen": f'"lap" if {carried_if} else "hem"',
              "spare": "two * carried"},
        decide={"advice": [*rows, {"otherwise": "last", "say": "L", "because": "B"}],
                "then": [{"if": f'advice == "{rows[0]["answer"]}" and side == "one"' if rows else 'side == "one"',
                          "answer": "x", "say": "X", "because": "B"},
                         {"otherwise": "y", "say": "Y", "because": "B"}]},
        outputs={"advice": {"say": "A"}, "then": {"say": "T"}, "spare": {"say": "S"}},
        proofs=[{"given": {**{name: ids[0] for name, ids in IDS.items()}, "count": "1"},
                 "expect": {"spare": "0", "advice": "last", "then": "y"}, "source": "s"}],
    )  # fmt: skip


def cases(known: Case) -> Iterator[Case]:
    """Every way in which what is open may turn out."""
    names = {**IDS, "count": NUMBERS}
    for found in product(*((known[name],) if name in known else ids for name, ids in names.items())):
        yield dict(zip(names, found, strict=True))


def partly(compiled: Program, known: Case) -> Partly:
    values: dict[str, Value] = {}
    for name, text in known.items():
        value = answer(compiled.questions[name], text)
        assert isinstance(value, str | float)
        values[name] = value
    options = {name: tuple(question.choices) for name, question in compiled.questions.items()
               if question.choices and name not in known}  # fmt: skip
    return Partly(compiled, values, options)


def holds(rest: Rest, values: Mapping[str, Value]) -> bool:
    match rest:
        case Picks():
            return values[rest.name] in rest.ids
        case Compared():
            return evaluate(worker_of(rest.node), values) is True
        case AllOf():
            return all(holds(part, values) for part in rest.parts)
        case OneOf():
            return any(holds(part, values) for part in rest.parts)
    return rest


def condition_of(row: Remaining) -> Expression | None:
    return row.branch.condition


@settings(max_examples=examples(150), deadline=None)
@given(st.lists(joined(of_choices | carried), min_size=1, max_size=6), joined(of_choices), st.data())
def test_of_open_choices_the_rows_are_exactly_those_that_come_first_in_some_case(
    texts: list[str], carried_if: str, data: st.DataObject
) -> None:
    compiled = made(texts, carried_if)
    known = data.draw(st.fixed_dictionaries({"count": st.sampled_from(NUMBERS)}, optional={
        name: st.sampled_from(ids) for name, ids in IDS.items()}))  # fmt: skip
    found = partly(compiled, known).remaining(["advice", "then"])
    answers = [run(compiled, case) for case in cases(known)]
    assert {row.row for row in found} == {one.rows["advice"] for one in answers}
    for row in found:
        wanted = {one.rows["then"] for one in answers if one.rows["advice"] == row.row}
        assert {after.row for after in row.then} == wanted
    assert [row.row for row in found] == sorted({row.row for row in found})


@settings(max_examples=examples(150), deadline=None)
@given(st.lists(joined(of_choices | carried | of_numbers), min_size=1, max_size=6), joined(of_choices | of_numbers),
       st.data())  # fmt: skip
def test_with_open_numbers_no_row_that_comes_first_is_missing(
    texts: list[str], carried_if: str, data: st.DataObject
) -> None:
    compiled = made(texts, carried_if)
    known = data.draw(st.fixed_dictionaries({}, optional={
        "count": st.sampled_from(NUMBERS), **{name: st.sampled_from(ids) for name, ids in IDS.items()}}))  # fmt: skip
    rows = {row.row: row for row in partly(compiled, known).remaining(["advice", "then"])}
    for case in cases(known):
        one = run(compiled, case)
        assert one.rows["advice"] in rows
        assert one.rows["then"] in {after.row for after in rows[one.rows["advice"]].then}


@settings(max_examples=examples(200), deadline=None)
@given(joined(of_choices | carried | of_numbers), joined(of_choices | of_numbers), st.data())
def test_what_a_row_hangs_on_is_true_in_a_case_where_its_condition_is(
    text: str, carried_if: str, data: st.DataObject
) -> None:
    compiled = made([text], carried_if)
    known = data.draw(st.fixed_dictionaries({}, optional={
        "count": st.sampled_from(NUMBERS), **{name: st.sampled_from(ids) for name, ids in IDS.items()}}))  # fmt: skip
    found = partly(compiled, known).remaining(["advice"])
    assume(found[0].row == 0 and condition_of(found[0]) is not None and len(found) > 1)
    condition = condition_of(found[0])
    assert condition is not None
    for case in cases(known):
        values = run(compiled, case).values
        assert holds(found[0].rest, values) is evaluate(worker_of(condition), values)


@pytest.mark.parametrize("text", [
    'joint != "hem" and (joint == "lap" or side == "one")',
    'joint != "hem" and (joint == "hem" or side == "one")',
    'joint != "hem" and (joint == "butt" and side == "one" or joint == "hem" and old == "no")',
    'joint == "lap" or not (joint == "lap" or side == "one")',
    'not (joint == "lap" and (count < 2 or old != "no"))',
    'joint != "lap" and joint != "butt" and (carried > 0 or joint == "lap")',
])  # fmt: skip
def test_what_these_hang_on_is_true_where_they_are(text: str) -> None:
    compiled = made([text], 'side == "one" and old != "yes"')
    found = partly(compiled, {}).remaining(["advice"])
    condition = condition_of(found[0])
    assert condition is not None
    truths = set()
    for case in cases({}):
        values = run(compiled, case).values
        truths.add(holds(found[0].rest, values))
        assert holds(found[0].rest, values) is evaluate(worker_of(condition), values)
    assert truths == {True, False}


def test_one_row_alone_is_the_answer_and_nothing_follows_it() -> None:
    compiled = made(['joint == "lap"', 'side == "one"'], 'old == "yes"')
    found = partly(compiled, {"joint": "lap"}).remaining(["advice"])
    assert [(row.branch.answer, row.rest) for row in found] == [("a0", True)]


def test_what_the_rows_hang_on_is_told_without_what_is_known() -> None:
    compiled = made(['joint == "lap" and (side == "one" or carried > 0)', "count < 2"], 'old != "no"')
    first, second, last = partly(compiled, {"joint": "lap"}).remaining(["advice"])
    assert isinstance(first.rest, OneOf)
    assert [(part.name, sorted(part.ids)) for part in first.rest.parts if isinstance(part, Picks)] == [
        ("side", ["one"]), ("old", ["unknown", "yes"]),
    ]  # fmt: skip
    assert isinstance(second.rest, Compared)
    assert last.rest is True


SUPPLIED = calculators((layer("supplied", Path()),))[0]
DECIDING = sorted(
    (id_, name) for id_, one in SUPPLIED.items()
    if one.points is None for name in one.record.decide if name in one.outputs
)  # fmt: skip


def given_anything(compiled: Program, rng: random.Random) -> dict[str, str]:
    """Something for every input, numbers mostly near those its proofs hold."""
    told: dict[str, list[str]] = {}
    for proof in compiled.record.proofs:
        for name, text in proof.given.items():
            told.setdefault(name, []).append(text)
    found = {}
    for name, question in compiled.questions.items():
        start = question.start if question.start is not None else question.default
        texts = list(question.choices) if isinstance(question.kind, ChoiceKind) else [*told.get(name, ()), start or "1"]
        found[name] = rng.choice(texts)
    return found


@pytest.mark.parametrize(("id_", "name"), DECIDING)
def test_of_every_supplied_decision_the_row_that_wins_was_among_those_that_remained(id_: str, name: str) -> None:
    compiled, rng = SUPPLIED[id_], random.Random(f"{id_} {name}")
    judged = 0
    for _ in range(25):
        case = given_anything(compiled, rng)
        row = run(compiled, case).rows.get(name)
        if row is None:
            continue
        judged += 1
        for _ in range(3):
            known = {one: text for one, text in case.items() if rng.random() < 0.7}
            assert row in {one.row for one in partly(compiled, known).remaining([name])}, (case, known)
        assert row in {one.row for one in partly(compiled, case).remaining([name])}
    assert judged > 10
