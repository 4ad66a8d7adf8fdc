"""What a step tells of a segment: which sheets stay, seen from the tools, and what is strict for those that do."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import TypeAdapter

from builder.formula.facts import fact_kinds
from builder.formula.kinds import ChoiceKind, NumberKind
from builder.model.links import Catalogue
from builder.model.records.procedure import Step
from builder.model.reference import Ref
from builder.model.summary import Facts, Stack, StackedSheet, Summary
from builder.work import Shop
from builder.work.told import step_facts

_STEP = TypeAdapter(Step)

WORDS = ("mild", "high-strength", "advanced", "unknown")
SCALES = {"strength": WORDS, "coating": ("bare",), "joint": ("lap",)}
SHOP = Shop({}, {}, SCALES)
Sheet = tuple[str, float | None, str]


def told(*sheets: Sheet, keep: str = "", sides: str = "both", skins: Mapping[str, str | None] | None = None,
         **step: Any) -> Facts:  # fmt: skip
    """What a step tells of a segment with these sheets: panel, thickness, strength."""
    summaries = {
        Ref("panel", name): _summary(Ref("panel", name), {"skin": skin, "load_bearing": "yes"})
        for name, skin in (skins or {}).items()
    }
    catalogue = Catalogue(summaries, frozenset(), {Ref("panel", "old"): Ref("panel", "a")}, {}, frozenset())
    stack = Stack(tuple(StackedSheet(*sheet) for sheet in sheets), "")
    seam = _summary(Ref("seam", "s"), {"sides": sides, "name": ""}, (stack,))
    made = _STEP.validate_python(
        {"key": "k", "act": "free", "on": "seam:s", "do": "D", "keep": keep.split(), **step}
    )
    return step_facts(made, seam, 0, catalogue, SHOP)


def _summary(ref: Ref, facts: Facts, stacks: tuple[Stack, ...] = ()) -> Summary:
    return Summary(ref, ref.id, (), (), (), (), (facts,), {}, (), stacks=stacks)


def stack(count: int) -> list[Sheet]:
    return [(name, 0.001 * (at + 1), "mild") for at, name in enumerate("abcd"[:count])]


@pytest.mark.parametrize(("count", "keep", "sides", "face", "place", "scrap_face"), [
    (2, "b", "both", None, "back", "yes"),
    (2, "a", "both", None, "back", "yes"),  # the tools come from the inside then
    (2, "b", "one", "outer", "back", "yes"),
    (2, "a", "one", "outer", "front", "no"),
    (2, "a", "one", "inner", "back", "yes"),
    (2, "b", "one", None, None, None),
    (2, "a b", "both", None, "both", "no"),
    (2, "a b", "one", None, "both", "no"),
    (2, "", "both", None, None, None),
    (2, "z", "both", None, None, None),
    (2, "old", "one", "outer", "front", "no"),  # the panel's old name
    (3, "b c", "both", None, "back", "yes"),
    (3, "a b", "both", None, "back", "yes"),
    (3, "a", "one", "outer", "front", "no"),
    (3, "a c", "both", None, "both", "no"),
    (3, "a c", "one", None, "both", "no"),
    (3, "b", "one", None, "middle", "yes"),
    (3, "c", "both", None, None, "yes"),  # two go and one stays: no word says it
    (3, "a b c", "both", None, None, "no"),
    (3, "a b", "one", "outer", None, "no"),
    (4, "b c d", "one", "outer", "back", "yes"),
    (4, "b c", "both", None, "middle", "yes"),
    (4, "a d", "both", None, "both", "no"),
])  # fmt: skip
def test_which_sheets_stay(
    count: int, keep: str, sides: str, face: str | None, place: str | None, scrap_face: str | None
) -> None:
    found = told(*stack(count), keep=keep, sides=sides, face=face)
    assert (found["kept_place"], found["scrap_face"]) == (place, scrap_face)


def test_of_several_sheets_the_strict_one_is_told() -> None:
    found = told(("a", 0.0008, "mild"), ("b", 0.0012, "high-strength"), ("c", 0.001, "mild"), keep="b c")
    assert (found["kept_thickness"], found["scrap_thickness"]) == (0.001, 0.0008)
    assert (found["kept_strength"], found["scrap_strength"], found["outer_stays"]) == ("high-strength", "mild", "no")


def test_a_sheet_nobody_knows_leaves_nothing_known_of_its_lot() -> None:
    found = told(("a", None, "mild"), ("b", 0.0012, "unknown"), ("c", 0.001, "advanced"), keep="b c")
    assert found["scrap_thickness"] is None
    assert found["kept_thickness"] == 0.001
    assert found["kept_strength"] == "unknown"
    assert told(("a", 0.001, "mild"), ("b", None, "mild"), ("c", 0.001, "mild"), keep="b c")["kept_thickness"] is None


def test_what_no_step_says_has_no_answer() -> None:
    found = told(*stack(2))
    for name in ("kept_place", "kept_thickness", "scrap_thickness", "kept_strength", "scrap_strength", "kept_skin",
                 "outer_stays", "scrap_face", "method"):  # fmt: skip
        assert found[name] is None, name
    assert found["makes_holes"] == "no"
    said = told(*stack(2), method="m", makes_holes="yes")
    assert (said["method"], said["makes_holes"]) == ("m", "yes")


@pytest.mark.parametrize(("skins", "found"), [
    ({"a": "no", "b": "yes", "c": "no"}, "yes"), ({"a": "yes", "b": "no", "c": "no"}, "no"),
    ({"a": "no", "b": None, "c": "no"}, None), ({"a": "no", "b": None, "c": "yes"}, "yes"),
    ({"a": "no", "b": "no"}, None),
])  # fmt: skip
def test_a_skin_stays_where_one_kept_panel_is_one(skins: dict[str, str | None], found: str | None) -> None:
    assert told(*stack(3), keep="b c", skins=skins)["kept_skin"] == found


def test_every_fact_has_a_kind_and_every_kind_a_fact() -> None:
    seam = set(fact_kinds("seam", SCALES))
    assert set(told(*stack(2))) - {"name", "sides"} == set(fact_kinds("step", SCALES)) - seam


thicknesses = st.one_of(st.none(), st.sampled_from([0.0007, 0.001, 0.0016]))
sheets_drawn = st.lists(
    st.tuples(st.sampled_from("abcde"), thicknesses, st.sampled_from(WORDS)), min_size=1, max_size=5
)


@given(sheets_drawn, st.sets(st.sampled_from("abcde"), max_size=4), st.sampled_from(["one", "both"]),
       st.sampled_from([None, "outer", "inner"]))  # fmt: skip
def test_facts_are_of_their_kinds_and_turn_round_with_the_stack(
    sheets: list[Sheet], keep: set[str], sides: str, face: str | None
) -> None:
    def tell(order: list[Sheet], side: str | None) -> Facts:
        return told(*order, keep=" ".join(sorted(keep)), sides=sides, face=side)

    found = tell(sheets, face)
    kinds = fact_kinds("step", {**SCALES, "method": ()})
    for name, value in found.items():
        kind = kinds.get(name)
        if isinstance(kind, ChoiceKind) and value is not None:
            assert value in kind.ids, name
        elif isinstance(kind, NumberKind):
            assert value is None or isinstance(value, float), name
    turned = tell(sheets[::-1], {"outer": "inner", "inner": "outer"}.get(face or ""))
    for name in ("kept_thickness", "scrap_thickness", "kept_strength", "scrap_strength", "kept_skin"):
        assert turned[name] == found[name]
    if not (keep & {sheets[0][0]} and keep & {sheets[-1][0]}) and (keep & {sheets[0][0], sheets[-1][0]}):
        assert (turned["kept_place"], turned["scrap_face"]) == (found["kept_place"], found["scrap_face"])
