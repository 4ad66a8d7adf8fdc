"""The body drawing: names inside their panels and clear of others, every panel a way in, twins in mirror image."""

from __future__ import annotations

import itertools
from xml.etree import ElementTree

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from builder.model.drawings import Body, DrawnPanel, ShellView
from builder.model.outline import read_line
from builder.render.drawings import draw_view
from builder.render.drawings.room import Polygon, Spot, find_room
from builder.render.drawings.text import width_of

OUTLINE = ((0, 0), (600, 0), (600, 300), (0, 300))


def view(*panels: DrawnPanel, upended: bool = False) -> ShellView:
    return ShellView("near", "Near side", 1000, 400, 1, upended, (("edge", (read_line("0 0; 1000 0"),)),), panels)


def panel(title: str, outline: str, *, hidden: bool = False) -> DrawnPanel:
    return DrawnPanel(title, f"panels/{title.lower()}.html", (read_line(outline),), hidden)


def drawn(one: ShellView) -> ElementTree.Element:
    return ElementTree.fromstring(draw_view(Body("Body", "Crate", (), ((one,),), "body", "words"), one))


def test_every_panel_is_a_link_with_its_name_the_smaller_on_top() -> None:
    root = drawn(view(
        panel("Small", "100 100; 200 100; 200 200"), panel("Behind", "300 10; 900 10; 900 390; 300 390", hidden=True),
        panel("Large", "0 0; 1000 0; 1000 400; 0 400"),
    ))  # fmt: skip
    links = root.findall(".//a")
    assert [link.findtext("title") for link in links] == ["Large", "Small", "Behind"]
    assert [link.get("href") for link in links] == [f"panels/{name}.html" for name in ("large", "small", "behind")]
    styles = [[path.get("class") for path in link.findall("path")] for link in links]
    assert styles == [["reach", "region"], ["reach", "region"], ["reach", "behind"]]
    assert root.get("aria-label") == "Near side"


def test_what_lies_behind_has_no_name_on_the_drawing() -> None:
    root = drawn(view(panel("Behind", "0 0; 1000 0; 1000 400; 0 400", hidden=True)))
    assert root.findall(".//a/g") == []


def test_names_are_written_as_text() -> None:
    root = drawn(view(panel('<b>&"', "0 0; 1000 0; 1000 400; 0 400")))
    assert root.findtext(".//a/title") == '<b>&"'
    assert root.findtext(".//a/g/text") == '<b>&"'


def test_a_name_without_room_is_left_to_the_words() -> None:
    root = drawn(view(panel("A name far too long for its panel", "0 0; 30 0; 30 30; 0 30")))
    assert root.findall(".//a/g") == []
    assert root.findtext(".//a/title") == "A name far too long for its panel"


@pytest.mark.parametrize(
    ("name", "lines"),
    [
        ("Quarter panel, outer", ("Quarter panel, outer",)),
        ("Quarter panel outer left hand", ("Quarter panel", "outer left hand")),
    ],
)  # fmt: skip
def test_a_name_takes_few_lines(name: str, lines: tuple[str, ...]) -> None:
    spot = find_room(name, Polygon(OUTLINE), (), 500 / width_of("Quarter panel, outer", 1), 1.3)
    assert spot is not None
    assert spot.lines == lines


boxes = st.tuples(st.integers(0, 500), st.integers(0, 250), st.integers(20, 200), st.integers(20, 200)).map(
    lambda box: Polygon((
        (box[0], box[1]), (box[0] + box[2], box[1]), (box[0] + box[2], box[1] + box[3]), (box[0], box[1] + box[3]),
    ))
)  # fmt: skip


def corners(size: float, spot: Spot) -> list[tuple[float, float]]:
    """Corners of the room that the name's letters take."""
    along = max(width_of(line, size) for line in spot.lines) / 2
    across = size * (1.3 * (len(spot.lines) - 1) + 1) / 2
    x, y = spot.middle
    w, h = (across, along) if spot.upright else (along, across)
    return [(x - w, y - h), (x + w, y - h), (x - w, y + h), (x + w, y + h)]


@given(st.lists(boxes, max_size=3), st.sampled_from(["Rocker", "Quarter panel", "Wheel housing inner"]))
def test_a_name_is_inside_its_panel_and_clear_of_what_lies_on_it(above: list[Polygon], name: str) -> None:
    size = 24.0
    spot = find_room(name, Polygon(OUTLINE), above, size, size * 1.3)
    assume(spot is not None)
    assert spot is not None
    found = corners(size, spot)
    assert all(0 <= x <= 600 and 0 <= y <= 300 for x, y in found)
    left, right = min(x for x, _ in found), max(x for x, _ in found)
    top, bottom = min(y for _, y in found), max(y for _, y in found)
    for other, (x, y) in itertools.product(above, ((0.5, 0.5), (0.25, 0.5), (0.75, 0.5))):
        # A point of the name inside the other outline would be hidden by it.
        at = (left + (right - left) * x, top + (bottom - top) * y)
        assert not any(a < at[0] < b for a, b in other.across(at[1], upright=False)), other
