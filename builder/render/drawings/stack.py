"""A section's measures in, the place of every sheet on the drawing out: pure geometry, in user units.

One user unit is one CSS pixel of the printed drawing, so that the stated scales hold on paper. Sheets lie from the
edge at the left to the radius, where the outermost turns up and the innermost down; those between run on. Two sheets
that are welded along the outer one's edge lie stepped: the outer runs on to the right, the inner comes from the left
and ends below it. Staggered edges stand back one behind the other, from the third sheet on.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from builder.model.drawings import DrawnSheet, Section
from builder.render.drawings.strokes import Point, at, points
from builder.render.drawings.text import width_of

WIDTH = 340.0
"""Of every drawing: as wide as the narrowest screen the book is read on, so that its text is never scaled down."""
UNIT = 96 / 25.4
"""User units for each mm on paper: CSS defines 96 pixels to the inch."""

_MARGIN = 8.0
_RADIUS = 10.0
_TURN = math.radians(68)
_ARM = 28.0
_BESIDE = 14.0
"""From the drawing to the labels beside it."""
RUN = 36.0
"""How far a stepped sheet is drawn on beyond the lap."""
_LABELS, _MOST_LABELS = 108.0, 128.0
"""The least room for the labels, and the most that long words take from the flange."""


@dataclass(frozen=True, slots=True)
class Placed:
    """One sheet: its faces on the flange, and which way it turns at the radius."""

    sheet: DrawnSheet
    top: float
    thick: float
    turn: int
    """-1 up, 1 down, 0 straight on."""
    start: float
    """x where it begins: the flange's edge, or left of it."""
    end: float
    """How far right a straight one is drawn."""
    is_cut_off: bool = False
    """It is broken off at the left and has its own end at the right."""

    @property
    def bottom(self) -> float:
        """Its lower face."""
        return self.top + self.thick

    @property
    def middle(self) -> float:
        """Half-way between its faces."""
        return self.top + self.thick / 2


@dataclass(frozen=True, slots=True)
class Stack:
    """The sheets of one section on the drawing."""

    sheets: tuple[Placed, ...]
    edge: float
    """x of the flange's edge."""
    radius: float
    """x where the sheets part."""
    reach: float
    """x of the rightmost part of any sheet."""
    is_shortened: bool
    """The flange is drawn interrupted, since its width at this scale does not fit."""

    @property
    def top(self) -> float:
        """Outer face of the outermost sheet."""
        return self.sheets[0].top

    @property
    def bottom(self) -> float:
        """Outer face of the innermost sheet."""
        return self.sheets[-1].bottom

    @property
    def is_stepped(self) -> bool:
        """Whether the inner sheet comes from the left and ends below the outer."""
        return self.sheets[-1].is_cut_off

    @property
    def is_staggered(self) -> bool:
        """Whether the edges of inner sheets stand back."""
        return any(sheet.start > self.edge for sheet in self.sheets)

    @property
    def faces(self) -> tuple[float, ...]:
        """The mating faces, from the outside in."""
        return tuple(sheet.bottom for sheet in self.sheets[:-1])

    def strip(self, face: int) -> tuple[float, float]:
        """From where to where the two sheets that meet at a mating face can be welded to each other alone."""
        upper, lower = self.sheets[face], self.sheets[face + 1]
        beyond = self.sheets[face + 2].start if face + 2 < len(self.sheets) else self.radius
        left = max(upper.start, lower.start)
        return left, beyond if beyond > left else self.radius

    @property
    def rise(self) -> float:
        """How far the turned ends stand out beyond the stack."""
        return _RADIUS * (1 - math.cos(_TURN)) + _ARM * math.sin(_TURN)


def lies_stepped(section: Section) -> bool:
    """Whether two sheets are welded along the edge of the outer one, as a lap is."""
    return section.weld is not None and section.weld.form == "seam" and len(section.sheets) == 2


def place(section: Section, top: float, before: float) -> Stack:
    """Lay the stack out below `top`, with `before` units left free beside its edge for a bead."""
    thick = _thicknesses(section)
    edge = _MARGIN + before
    is_stepped = lies_stepped(section)
    edge += RUN if is_stepped else 0.0
    overhang = RUN if is_stepped else max(_overhang(thick[0]), _overhang(thick[-1]))
    room = WIDTH - _labels(section) - _BESIDE - overhang - edge
    flange = section.flange * section.width_scale * UNIT
    radius = edge + min(flange, room)
    reach = radius + overhang
    steps = _steps_back(section, radius - edge)
    sheets: list[Placed] = []
    for index, (sheet, units) in enumerate(zip(section.sheets, thick, strict=True)):
        if is_stepped and index == 1:
            sheets.append(Placed(sheet, top, units, 0, _MARGIN, radius, is_cut_off=True))
        else:
            turn = 0 if is_stepped else _turn(index, len(thick))
            sheets.append(Placed(sheet, top, units, turn, edge + steps[index], reach + 2 - 5 * (index % 2)))
        top += units
    return Stack(tuple(sheets), edge, radius, reach + 2, flange > room)


def labels_from(stack: Stack) -> tuple[float, float]:
    """x and room of the labels beside the stack."""
    left = stack.reach + _BESIDE
    return left, WIDTH - left - 2


def outline(stack: Stack, sheet: Placed) -> str:
    """The closed outline of a sheet, for its hatching."""
    if not sheet.turn:
        return (
            f"M{points([(sheet.start, sheet.top), (sheet.end, sheet.top)])}"
            f"L{points([(sheet.end, sheet.bottom), (sheet.start, sheet.bottom)])}Z"
        )
    near, far = faces(stack, sheet)
    return f"M{near}L{far}Z"


def faces(stack: Stack, sheet: Placed) -> tuple[str, str]:
    """Path of the two faces without their `M`: the near one from its own end out, the far one back to it."""
    if not sheet.turn:
        own, on = (sheet.end, sheet.start) if sheet.is_cut_off else (sheet.start, sheet.end)
        return (
            points([(own, sheet.bottom), (on, sheet.bottom)]),
            points([(on, sheet.top), (own, sheet.top)]),
        )
    mating, outer = (sheet.bottom, sheet.top) if sheet.turn < 0 else (sheet.top, sheet.bottom)
    outward, inward = ("0 0 0", "0 0 1") if sheet.turn < 0 else ("0 0 1", "0 0 0")
    big, small = at(_RADIUS + sheet.thick), at(_RADIUS)
    near_bend, near_tip, far_tip, far_bend = ends(stack, sheet)
    return (
        f"{points([(sheet.start, mating), (stack.radius, mating)])}"
        f"A{big} {big} {outward} {points([near_bend, near_tip])}",
        f"{points([far_tip, far_bend])}A{small} {small} {inward} "
        f"{points([(stack.radius, outer), (sheet.start, outer)])}",
    )


def ends(stack: Stack, sheet: Placed) -> tuple[Point, Point, Point, Point]:
    """Of a turned sheet: end of the bend and tip of its mating face, tip and end of the bend of its outer face."""
    outer = sheet.top if sheet.turn < 0 else sheet.bottom
    centre = (stack.radius, outer + sheet.turn * _RADIUS)
    along = (_ARM * math.cos(_TURN), sheet.turn * _ARM * math.sin(_TURN))

    def bend(radius: float) -> Point:
        return centre[0] + radius * math.sin(_TURN), centre[1] - sheet.turn * radius * math.cos(_TURN)

    near, far = bend(_RADIUS + sheet.thick), bend(_RADIUS)
    return near, (near[0] + along[0], near[1] + along[1]), (far[0] + along[0], far[1] + along[1]), far


def spot_in(stack: Stack, sheet: Placed) -> Point:
    """A place inside the sheet where its leader can end."""
    if not sheet.turn:
        return sheet.end - (22 if sheet.is_cut_off else 9), sheet.middle
    near, near_tip, far_tip, far = ends(stack, sheet)
    return (near[0] + near_tip[0] + far_tip[0] + far[0]) / 4, (near[1] + near_tip[1] + far_tip[1] + far[1]) / 4


def _labels(section: Section) -> float:
    """Room for the longest word of the labels."""
    texts = [(word, 13.0) for sheet in section.sheets for word in sheet.label.split()]
    texts += [(part, 12.0) for sheet in section.sheets for part in re.findall(r"[^\s-]+-?", sheet.note)]
    return min(max(_LABELS, 8 + max((width_of(*text) for text in texts), default=0.0)), _MOST_LABELS)


def _steps_back(section: Section, flange: float) -> list[float]:
    """How far each edge stands behind the flange's: the first two are level, and each pair has its strip."""
    count = len(section.sheets)
    if not section.is_staggered or lies_stepped(section) or count < 3:
        return [0.0] * count
    return [max(0, index - 1) * flange / (count - 1) for index in range(count)]


def _thicknesses(section: Section) -> list[float]:
    """Drawn thickness of every sheet; one that is not known is drawn as thick as the others are on average."""
    known = [sheet.thickness for sheet in section.sheets if sheet.thickness is not None]
    stand_in = sum(known) / len(known) if known else 1.0
    return [
        (stand_in if sheet.thickness is None else sheet.thickness) * section.thickness_scale * UNIT
        for sheet in section.sheets
    ]


def _overhang(thick: float) -> float:
    """How far right of the radius a turned sheet reaches."""
    return (_RADIUS + thick) * math.sin(_TURN) + _ARM * math.cos(_TURN)


def _turn(index: int, count: int) -> int:
    if index == 0:
        return -1
    return 1 if index == count - 1 else 0
