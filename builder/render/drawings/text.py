"""Words and a width in, lines that fit and the room they take out: SVG neither wraps nor measures text."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from builder.model.said import Said

_WIDE = frozenset("mwMWQ@%—…")
_NARROW = frozenset("ijlI|!.,:;'`()[]/ ")
_SLIM = frozenset('frt-"')
_LINE = 1.22
"""Distance of two lines of text, in sizes."""


@lru_cache(maxsize=8192)
def width_of(text: str, size: float, bold: bool = False) -> float:
    """Upper estimate of a text's width in user units: no narrower than the widest of the usual system faces."""
    return size * (1.12 if bold else 1.0) * sum(_em(character) for character in text)


@lru_cache(maxsize=1024)
def _em(character: str) -> float:
    if character in _WIDE:
        return 1.0
    if character in _NARROW:
        return 0.4
    if character in _SLIM:
        return 0.47
    return 0.77 if character.isupper() else 0.65


def wrap(text: str, size: float, room: float, bold: bool = False) -> tuple[str, ...]:
    """Break a text into lines no wider than `room`; a word that is too long by itself is cut, best at a hyphen."""
    lines: list[str] = []
    for word in filter(None, text.split(" ")):  # a number keeps its unit
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width_of(longer, size, bold) <= room:
            lines[-1] = longer
        else:
            lines.extend(_cut(word, size, room, bold))
    return tuple(lines)


def wrap_both(text: Said, size: float, room: float, bold: bool = False) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Break a text in both systems of units; empty lines fill the shorter, so that each line has its counterpart."""
    lines = wrap(text.text, size, room, bold)
    if not text.other:
        return lines, ()
    others = wrap(text.other, size, room, bold)
    count = max(len(lines), len(others))
    return lines + ("",) * (count - len(lines)), others + ("",) * (count - len(others))


def _cut(word: str, size: float, room: float, bold: bool) -> list[str]:
    pieces = [""]
    for character in word:
        if pieces[-1] and width_of(pieces[-1] + character, size, bold) > room:
            head, hyphen, tail = pieces[-1].rpartition("-")
            pieces[-1:] = [head + hyphen, tail] if head else [pieces[-1], ""]
        pieces[-1] += character
    return pieces


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle in user units."""

    left: float
    top: float
    right: float
    bottom: float

    def overlaps(self, other: Box) -> bool:
        """Whether the two share any area."""
        across = self.left < other.right and other.left < self.right
        return across and self.top < other.bottom and other.top < self.bottom


@dataclass(frozen=True, slots=True)
class Label:
    """Lines of text at one place."""

    lines: tuple[str, ...]
    x: float
    y: float
    """Baseline of the first line."""
    size: float = 13.0
    anchor: Literal["start", "middle", "end"] = "start"
    style: str = ""
    """Class names, such as `strong`, `quiet` or `film-name`."""
    others: tuple[str, ...] = ()
    """Each line in the other system of units; or nothing, where the label has none."""

    @property
    def width(self) -> float:
        """Room the widest line takes, in either system."""
        both = self.lines + self.others
        return max((width_of(line, self.size, "strong" in self.style) for line in both), default=0.0)

    @property
    def height(self) -> float:
        """From the top of the first line to the foot of the last."""
        return self.size * _LINE * len(self.lines)

    @property
    def box(self) -> Box:
        """The room it takes."""
        left = self.x - {"start": 0.0, "middle": self.width / 2, "end": self.width}[self.anchor]
        top = self.y - self.size * 0.95
        return Box(left, top, left + self.width, top + self.height)

    def line_at(self, index: int) -> float:
        """Baseline of one of its lines."""
        return self.y + index * self.size * _LINE


def number(value: float) -> str:
    """A measure as a drawing says it: no more digits than it has."""
    return f"{value:.2f}".rstrip("0").rstrip(".")
