"""What must hold of every plan of the supplied methods, over made-up segments."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.model.summary import Facts
from tests.sweeps import examples
from tests.work.planning import METHODS, Plan, Sheet, facts, plan

SINGLE = ("resistance-spot", "mag-plug")
"""Methods whose welds stand for the factory's."""
STRENGTHS, COATINGS = ("mild", "high-strength", "advanced"), ("bare", "electro-zinc", "hot-dip-zinc")
_thickness = st.integers(3, 40).map(lambda tenths: f"{tenths / 10} mm")
_sheet = st.tuples(_thickness, st.sampled_from(STRENGTHS), st.sampled_from(COATINGS))
_stack = st.lists(_sheet, min_size=2, max_size=4).map(tuple)
_segment: st.SearchStrategy[dict[str, Any]] = st.fixed_dictionaries({
    "length": st.integers(20, 3000).map(lambda length: f"{length} mm"),
    "flange": st.integers(6, 40).map(lambda flange: f"{flange} mm"),
    "count": st.one_of(st.integers(1, 60), st.none(), st.just("none")),
    "sides": st.sampled_from(["both", "one", "unknown"]),
    "depth": st.integers(10, 400).map(lambda depth: f"{depth} mm"),
})  # fmt: skip
EXAMPLES = settings(max_examples=examples(60))


def tenths(sheet: Sheet) -> int:
    return round(float(sheet[0].split()[0]) * 10)


@pytest.mark.parametrize("method", METHODS)
@EXAMPLES
@given(stack=_stack, segment=_segment)
def test_every_segment_gets_a_plan(method: str, stack: tuple[Sheet, ...], segment: dict[str, Any]) -> None:
    """Nothing that a seam may say makes the plan fail; where there is no answer, why is said."""
    for _, value in plan(method, facts(stack, **segment)).values():
        assert value.text or value.why


@EXAMPLES
@given(stack=_stack, segment=_segment, thinner=st.integers(1, 10), at=st.integers(0, 3))
def test_a_thinner_sheet_never_raises_the_current(
    stack: tuple[Sheet, ...], segment: dict[str, Any], thinner: int, at: int
) -> None:
    at %= len(stack)
    less = max(tenths(stack[at]) - thinner, 1)
    thin = (*stack[:at], (f"{less / 10} mm", *stack[at][1:]), *stack[at + 1 :])
    for method, name in (("resistance-spot", "spot-schedule current"), ("mag-seam", "wire-feed current")):
        before, after = (plan(method, facts(one, **segment)).value(name).number for one in (stack, thin))
        assert before is None or after is None or after <= before * (1 + 1e-9)


@pytest.mark.parametrize("method", METHODS)
@EXAMPLES
@given(stack=_stack, segment=_segment, more=st.integers(1, 500))
def test_a_longer_seam_never_loses_welds(
    method: str, stack: tuple[Sheet, ...], segment: dict[str, Any], more: int
) -> None:
    """Both where the record's length is another and where another length is measured on the same seam."""
    known = facts(stack, **segment)
    length = float(segment["length"].split()[0])
    recorded = facts(stack, **{**segment, "length": f"{length + more} mm"})
    measured: Facts = {**known, "length": (length + more) / 1000}
    before = plan(method, known).made.row
    for longer in (recorded, measured):
        after = plan(method, longer).made.row
        assert before is None or (after is not None and after.count >= before.count)


@pytest.mark.parametrize("method", SINGLE)
@EXAMPLES
@given(stack=_stack, segment=_segment, share=st.integers(20, 200))
def test_never_fewer_than_the_factory(
    method: str, stack: tuple[Sheet, ...], segment: dict[str, Any], share: int
) -> None:
    """Whatever length is measured; where they do not fit, the work stops or the spacing says so."""
    known = facts(stack, **segment)
    made = plan(method, {**known, "length": float(segment["length"].split()[0]) / 1000 * share / 100})
    row = made.made.row
    if row is None:
        return
    assert isinstance(segment["count"], int)
    assert row.count >= segment["count"]
    assert row.first + (row.count - 1) * row.spacing <= row.length + 1e-6
    assert row.order == () or sorted(row.order) == list(range(1, row.count + 1))


def _known_for(change: str, stack: tuple[Sheet, ...], segment: dict[str, Any], at: int, known: Any) -> Facts:
    """The segment with one thing of it known, or unknown."""
    thickness, strength, coating = stack[at]
    sheet = {
        "thickness": (known, strength, coating), "strength": (thickness, known, coating),
        "coating": (thickness, strength, known),
    }.get(change, stack[at])  # fmt: skip
    own = {change: known} if change in segment else {}
    return facts((*stack[:at], sheet, *stack[at + 1 :]), **{**segment, **own})


KNOWN: dict[str, tuple[Any, ...]] = {
    "thickness": ("0.3 mm", "0.6 mm", "0.8 mm", "1.2 mm", "2.0 mm", "3.5 mm", "4.5 mm"),
    "strength": STRENGTHS, "coating": COATINGS, "sides": ("both", "one"),
    "depth": ("20 mm", "120 mm", "200 mm", "700 mm"), "count": (1, 20, 60),
}  # fmt: skip


@pytest.mark.sweep(3)
@pytest.mark.parametrize("method", METHODS)
@pytest.mark.parametrize("change", KNOWN)
@settings(max_examples=examples(25))
@given(stack=_stack, segment=_segment, at=st.integers(0, 3))
def test_unknown_is_never_looser_than_known(
    method: str, change: str, stack: tuple[Sheet, ...], segment: dict[str, Any], at: int
) -> None:
    at %= len(stack)
    if segment["count"] == "none" and change == "count":
        return
    unknown = plan(method, _known_for(change, stack, segment, at, None if change == "count" else "unknown"))
    for value in KNOWN[change]:
        known = plan(method, _known_for(change, stack, segment, at, value))
        assert unknown.gravest() >= known.gravest(), value
        assert stops(unknown) >= stops(known), (value, known.said("stop"), unknown.said("stop"))
        assert unknown.numbers().keys() <= known.numbers().keys(), value


def stops(found: Plan) -> int:
    """How many things stop the work; what cannot be judged counts as what it would be."""
    return len(found.said("stop"))
