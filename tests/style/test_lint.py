"""The lint of the house style: what it objects to in a step and a procedure, and what it lets pass."""

from __future__ import annotations

from typing import Any

import pytest
import yaml
from pydantic import TypeAdapter

from builder import pipeline
from builder.model.files import Layer
from builder.model.links import Catalogue
from builder.model.records.procedure import Step
from builder.model.records.style import HouseStyle
from builder.model.reference import Ref
from builder.model.summary import Summary
from builder.order import Order
from builder.style import make_manner
from builder.style.steps import hedges, not_listed, second_actions
from tests.site.building import CONTENT

STEP, STYLE = TypeAdapter(Step), TypeAdapter(HouseStyle)
SUPPLIED = yaml.load((CONTENT / "house-style.yaml").read_text("utf-8"), yaml.CBaseLoader)
TITLES = {Ref("tool", "straight-edge"): "Straight edge", Ref("supply", "stone-guard"): "Stone guard",
          Ref("tool", "stands"): "Stands"}  # fmt: skip


def manner(**style: Any) -> Any:
    """The style of a book with two tools and a supply."""
    summaries = {ref: Summary(ref, title, (), (), (), (), (), {}, ()) for ref, title in TITLES.items()}
    return make_manner(STYLE.validate_python(style or SUPPLIED), Catalogue(summaries, frozenset(), {}, {}, frozenset()))


def step(do: str, act: str = "dress", **more: Any) -> Step:
    return STEP.validate_python({"key": "one", "act": act, "on": "body", "do": do, **more})


@pytest.mark.parametrize("hedge", [words for one in SUPPLIED["hedges"] for words in one["say"]])
def test_each_hedge_is_told_where_it_stands(hedge: str) -> None:
    for field, more in (("do", {}), ("key_point", {"key_point": f"Dress it {hedge.upper()}, both ends."})):
        text = f"Dress it {hedge}, both ends." if field == "do" else "Dress it."
        found = [fault for fault in hedges(step(text, **more), manner()) if fault.path == (field,)]
        assert [(fault.start, fault.end) for fault in found] == [(9, 9 + len(hedge))]


@pytest.mark.parametrize("text", ["Dress it unsuitable for paint.", "Dress the nuts and so only these.", "Dress it."])
def test_a_word_that_only_holds_a_hedge_is_none(text: str) -> None:
    assert [*hedges(step(text), manner())] == []


@pytest.mark.parametrize(("act", "do", "found"), [
    ("prime-weld-through", "Prime the flange and weld it.", ["weld"]),
    ("prime-weld-through", "Prime the flange, then weld it; wax the box.", ["weld", "wax"]),
    ("weld-final", "Weld the flange, weld by weld.", []),
    ("weld-final", "Count the welds of the seam and weld these.", []),
    ("dress", "Weld marks go first.", []),
    ("prime-epoxy", "Degrease the edge, and prime it.", []),
    ("inspect", "Look for bead, wax and pad behind the flange, weld by weld.", []),
])  # fmt: skip
def test_a_second_action_begins_a_clause_with_a_verb_of_another_act(act: str, do: str, found: list[str]) -> None:
    faults = [*second_actions(step(do, act), manner())]
    assert [do[fault.start : fault.end] for fault in faults] == found


@pytest.mark.parametrize(("more", "said"), [
    ({}, ["add straight-edge to tools", "add stone-guard to supplies"]),
    ({"tools": ["straight-edge"]}, ["add stone-guard to supplies"]),
    ({"tools": ["straight-edge"], "supplies": ["stone-guard"]}, []),
    ({"act": "strip-sealer"}, []),
])  # fmt: skip
def test_what_is_named_is_listed_unless_it_is_taken_away(more: dict[str, Any], said: list[str]) -> None:
    text = "Lay the straight edge on the stone guard beside the stands."
    assert [fault.do for fault in not_listed(step(text, **more), manner())] == said


def test_where_no_style_is_said_nothing_is_objected_to() -> None:
    silent = make_manner(HouseStyle(), Catalogue({}, frozenset(), {}, {}, frozenset()))
    text = "Prime it as needed and weld it with the straight edge."
    assert [*hedges(step(text), silent), *second_actions(step(text), silent), *not_listed(step(text), silent)] == []


def test_the_supplied_procedures_are_in_the_style_of_the_house() -> None:
    outcome = pipeline.make(Order((Layer(CONTENT, "content"),)))
    assert [problem for problem in outcome.problems if problem.code.id.startswith("H9")] == []
