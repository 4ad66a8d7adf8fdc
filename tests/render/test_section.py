"""The section drawing, judged by where its parts stand."""

from __future__ import annotations

import itertools
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.model.drawings import DrawnSheet, DrawnWeld, Section
from builder.model.said import Said
from builder.render.drawings.section import Layout, draw, lay_out
from builder.render.drawings.stack import UNIT, WIDTH
from tests.render.samples import section

SVG = "{http://www.w3.org/2000/svg}"
COUNTS = (2, 3, 4, 5)

WORDS = Said("Words")
WELDS = st.sampled_from([
    Said("A weld, 5 mm"), Said("A weld, 5 mm", "A weld whose size in the other units takes a second line, 0.196850 in"),
])  # fmt: skip
sheets = st.builds(
    DrawnSheet,
    st.text("abcdefghij mw", min_size=1, max_size=40),
    st.none() | st.floats(0.5, 3.0),
    st.sampled_from([Said("0.8 mm", "0.031 in"), Said("1 mm", "0.03937 in"), Said("? mm")]),
    st.sampled_from(["", "mild, bare", "ultra-high-strength, hot-dip galvannealed"]),
)
sections = st.builds(
    Section,
    id=st.just("cut"),
    flange=st.floats(6, 60),
    flange_said=st.sampled_from([
        Said("16 mm", "0.63 in"), Said("6.25 mm", "0.2461 in"), Said("59.99 mm", "2.3618 in"),
    ]),
    sheets=st.lists(sheets, min_size=2, max_size=5).map(tuple),
    weld=st.none() | st.builds(DrawnWeld, st.sampled_from(["spot", "plug", "seam", "bond"]), WELDS,
                               st.none() | st.floats(2, 12)),
    film=st.sampled_from(["", "Weld-through primer on every mating face of the joint"]),
    seal=st.sampled_from([Said(""), Said("Half-round sealer, 6 mm, the whole length", "Half-round sealer, 0.24 in")]),
    seal_profile=st.sampled_from(["half-round", "round", "fillet", "square", "unheard-of"]),
    seal_size=st.floats(3, 12),
    thickness_scale=st.sampled_from([5.0, 10.0, 20.0]),
    width_scale=st.sampled_from([1.0, 2.0, 5.0]),
)  # fmt: skip


def elements(drawn: str) -> ElementTree.Element:
    """The drawing as a browser's parser would see it."""
    return ElementTree.fromstring(drawn.replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1))


def assert_clear(layout: Layout) -> None:
    boxes = [label.box for label in layout.labels if label.lines]
    for one, other in itertools.combinations(boxes, 2):
        assert not one.overlaps(other), (one, other)
    for box in boxes:
        assert box.left >= 0
        assert box.right <= WIDTH
        assert box.top >= 0
        assert box.bottom <= layout.height


def test_a_lap_seamed_along_its_edge_lies_stepped() -> None:
    given = section(2, weld=DrawnWeld("seam", Said("MAG seam, leg 0.8 mm"), None))
    layout = lay_out(given)
    placed, weld = layout.stack, layout.weld
    outer, inner = placed.sheets
    assert inner.start < placed.edge == outer.start
    assert inner.end == placed.radius < outer.end
    assert (placed.radius - placed.edge) / (given.width_scale * UNIT) == pytest.approx(16)
    assert weld is not None
    assert inner.start < weld.left < weld.right == placed.edge, "in the corner, on the sheet that runs on below"
    # Three sheets, and a weld within the flange, keep the stack of a flange.
    assert not lay_out(section(3, weld=given.weld)).stack.is_stepped
    assert not lay_out(section(2)).stack.is_stepped


@pytest.mark.parametrize("count", COUNTS)
def test_drawn_thickness_is_the_sheets_at_the_stated_scale(count: int) -> None:
    given = section(count)
    placed = lay_out(given).stack.sheets
    for sheet, drawn in zip(given.sheets, placed, strict=True):
        assert drawn.thick / UNIT == pytest.approx((sheet.thickness or 0) * given.thickness_scale)
    for upper, lower in itertools.pairwise(placed):
        assert lower.top == pytest.approx(upper.bottom)


def test_a_unit_is_a_pixel_of_the_printed_page() -> None:
    # CSS Values 4: 1in = 2.54cm = 96px. A flange of 16 mm at 2:1 is 32 mm on paper.
    stack = lay_out(section(2)).stack
    assert (stack.radius - stack.edge) * 25.4 / 96 == pytest.approx(32)


@pytest.mark.parametrize("count", COUNTS)
def test_each_sheet_is_hatched_and_neighbours_run_the_other_way(count: int) -> None:
    root = elements(draw(section(count), "Cut", WORDS))
    fills = [path.get("fill") for path in root.iter(f"{SVG}path") if path.get("class") == "sheet"]
    assert len(fills) == count
    assert all(one != other for one, other in itertools.pairwise(fills))
    angles = {f"url(#{pattern.get('id')})": pattern.get("patternTransform") for pattern in root.iter(f"{SVG}pattern")}
    assert {angles[fill] for fill in fills if fill} == {"rotate(45)", "rotate(135)"}


@given(sections)
def test_no_label_meets_another_or_is_cut_off(given: Section) -> None:
    assert_clear(lay_out(given))


@given(sections)
def test_every_drawing_is_well_formed_and_keeps_inside_its_sheet(given: Section) -> None:
    layout = lay_out(given)
    root = elements(draw(given, "A & B", Said("Words <of> it", "The same & in other units")))
    assert root.get("viewBox", "").split()[2] == "340"
    assert layout.stack.reach < WIDTH
    assert layout.stack.bottom + layout.stack.rise <= layout.height


def test_ids_begin_with_the_drawings_own_and_name_it() -> None:
    root = elements(draw(section(3), "Cut", Said("In words")))
    ids = [element.get("id", "") for element in root.iter() if element.get("id")]
    assert ids
    assert all(name.startswith("cut_") for name in ids)
    named = {name: next(e for e in root.iter() if e.get("id") == name).text for name in
             root.get("aria-labelledby", "").split()}  # fmt: skip
    assert list(named.values()) == ["Cut", "In words"]


@pytest.mark.parametrize("count", COUNTS)
def test_spot_weld_has_a_nugget_at_each_interface_as_wide_as_stated(count: int) -> None:
    layout = lay_out(section(count))
    assert layout.weld is not None
    assert len(layout.weld.marks) == count - 1
    assert (layout.weld.right - layout.weld.left) / UNIT == pytest.approx(3.6 * 2)


def test_film_stops_at_the_weld() -> None:
    root = elements(draw(section(3), "Cut", WORDS))
    layout = lay_out(section(3))
    assert layout.weld is not None
    films = [path.get("d", "") for path in root.iter(f"{SVG}path") if path.get("class") == "film"]
    assert len(films) == 4
    assert sum(f"L{layout.weld.left:.1f}" in film for film in films) == 2


def test_unknown_thickness_is_dashed_and_marked() -> None:
    given = section(2, sheets=(DrawnSheet("Outer", None, Said("? mm")), DrawnSheet("Inner", 1.0, Said("1 mm"))))
    drawn = draw(given, "Cut", WORDS)
    assert 'class="outline unknown"' in drawn
    assert ">? mm<" in drawn
    assert 'class="outline unknown"' not in draw(section(2), "Cut", WORDS)


def test_a_flange_too_wide_for_the_sheet_is_interrupted_and_says_so() -> None:
    wide = lay_out(section(2, flange=80.0, flange_said=Said("80 mm")))
    assert wide.stack.is_shortened
    assert "shortened" in " ".join(wide.notes.lines)
    assert wide.flange_label.lines == ("80 mm",)


def test_labels_name_every_sheet_with_its_thickness() -> None:
    drawn = " ".join(text.text or "" for text in elements(draw(section(5), "Cut", WORDS)).iter(f"{SVG}text"))
    for sheet in section(5).sheets:
        assert f"{sheet.thickness:g} mm" in drawn
        assert sheet.label.split()[0] in drawn


def test_holes_of_a_plug_get_smaller_from_sheet_to_sheet_where_it_is_said() -> None:
    stepped = lay_out(section(4, weld=DrawnWeld("plug", Said("Plug"), 8.0, has_stepped_holes=True))).weld
    assert stepped is not None
    gaps = [gap for gap in stepped.gaps if gap]
    widths = [right - left for left, right in gaps]
    assert len(widths) == 3
    assert widths[0] == pytest.approx(8 * 2 * UNIT), "the largest on top, to scale"
    assert widths == sorted(widths, reverse=True)
    assert len(set(widths)) == 3
    assert {round((left + right) / 2, 6) for left, right in gaps} == {round(stepped.middle, 6)}
    plain = lay_out(section(4, weld=DrawnWeld("plug", Said("Plug"), 8.0))).weld
    assert plain is not None
    assert [gap is not None for gap in plain.gaps] == [True, False, False], "a hole in the uppermost sheet alone"


@pytest.mark.parametrize("form", ["spot", "seam", "bond"])
def test_staggered_edges_give_each_pair_a_strip_of_its_own(form: str) -> None:
    label = DrawnWeld(form, Said("Weld"), 3.0)  # type: ignore[arg-type]
    layout = lay_out(section(4, weld=label, is_staggered=True))
    placed = layout.stack
    assert [sheet.start - placed.edge for sheet in placed.sheets[:2]] == [0, 0]
    assert placed.edge < placed.sheets[2].start < placed.sheets[3].start < placed.radius
    strips = [placed.strip(face) for face in range(3)]
    for one, other in itertools.pairwise(strips):
        assert one[1] == pytest.approx(other[0])
    assert layout.weld is not None
    if form == "spot":
        for (left, right), gap in zip(strips, layout.weld.gaps, strict=True):
            assert gap is not None
            assert left < gap[0] < gap[1] < right
    if form == "seam":
        assert len(layout.weld.marks) == 3, "a bead on the level edges and one below each edge that stands back"
    assert not lay_out(section(4, weld=label)).stack.is_staggered


def test_a_weld_too_wide_to_draw_has_no_dimension() -> None:
    assert not lay_out(section(2, flange=4.0, weld=DrawnWeld("plug", Said("Plug, 8 mm"), 8.0))).weld.has_width  # type: ignore[union-attr]
    assert lay_out(section(2, flange=16.0, weld=DrawnWeld("plug", Said("Plug, 8 mm"), 8.0))).weld.has_width  # type: ignore[union-attr]
