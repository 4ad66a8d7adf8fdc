"""Segments of a seam in, what is said below the band out: end distance and spacing dimensioned, names, counts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

from builder.model.laid import LaidSegment
from builder.model.said import Said, joined, said
from builder.render.drawings import dimension, strokes
from builder.render.drawings.stack import WIDTH
from builder.render.drawings.strokes import words
from builder.render.drawings.text import Label, wrap, wrap_both

NO_BREAK = "\u00a0"
_SIZE = 13.0
_EDGE = 4.0
_FIRST, _STEP = 16.0, 20.0
"""From the top of a block to its first dimension line, and from one to the next."""
_TEXT = 20.0
_TAIL, _OUTSIDE = 14.0, 20.0
_APART = 6.0
_LEAST = 120.0
"""Room that a segment's name and facts have at least; else they begin further left."""


class Block(NamedTuple):
    """A segment that begins in a row: where, and where its first welds are."""

    segment: LaidSegment
    x: float
    welds: tuple[float, ...]


class _Placed(NamedTuple):
    lines: list[str]
    labels: list[Label]
    left: float
    right: float
    bottom: float


def below(blocks: Sequence[Block], foot: float, top: float) -> tuple[list[str], float]:
    """Place the blocks of a row from the right, each below those it would meet; return marks and the lowest edge.

    So the lines of a segment pass left of whatever is said of the next.
    """
    done: list[_Placed] = []
    for block in reversed(blocks):
        trial = _place(block, foot, top)
        met = [other.bottom for other in done if other.left < trial.right + _APART]
        done.append(_place(block, foot, max(met)) if met else trial)
    marks = [mark for one in done for mark in one.lines]
    marks += [mark for one in done for label in one.labels for mark in (_clear(label), words(label))]
    return marks, max((one.bottom for one in done), default=top)


def _place(block: Block, foot: float, top: float) -> _Placed:
    segment, welds = block.segment, block.welds
    lines: list[str] = []
    labels: list[Label] = []
    y = top + _FIRST
    for left, right, text in _dimensions(block):
        lines.append(dimension.across(left, right, y, foot))
        labels.append(_beside(text, left, right, y))
        y += _STEP
    y += _TEXT - _STEP if labels else 0.0
    room = max(_LEAST, WIDTH - _EDGE - block.x)
    head = Label(wrap(segment.label, _SIZE, room, bold=True), 0.0, y, _SIZE, style="strong")
    told, others = wrap_both(_facts(segment, len(welds)), _SIZE, room)
    facts = Label(told, 0.0, y + head.height, _SIZE, others=others)
    x = max(_EDGE, min(block.x, WIDTH - _EDGE - max(head.width, facts.width)))
    labels += [replace(head, x=x), replace(facts, x=x)]
    boxes = [label.box for label in labels]
    reach = [right + _TAIL for _, right, _ in _dimensions(block)]
    return _Placed(
        lines, labels, min(block.x, *(box.left for box in boxes)), max(block.x, *reach, *(box.right for box in boxes)),
        labels[-1].box.bottom + _APART,
    )  # fmt: skip


def _dimensions(block: Block) -> list[tuple[float, float, Said]]:
    """The spacing, then the end distance, which begins further left."""
    segment, welds = block.segment, block.welds
    found = [(welds[0], welds[1], segment.spacing_said)] if len(welds) > 1 else []
    return [*found, (block.x, welds[0], segment.first_said)] if welds else []


def _facts(segment: LaidSegment, drawn: int) -> Said:
    """Its length and counts, and what could not be dimensioned."""
    parts: list[str | Said] = [segment.length_said]
    row = segment.row
    if row is None:
        parts.append(segment.why)
    else:
        parts.append(f"{row.count}{NO_BREAK}{'weld' if row.count == 1 else 'welds'}")
        if drawn < 1 and row.count > 0:
            parts.append(said("first at ", segment.first_said))
        if drawn < 2 and row.count > 1:
            parts.append(said(segment.spacing_said, " apart"))
    if segment.factory is not None:
        parts.append(f"factory{NO_BREAK}{segment.factory}")
    return joined(", ", [part for part in parts if part])


def _beside(text: Said, left: float, right: float, y: float) -> Label:
    """On its dimension line, or past an end of it where it has no room."""
    others = (text.other,) if text.other else ()
    label = Label((text.text,), 0.0, y + 4, _SIZE, others=others)
    out = 6.0 if right - left >= _OUTSIDE else _TAIL + 4
    if right - left >= label.width + 6:
        return replace(label, x=(left + right) / 2, y=y - 5, anchor="middle")
    if right + out + label.width <= WIDTH - _EDGE:
        return replace(label, x=right + out)
    return replace(label, x=left - out, anchor="end")


def _clear(label: Label) -> str:
    """Bare paper under a label, which interrupts the lines it crosses."""
    box = label.box
    corners = [(box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom)]
    return strokes.shape(f"M{strokes.points(corners)}Z", "paper")
