"""Where the sections of a page begin, how deep they are, and the anchors their headings make."""

from __future__ import annotations

import re

from hypothesis import given
from hypothesis import strategies as st
from markdown import Markdown

from builder.model.reference import ID_PATTERN
from builder.model.sections import plain_heading, sections_of


def told(text: str) -> list[tuple[str, int, str]]:
    return [(section.heading, section.depth, section.anchor) for section in sections_of(text.split("\n"))]


def test_headings_of_both_forms_begin_sections() -> None:
    assert told("a\n\n# One #\nb\n\nTwo\n===\n\nThree\n-----\nc") == [
        ("", 0, ""), ("One", 1, "one"), ("Two", 1, "two"), ("Three", 2, "three"),
    ]  # fmt: skip


def test_no_depth_is_left_out_whatever_an_author_writes() -> None:
    assert [depth for _, depth, _ in told("#### a\n## b\n###### c\n### d\n# e\n#### f")] == [0, 1, 1, 2, 2, 1, 2]


def test_what_is_set_in_is_no_heading() -> None:
    assert told("    # code\n> # quoted\n- # in a list\n\nin a\nparagraph\n---") == [("", 0, "")]


def test_a_heading_ends_a_list_right_below_the_paragraph_of_an_item() -> None:
    # CommonMark 0.31.2, 4.2 and 5.2: a heading interrupts a paragraph, and one that is not set in is in no item.
    assert told("- # i\n\n    k\n# x") == [("", 0, ""), ("x", 1, "x")]


def test_anchors_are_the_words_and_each_is_its_own() -> None:
    page = "# Größe *and* [shape](panel:x)\n# Größe and shape\n# ???\n# Used by"
    anchors = [anchor for *_, anchor in told(page)]
    assert anchors == ["", "groe-and-shape", "groe-and-shape-2", "part", "used-by-2"]


def test_a_heading_is_told_without_its_mark_up() -> None:
    assert plain_heading("`a` *b* [c d](panel:x)") == "a b c d"


PIECES = st.sampled_from(
    ["a b", "", "# x", "## y z", "\nThree\n===", "\nFour\n--\ng", "- # i", "  # j", "    k", "> # q"]
)  # fmt: skip


@given(st.lists(PIECES, max_size=12))
def test_sections_begin_where_markdown_makes_headings(pieces: list[str]) -> None:
    """As an oracle the whole page at once: its headings that stand in nothing are our sections, in order.

    But it takes a heading in the lines of an item's indented paragraph into the item, where CommonMark ends the list.
    """
    lines: list[str] = []
    is_of_item = False
    for line in "\n".join(pieces).split("\n"):
        is_of_item = bool(line) and (is_of_item or (not "".join(lines[-1:]) and line.startswith("    ")))
        lines += ["", line] if is_of_item and line.startswith("#") else [line]
    made = Markdown().convert("\n".join(lines))
    inside = re.sub(r"<(ul|ol|blockquote)>.*?</\1>", "", made, flags=re.DOTALL)
    wanted = [text for text in re.findall(r"<h[1-6]>(.*?)</h[1-6]>", inside) if text]
    assert [section.heading for section in sections_of(lines) if section.anchor] == wanted


@given(st.lists(st.text(max_size=20).filter(lambda text: "\n" not in text), max_size=8))
def test_no_line_is_lost_and_every_anchor_can_be_linked(lines: list[str]) -> None:
    sections = sections_of(lines)
    kept = [line for section in sections for line in section.lines]
    assert [line for line in lines if line in kept] == [line for line in lines if line in set(kept)]
    assert len(kept) + sum(1 for section in sections[1:]) <= len(lines)
    anchors = [section.anchor for section in sections[1:]]
    assert len(set(anchors)) == len(anchors)
    assert all(re.fullmatch(ID_PATTERN, anchor) for anchor in anchors)
