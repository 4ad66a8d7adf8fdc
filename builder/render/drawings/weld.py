"""A placed stack and its weld in, the weld's marks out: nuggets, a filled hole, a bead along the edge, a bond line."""

from __future__ import annotations

from dataclasses import dataclass

from builder.model.drawings import DrawnWeld
from builder.render.drawings.stack import Stack
from builder.render.drawings.strokes import Point, at, line, shape

_UNSTATED = 0.28
"""Share of the flange a weld takes up where no width is given; it is then drawn without a dimension."""
_SINK = 0.3
"""How deep a nugget stands in the thinner of its two sheets, and a plug in the last, as shares of the sheet."""
_CROWN = 3.0
_EDGE_BEAD = 11.0


@dataclass(frozen=True, slots=True)
class Weld:
    """The weld as drawn."""

    left: float
    right: float
    top: float
    """Where extension lines begin, and a leader ends."""
    has_width: bool
    marks: tuple[str, ...]

    @property
    def middle(self) -> float:
        """x of its axis."""
        return (self.left + self.right) / 2


def place(stack: Stack, weld: DrawnWeld, width_scale_units: float) -> Weld:
    """Draw the weld in the stack; `width_scale_units` are user units for each mm of width."""
    flange = stack.radius - stack.edge
    if weld.form == "seam":
        return _along_the_edge(stack)
    if weld.form == "bond":
        return _bond(stack)
    width = min(weld.width * width_scale_units if weld.width is not None else flange * _UNSTATED, flange - 8)
    middle = stack.edge + flange * (0.42 if stack.is_shortened else 0.5)
    left, right = middle - width / 2, middle + width / 2
    if weld.form == "plug":
        return Weld(left, right, stack.top, weld.width is not None, (_plug(stack, left, right),))
    return Weld(left, right, stack.faces[0], weld.width is not None, tuple(_nuggets(stack, left, right)))


def film_gaps(weld: Weld | None, form: str) -> tuple[float, float] | None:
    """Where the film on the mating faces is interrupted by the weld."""
    return (weld.left, weld.right) if weld is not None and form in ("spot", "plug") else None


def _nuggets(stack: Stack, left: float, right: float) -> list[str]:
    marks = []
    for upper, lower in zip(stack.sheets, stack.sheets[1:], strict=False):
        half = _SINK * min(upper.thick, lower.thick) + 1.5
        radii = f"{at((right - left) / 2)} {at(half)}"
        ends: tuple[Point, Point] = ((left, upper.bottom), (right, upper.bottom))
        first, last = (f"{at(x)} {at(y)}" for x, y in ends)
        marks.append(shape(f"M{first}A{radii} 0 0 1 {last}A{radii} 0 0 1 {first}Z", "solid weld"))
    return marks


def _plug(stack: Stack, left: float, right: float) -> str:
    floor = stack.sheets[-1].top
    half = at((right - left) / 2)
    sink = at(_SINK * stack.sheets[-1].thick + 1)
    return shape(
        f"M{at(left)} {at(stack.top)}A{half} {at(_CROWN)} 0 0 1 {at(right)} {at(stack.top)}"
        f"V{at(floor)}A{half} {sink} 0 0 1 {at(left)} {at(floor)}Z",
        "solid weld",
    )


def _along_the_edge(stack: Stack) -> Weld:
    """A run of weld: in the corner of a stepped lap, else over the edges of all sheets."""
    if stack.is_stepped:
        outer = stack.sheets[0]
        toe, bulge = stack.edge - _EDGE_BEAD, (stack.edge - _EDGE_BEAD * 0.65, outer.top + outer.thick * 0.35)
        corner = shape(
            f"M{at(stack.edge)} {at(outer.top)}Q{at(bulge[0])} {at(bulge[1])} {at(toe)} {at(outer.bottom)}"
            f"H{at(stack.edge)}Z",
            "solid weld",
        )
        return Weld(toe, stack.edge, outer.middle, False, (corner,))
    half = at((stack.bottom - stack.top) / 2)
    bead = shape(
        f"M{at(stack.edge)} {at(stack.top)}A{at(_EDGE_BEAD)} {half} 0 0 0 {at(stack.edge)} {at(stack.bottom)}"
        f"A{at(_EDGE_BEAD / 2)} {half} 0 0 0 {at(stack.edge)} {at(stack.top)}Z",
        "solid weld",
    )
    return Weld(stack.edge - _EDGE_BEAD, stack.edge, (stack.top + stack.bottom) / 2, False, (bead,))


def _bond(stack: Stack) -> Weld:
    lines = tuple(line((stack.edge, face), (stack.radius, face), style="bond") for face in stack.faces)
    middle = stack.edge + (stack.radius - stack.edge) * 0.62
    return Weld(middle, middle, stack.faces[0], False, lines)


def room_before_edge(weld: DrawnWeld | None) -> float:
    """How far the weld stands out of the flange's edge."""
    return _EDGE_BEAD if weld is not None and weld.form == "seam" else 0.0
