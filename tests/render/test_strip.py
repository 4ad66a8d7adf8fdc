"""Marking strips, judged by where their pieces are cut and what stands on them."""

from __future__ import annotations

import itertools
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.model.laid import LaidSegment
from builder.model.said import Said
from builder.model.strip import Strip
from builder.render.drawings.pieces import LONGEST, pieces
from builder.render.drawings.strip import HEIGHT, WIDTH, letter, sheets
from builder.render.drawings.text import Box
from tests.render.samples import said
from tests.render.test_layout import boxes, row, seams
from tests.render.test_section import SVG, elements
from tests.sweeps import examples


def strip(segments: tuple[LaidSegment, ...], title: str = "A flange") -> Strip:
    places = tuple(tuple(Said(f"{place:.1f}", f"{place / 25.4:.3f}") for place in one.weld_places) for one in segments)
    return Strip("strip", title, "Spots", "Shop", "Book", Said("mm", "in"), True, segments, places)


@given(seams)
@settings(max_examples=examples(200))
def test_the_pieces_are_the_seam_and_every_weld_is_on_one(given_: tuple[LaidSegment, ...]) -> None:
    found = pieces(given_)
    total = sum(one.length for one in given_)
    assert found[0].start == 0
    assert found[-1].end == pytest.approx(total)
    for one, other in itertools.pairwise(found):
        assert one.end == other.start
        assert not one.is_last
    assert all(one.end - one.start <= LONGEST + 1e-6 for one in found)
    starts = itertools.accumulate((one.length for one in given_), initial=0.0)
    planned = [start + place for start, one in zip(starts, given_, strict=False) for place in one.weld_places]
    drawn = [(cross.place, piece) for piece in found for cross in piece.crosses]
    assert [place for place, _ in drawn] == pytest.approx(planned)
    for place, piece in drawn:
        assert piece.start - 1e-5 <= place <= piece.end + max(0.0, place - total) + 1e-5


def test_no_piece_is_cut_near_a_weld_or_a_border_where_welds_leave_room() -> None:
    for length, count in itertools.product((500.0, 1060.0, 1420.0, 2600.0), (8, 20, 40)):
        one = LaidSegment("All", length, said(length), None, row(length, count, 10.0, ordered=False))
        other = LaidSegment("Rest", 320.0, said(320.0), None, row(320.0, 9, 10.0, ordered=False))
        for piece in pieces((one, other))[:-1]:
            places = [*one.weld_places, *(length + place for place in other.weld_places), length]
            assert min(abs(place - piece.end) for place in places) >= 6, (length, count)


def test_pieces_are_about_as_long_as_one_another() -> None:
    one = LaidSegment("All", 1000.0, said(1000.0), None, row(1000.0, 34, 10.0, ordered=False))
    lengths = [piece.end - piece.start for piece in pieces((one,))]
    assert len(lengths) == 5
    assert max(lengths) - min(lengths) < 45


def letters(box: Box) -> Box:
    """What of a line's room its letters fill."""
    return Box(box.left + 0.05, box.top + 0.3, box.right - 0.05, box.bottom - 0.3)


@given(seams, st.text("abcdefghij mw", min_size=1, max_size=160))
@settings(max_examples=examples(100))
def test_no_word_meets_another_or_leaves_the_sheet(given_: tuple[LaidSegment, ...], title: str) -> None:
    for sheet in sheets(strip(given_, title)):
        root = elements(sheet)
        assert root.get("viewBox") == f"0 0 {WIDTH:g} {HEIGHT:g}"
        found = boxes(root)
        for one, other in itertools.combinations(found, 2):
            assert not letters(one).overlaps(letters(other)), (one, other)
        assert all(box.left >= -0.5 and box.right <= WIDTH + 0.5 and box.bottom <= HEIGHT + 0.5 for box in found)
        paths = " ".join(path.get("d", "") for path in root.iter(f"{SVG}path"))
        numbers = [float(x) for x in re.findall(r"[ML](-?[\d.]+)", paths)]
        assert min(numbers) >= 0
        assert max(numbers) <= WIDTH


def test_one_unit_is_a_millimetre_and_each_sheet_has_its_check_line() -> None:
    one = LaidSegment("All", 1420.0, said(1420.0), 20, row(1420.0, 50, 10.0, ordered=False))
    found = sheets(strip((one,)))
    assert len(found) == 2
    for sheet in found:
        root = elements(sheet)
        assert root.get("width") == f"{WIDTH:g}mm"
        assert root.get("height") == f"{HEIGHT:g}mm"
        lines = [path.get("d", "") for path in root.iter(f"{SVG}path") if path.get("class") == "check"]
        assert lines[0] == "M1 29L101 29"
        assert not [element for element in root.iter() if element.get("style") or element.get("transform")]


def test_joins_carry_one_letter_on_both_pieces() -> None:
    one = LaidSegment("All", 700.0, said(700.0), None, row(700.0, 20, 10.0, ordered=False))
    words = [text.text for text in elements(sheets(strip((one,)))[0]).iter(f"{SVG}text")]
    assert [words.count(name) for name in "ABC"] == [2, 2, 0]
    assert [letter(number) for number in (1, 26, 27, 53)] == ["A", "Z", "A1", "A2"]
