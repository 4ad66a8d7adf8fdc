"""The layout of a seam's welds, judged by where its marks and words stand, for seams of any sort."""

from __future__ import annotations

import itertools
import re
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.model.laid import LaidSegment, WeldLayout
from builder.model.said import Said
from builder.model.work import WeldRow
from builder.render.drawings.layout import LEFT, SPAN, draw, scale_of
from builder.render.drawings.order_numbers import Number, number_room, placed
from builder.render.drawings.stack import WIDTH
from builder.render.drawings.text import Box, Label
from tests.render.samples import said
from tests.render.test_section import SVG, elements
from tests.sweeps import examples


def row(length: float, count: int, first: float, *, ordered: bool) -> WeldRow:
    """Welds evenly spread between ends, made from the front on or in no order."""
    spacing = (length - 2 * first) / (count - 1) if count > 1 else 0.0
    return WeldRow(length, count, first, spacing, tuple(range(1, count + 1)) if ordered else ())


@st.composite
def segments(draw_: st.DrawFn) -> LaidSegment:
    """One with welds no nearer than 12 mm, or with none."""
    length = draw_(st.floats(40, 2000))
    label = draw_(st.text("abcdefghij mw", min_size=1, max_size=30).filter(str.strip))
    factory = draw_(st.none() | st.integers(0, 90))
    if draw_(st.integers(0, 5)) == 0:
        return LaidSegment(label, length, said(length), factory, None, "stopped by a limit")
    first = draw_(st.floats(0, min(15.0, length / 4)))
    count = draw_(st.integers(1, max(1, int((length - 2 * first) / 12))))
    welds = row(length, count, first, ordered=draw_(st.booleans()))
    return LaidSegment(label, length, said(length), factory, welds, "", said(welds.first), said(welds.spacing))


seams = st.lists(segments(), min_size=1, max_size=4).map(tuple)


def boxes(root: ElementTree.Element) -> list[Box]:
    """The room of every text, by the same upper estimate that the drawing is laid out with."""
    return [
        Label((one.text or "",), float(one.get("x", 0)), float(one.get("y", 0)), float(one.get("font-size", 0)),
              one.get("text-anchor", "start"), one.get("class", ""), (one.get("data-q", one.text or ""),)).box  # type: ignore[arg-type]
        for one in root.iter(f"{SVG}text") if one.text
    ]  # fmt: skip


def drawn(given_: tuple[LaidSegment, ...], form: str = "spot") -> ElementTree.Element:
    return elements(draw(WeldLayout("laid", form, given_), "Layout", Said("Words")))  # type: ignore[arg-type]


@given(seams)
@settings(max_examples=examples(200))
def test_no_word_meets_another_or_is_cut_off(given_: tuple[LaidSegment, ...]) -> None:
    root = drawn(given_)
    height = float(root.get("viewBox", "").split()[3])
    found = boxes(root)
    for one, other in itertools.combinations(found, 2):
        # Letters stand within nine tenths of the room of their line.
        assert not Box(one.left + 0.1, one.top + 1.2, one.right - 0.1, one.bottom - 1.2).overlaps(other), (one, other)
    for box in found:
        assert box.left >= -1
        assert box.right <= WIDTH + 1
        assert box.bottom <= height + 1


@given(seams)
def test_every_weld_is_drawn_once_where_the_plan_has_it(given_: tuple[LaidSegment, ...]) -> None:
    root = drawn(given_, "seam")
    strokes = [
        float(x) for path in root.iter(f"{SVG}path") if path.get("class") in ("tick", "tick-fine")
        for x in re.findall(r"M([\d.]+)", path.get("d", ""))
    ]  # fmt: skip
    scale = scale_of(given_)
    starts = itertools.accumulate((one.length for one in given_), initial=0.0)
    places = sorted(start + place for start, one in zip(starts, given_, strict=False) for place in one.weld_places)
    assert len(strokes) == len(places)
    wide = scale.total / scale.rows
    wanted = [LEFT + (place - min(scale.rows - 1, int(place / wide + 1e-9)) * wide) * SPAN / wide for place in places]
    assert sorted(strokes) == pytest.approx(sorted(wanted), abs=0.051)


def test_a_long_seam_goes_on_in_further_rows_and_a_short_one_does_not() -> None:
    def segment(length: float, count: int) -> LaidSegment:
        return LaidSegment("All", length, said(length), None, row(length, count, 10, ordered=True))

    assert [scale_of((segment(length, round(length / 28)),)).rows for length in (150, 700, 1420, 2400)] == [1, 1, 2, 3]


def test_numbers_are_the_first_of_the_order_and_never_meet() -> None:
    order = [7, 3, 9, 1, 8, 5, 10, 2, 6, 4]
    for pitch in (30.0, 12.0, 8.0, 4.0, 1.5):
        asked = [Number(turn, 0, 20 + pitch * at, at) for at, turn in enumerate(order)]
        found = placed([asked], 1)
        assert sorted(one.turn for one in found) == list(range(1, len(found) + 1)), "none is left out before another"
        assert len(found) == 10 or pitch < 8
        for one, other in itertools.combinations(found, 2):
            if one.level == other.level:
                assert abs(one.x - other.x) >= (number_room(one.turn) + number_room(other.turn)) / 2


def test_factory_welds_stand_below_those_of_the_plan() -> None:
    welds = row(220.0, 5, 10.0, ordered=False)
    root = drawn((LaidSegment("All", 220.0, said(220.0), 3, welds, "", said(10.0), said(50.0)),))
    ticks = [path.get("d", "") for path in root.iter(f"{SVG}path") if path.get("class") == "factory"]
    xs = [float(x) for x in re.findall(r"M([\d.]+)", ticks[0])]
    assert xs == pytest.approx([LEFT + place * SPAN / 220 for place in (10, 110, 210)], abs=0.051)


def test_a_segment_that_a_limit_stops_is_dashed_and_says_so() -> None:
    root = drawn((LaidSegment("Rear", 220.0, said(220.0), 3, None, "stopped by a limit"),))
    bands = [one.get("class") for one in root.iter(f"{SVG}rect")]
    assert bands == ["band unknown"]
    assert any("stopped by a limit" in (one.text or "") for one in root.iter(f"{SVG}text"))
