"""The drawing of a seam along its length."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.model.drawings import Run, RunSegment
from builder.model.said import Said
from builder.render.drawings.run import draw, lay_out
from builder.render.drawings.stack import WIDTH
from tests.render.samples import run
from tests.render.test_section import elements

WORDS, WHOLE = Said("Words"), Said("1000 mm", "39.37 in")
lengths = st.lists(st.floats(10, 2000), min_size=1, max_size=7)


@given(lengths)
def test_segments_share_one_scale_and_touch(given: list[float]) -> None:
    placed = lay_out(run(*given)).segments
    scales = [(each.right - each.left) / each.segment.length for each in placed]
    assert scales == pytest.approx([scales[0]] * len(scales))
    for one, other in itertools.pairwise(placed):
        assert one.right == other.left


@given(lengths)
def test_no_label_meets_another_or_is_cut_off(given: list[float]) -> None:
    layout = lay_out(run(*given))
    boxes = [label.box for label in layout.labels]
    assert not any(one.overlaps(other) for one, other in itertools.combinations(boxes, 2))
    assert all(box.left >= 0 and box.right <= WIDTH and box.bottom <= layout.height for box in boxes)


def test_each_sheet_is_a_band_and_each_weld_a_dot() -> None:
    segments = (RunSegment("Front", 400, Said("400 mm"), 3, 5), RunSegment("Rear", 600, Said("600 mm"), 2, None))
    drawn = draw(Run("along", segments, WHOLE), "Run", WORDS)
    root = elements(drawn)
    assert drawn.count('class="band"') == 5
    welds = [path.get("d", "") for path in root.iter() if path.get("class") == "solid weld"]
    assert [path.count("M") for path in welds] == [5]


def test_it_says_length_sheets_and_welds() -> None:
    segments = (RunSegment("Front", 400.5, Said("400.5 mm", "15.768 in"), 1, 1),)
    labels = lay_out(Run("along", segments, WHOLE)).labels
    assert [label.lines for label in labels] == [("Front", "400.5 mm, 1 sheet, 1 weld")]
    assert [label.others for label in labels] == [("Front", "15.768 in, 1 sheet, 1 weld")]
