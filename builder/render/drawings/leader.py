"""Parts and what is to be said of them in, leader labels out: stacked in one column, in order, none overlapping."""

from __future__ import annotations

from dataclasses import dataclass, replace

from builder.model.said import Said
from builder.render.drawings.strokes import Point, dot, line, words
from builder.render.drawings.text import Box, Label, wrap, wrap_both

_HEAD_SIZE = 14.0
_TEXT_SIZE = 13.0
_NOTE_SIZE = 12.0
_GAP = 7.0
"""Between two labels."""
_RISE = 5.0
"""From the reference line to the baseline of the text on it."""


@dataclass(frozen=True, slots=True)
class Called:
    """A part, and what its label says: `head` on the reference line, name and note beneath."""

    place: Point
    """Inside the part, where the leader ends in a dot."""
    head: Said
    name: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Leader:
    """A label placed: its reference line at `shelf`, its texts around it."""

    place: Point
    shelf: Point
    texts: tuple[Label, ...]

    @property
    def box(self) -> Box:
        """The room all its texts take."""
        boxes = [text.box for text in self.texts]
        return Box(
            min(box.left for box in boxes),
            min(box.top for box in boxes),
            max(box.right for box in boxes),
            max(box.bottom for box in boxes),
        )

    def draw(self) -> str:
        """Dot, leader, reference line and texts."""
        end = (self.box.right, self.shelf[1])
        return line(self.place, self.shelf, end) + dot(self.place) + "".join(words(text) for text in self.texts)


def column(called: tuple[Called, ...], x: float, room: float, ceiling: float) -> tuple[Leader, ...]:
    """Labels from `x`, no wider than `room`, none above `ceiling`, as near to their parts as they can stand."""
    blocks = [_texts(part, x, room) for part in called]
    shelves: list[float] = []
    bottom = ceiling
    for part, block in zip(called, blocks, strict=True):
        above, below = _extent(block)
        shelves.append(max(part.place[1], bottom + above))
        bottom = shelves[-1] + below + _GAP
    pushed = sum(shelf - part.place[1] for shelf, part in zip(shelves, called, strict=True)) / max(len(shelves), 1)
    lift = min(pushed, shelves[0] - _extent(blocks[0])[0] - ceiling) if shelves else 0.0
    return tuple(
        Leader(part.place, (x, shelf - lift), tuple(_moved(text, shelf - lift) for text in block))
        for part, block, shelf in zip(called, blocks, shelves, strict=True)
    )


def _texts(part: Called, x: float, room: float) -> tuple[Label, ...]:
    """The texts of one label, with the reference line at zero."""
    lines, others = wrap_both(part.head, _HEAD_SIZE, room, bold=True)
    head = Label(lines, x, -_RISE, _HEAD_SIZE, style="strong", others=others)
    head = replace(head, y=head.y - (head.line_at(len(lines) - 1) - head.y))
    name = Label(wrap(part.name, _TEXT_SIZE, room), x, _TEXT_SIZE + 3, _TEXT_SIZE)
    note = Label(wrap(part.note, _NOTE_SIZE, room), x, name.y + name.height, _NOTE_SIZE, style="quiet")
    return tuple(text for text in (head, name, note) if text.lines)


def _extent(block: tuple[Label, ...]) -> tuple[float, float]:
    return -min(text.box.top for text in block), max(text.box.bottom for text in block)


def _moved(text: Label, down: float) -> Label:
    return replace(text, y=text.y + down)
