"""A placed stack and its weld in, the weld's marks out: nuggets, filled holes, a bead along each edge, a bond line."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.model.drawings import DrawnWeld
from builder.render.drawings.stack import Stack
from builder.render.drawings.strokes import Point, at, line, points, shape

_UNSTATED = 0.28
"""Share of the flange a weld takes up where no width is given; it is then drawn without a dimension."""
_SINK = 0.3
"""How deep a nugget stands in the thinner of its two sheets, and a plug in the last, as shares of the sheet."""
_CROWN = 3.0
_EDGE_BEAD = 11.0
_SIDE = 4.0
"""Metal left at least on either side of a weld; one that is wider is drawn narrower, without a dimension."""

Gap = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Weld:
    """The weld as drawn."""

    left: float
    right: float
    top: float
    """Where extension lines begin, and a leader ends."""
    has_width: bool
    marks: tuple[str, ...]
    gaps: tuple[Gap | None, ...] = ()
    """Of each mating face from where to where the weld interrupts what lies on it."""

    @property
    def middle(self) -> float:
        """x of its axis."""
        return (self.left + self.right) / 2


def place(stack: Stack, weld: DrawnWeld, width_scale_units: float) -> Weld:
    """Draw the weld in the stack; `width_scale_units` are user units for each mm of width."""
    if weld.form == "seam":
        return _along_the_edges(stack)
    if weld.form == "bond":
        return _bond(stack)
    strip = stack.strip(0)
    room = strip[1] - strip[0] - 2 * _SIDE
    stated = weld.width * width_scale_units if weld.width is not None else (stack.radius - stack.edge) * _UNSTATED
    width, fits = min(stated, room), weld.width is not None and stated <= room
    if weld.form == "plug":
        return _plug(stack, width, fits, weld.has_stepped_holes)
    nuggets = [_across(stack, face, width) for face in range(len(stack.faces))]
    marks = tuple(_nugget(stack, face, *ends) for face, ends in enumerate(nuggets))
    return Weld(*nuggets[0], stack.faces[0], fits, marks, tuple(nuggets))


def _across(stack: Stack, face: int, width: float) -> Gap:
    """From where to where a weld at a mating face goes: in the middle of its strip, left of a broken flange's gap."""
    left, right = stack.strip(face)
    middle = left + (right - left) * (0.42 if stack.is_shortened and not stack.is_staggered else 0.5)
    return middle - width / 2, middle + width / 2


def _nugget(stack: Stack, face: int, left: float, right: float) -> str:
    upper, lower = stack.sheets[face], stack.sheets[face + 1]
    radii = f"{at((right - left) / 2)} {at(_SINK * min(upper.thick, lower.thick) + 1.5)}"
    ends: tuple[Point, Point] = ((left, upper.bottom), (right, upper.bottom))
    first, last = (f"{at(x)} {at(y)}" for x, y in ends)
    return shape(f"M{first}A{radii} 0 0 1 {last}A{radii} 0 0 1 {first}Z", "solid weld")


def _plug(stack: Stack, width: float, fits: bool, stepped: bool) -> Weld:
    """A filled hole in the uppermost sheet; or one in every sheet but the last, each smaller than the one above it."""
    left, right = _across(stack, 0, width)
    middle, count = (left + right) / 2, len(stack.sheets)
    halves = [width / 2 * (1 - step / count) for step in range(count - 1 if stepped else 1)]
    below = stack.sheets[len(halves)]
    sides: list[Point] = []
    for half, sheet in zip(halves, stack.sheets, strict=False):
        sides += [(half, sheet.top), (half, sheet.bottom)]
    down = points([(middle + half, y) for half, y in sides])
    up = points([(middle - half, y) for half, y in reversed(sides)])
    foot = f"A{at(halves[-1])} {at(_SINK * below.thick + 1)} 0 0 1 {at(middle - halves[-1])} {at(below.top)}"
    crown = f"M{at(left)} {at(stack.top)}A{at(halves[0])} {at(_CROWN)} 0 0 1 {at(right)} {at(stack.top)}"
    gaps: list[Gap | None] = [(middle - half, middle + half) for half in halves]
    gaps += [None] * (len(stack.faces) - len(gaps))
    return Weld(left, right, stack.top, fits, (shape(f"{crown}L{down}{foot}L{up}Z", "solid weld"),), tuple(gaps))


def _along_the_edges(stack: Stack) -> Weld:
    """A run of weld: in the corner of a stepped lap, else over the level edges and below each that stands back."""
    if stack.is_stepped:
        outer = stack.sheets[0]
        toe, bulge = stack.edge - _EDGE_BEAD, (stack.edge - _EDGE_BEAD * 0.65, outer.top + outer.thick * 0.35)
        corner = shape(
            f"M{at(stack.edge)} {at(outer.top)}Q{at(bulge[0])} {at(bulge[1])} {at(toe)} {at(outer.bottom)}"
            f"H{at(stack.edge)}Z",
            "solid weld",
        )
        return Weld(toe, stack.edge, outer.middle, False, (corner,))
    level = [sheet for sheet in stack.sheets if sheet.start == stack.edge]
    half = at((level[-1].bottom - stack.top) / 2)
    bead = shape(
        f"M{at(stack.edge)} {at(stack.top)}A{at(_EDGE_BEAD)} {half} 0 0 0 {at(stack.edge)} {at(level[-1].bottom)}"
        f"A{at(_EDGE_BEAD / 2)} {half} 0 0 0 {at(stack.edge)} {at(stack.top)}Z",
        "solid weld",
    )
    middle = (stack.top + level[-1].bottom) / 2
    return Weld(stack.edge - _EDGE_BEAD, stack.edge, middle, False, (bead, *_below_the_edges(stack)))


def _below_the_edges(stack: Stack) -> Iterator[str]:
    """A bead in each corner between a sheet and the edge that stands back below it."""
    for sheet in stack.sheets:
        if sheet.start > stack.edge:
            toe, foot = sheet.start - min(_EDGE_BEAD, sheet.thick), sheet.top + min(_EDGE_BEAD, sheet.thick)
            bulge = f"{at(sheet.start - (sheet.start - toe) * 0.35)} {at(sheet.top + (foot - sheet.top) * 0.35)}"
            corner = f"M{at(toe)} {at(sheet.top)}Q{bulge} {at(sheet.start)} {at(foot)}V{at(sheet.top)}Z"
            yield shape(corner, "solid weld")


def _bond(stack: Stack) -> Weld:
    lines = tuple(
        line((stack.strip(at_)[0], face), (stack.radius, face), style="bond") for at_, face in enumerate(stack.faces)
    )
    middle = stack.edge + (stack.radius - stack.edge) * 0.62
    return Weld(middle, middle, stack.faces[0], False, lines)


def room_before_edge(weld: DrawnWeld | None) -> float:
    """How far the weld stands out of the flange's edge."""
    return _EDGE_BEAD if weld is not None and weld.form == "seam" else 0.0
