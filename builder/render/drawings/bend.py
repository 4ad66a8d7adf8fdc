"""A sheet bent once as data in, its profile to scale out; bend.js draws the same, mark by mark."""

from __future__ import annotations

import math
from dataclasses import dataclass

from builder.model.plots import Measure, Sketch
from builder.model.said import Said
from builder.render.drawings import hatch, leader, strokes
from builder.render.drawings.leader import Called, Leader
from builder.render.drawings.measure import beside, between, inside, on_paper
from builder.render.drawings.stack import WIDTH
from builder.render.drawings.strokes import Point, arrowhead, at, break_line, line, shape
from builder.render.drawings.text import Label

_LEFT, _TOP = 34.0, 22.0
_WIDE, _HIGH = 168.0, 150.0
_LABELS = 236.0
_SIZE = 13.0
_ANGLE_OFF = 14.0
"""From the outer face to the arc that measures the angle."""
_SETBACK_OFF = 46.0
_FARTHEST = 4.0
"""A corner that lies farther off, in outer radii, is not drawn."""
_CUTS = 12


@dataclass(frozen=True, slots=True)
class Bend:
    """The profile in one unit, its first leg along the foot, and how it comes onto the sheet."""

    angle: float
    radius: float
    thickness: float
    leg: float
    corner: float | None
    """How far the outside corner lies from the start of the bend; None where there is none to be drawn."""
    scale: float
    origin: Point
    """Where the bend starts on its outer face, on the sheet."""

    @property
    def outer(self) -> float:
        """Radius of the outer face."""
        return self.radius + self.thickness

    def place(self, x: float, y: float) -> Point:
        """A place of the profile on the sheet, which counts downwards."""
        return self.origin[0] + x * self.scale, self.origin[1] - y * self.scale

    def around(self, radius: float, turned: float) -> Point:
        """A place on the sheet at a radius from the centre, turned so far from the start of the bend."""
        return self.place(*_around(self.outer, radius, turned))

    def along(self, radius: float) -> Point:
        """The far end of the second leg on the face of this radius."""
        x, y = _around(self.outer, radius, self.angle)
        return self.place(x + self.leg * math.cos(self.angle), y + self.leg * math.sin(self.angle))


def _around(outer: float, radius: float, turned: float) -> Point:
    return radius * math.sin(turned), outer - radius * math.cos(turned)


def lay_out(angle: float, radius: float, thickness: float) -> Bend:
    """Find the largest scale at which the profile fits."""
    outer = radius + thickness
    leg = max(5 * thickness, outer)
    half = math.tan(angle / 2) if angle < math.pi * 0.999 else math.inf
    corner = outer * half if half <= _FARTHEST else None
    places = [(-leg, 0.0), *(_around(outer, outer, angle * cut / _CUTS) for cut in range(_CUTS + 1))]
    for face in (radius, outer):
        x, y = _around(outer, face, angle)
        places.append((x + leg * math.cos(angle), y + leg * math.sin(angle)))
    places += [(corner, 0.0)] if corner is not None else []
    left, right = min(x for x, _ in places), max(x for x, _ in places)
    low, high = min(y for _, y in places), max(y for _, y in places)
    scale = min(_WIDE / (right - left), _HIGH / (high - low))
    return Bend(angle, radius, thickness, leg, corner, scale, (_LEFT - left * scale, _TOP + high * scale))


def draw(sketch: Sketch, title: str, description: str) -> str:
    """The profile as SVG text; bare paper where a measure is missing."""
    measures = sketch.measures
    values = [measures[name].value for name in ("angle", "radius", "thickness")]
    known = [value for value in values if value is not None]
    if len(known) < len(values) or not known[0] > 0 or not known[2] > 0:
        return strokes.svg(sketch.id, title, Said(description), WIDTH, 20.0, [])
    bend = lay_out(*known)
    foot = bend.origin[1]
    marks = [hatch.patterns(sketch.id), _profile(sketch.id, bend), *_thickness(bend, measures["thickness"])]
    called = [_angle(marks, bend, measures["angle"]), _radius(marks, bend, measures["radius"])]
    called += _allowance(marks, bend, measures.get("allowance"))
    setback = measures.get("setback")
    if setback is not None and setback.value is not None and bend.corner is not None:
        marks += _setback(bend, setback)
        foot += _SETBACK_OFF
    leaders = leader.column(tuple(sorted(called, key=lambda one: one.place[1])), _LABELS, WIDTH - _LABELS - 2, 8.0)
    marks += [one.draw() for one in leaders]
    return strokes.svg(sketch.id, title, Said(description), WIDTH, _height(foot, leaders), marks)


def _height(foot: float, leaders: tuple[Leader, ...]) -> float:
    return max([foot + 36, *(one.box.bottom + 8 for one in leaders)])


def _profile(name: str, bend: Bend) -> str:
    """The section with its hatching, and where it goes on beyond the sheet."""
    outer, inner = (at(radius * bend.scale) for radius in (bend.outer, bend.radius))
    places = [
        bend.place(-bend.leg, 0.0), bend.around(bend.outer, 0.0), bend.around(bend.outer, bend.angle),
        bend.along(bend.outer), bend.along(bend.radius), bend.around(bend.radius, bend.angle),
        bend.around(bend.radius, 0.0), bend.place(-bend.leg, bend.thickness),
    ]  # fmt: skip
    a, b, c, d, e, f, g, h = (f"{at(x)} {at(y)}" for x, y in places)
    edge = f"M{a}L{b}A{outer} {outer} 0 0 0 {c}L{d}"
    inside_edge = f"L{e}L{f}A{inner} {inner} 0 0 1 {g}L{h}"
    filled = shape(f"{edge}{inside_edge}Z", "sheet", hatch.fill(name, 0))
    outline = f'<path class="outline" d="{edge}M{inside_edge[1:]}"/>'
    return filled + outline + break_line(places[7], places[0]) + break_line(places[3], places[4])


def _thickness(bend: Bend, measure: Measure) -> list[str]:
    x, y = bend.place(-bend.leg, 0.0)
    top = y - bend.thickness * bend.scale
    text = Label((measure.text,), 6.0, y + 30, _SIZE)
    return [between((x, y), (x, top), (-14.0, 0.0)), on_paper(inside(text))]


def _angle(marks: list[str], bend: Bend, measure: Measure) -> Called:
    """The arc between the two radii at which the bend starts and ends."""
    radius = bend.outer + _ANGLE_OFF / bend.scale
    ends = (bend.around(radius, 0.0), bend.around(radius, bend.angle))
    beyond = radius + 4 / bend.scale
    near = bend.outer + 3 / bend.scale
    marks += [line(bend.around(near, turned), bend.around(beyond, turned)) for turned in (0.0, bend.angle)]
    marks.append(_arc(bend, radius, "thin"))
    if bend.angle * radius * bend.scale >= 20:
        marks += [arrowhead(ends[0], math.pi), arrowhead(ends[1], -bend.angle)]
    return Called(bend.around(radius, bend.angle * 0.75), Said(measure.text), measure.name)


def _radius(marks: list[str], bend: Bend, measure: Measure) -> Called:
    tip = bend.around(bend.radius, bend.angle / 2)
    centre = bend.place(0.0, bend.outer)
    if bend.radius * bend.scale >= 12:
        marks += [line(centre, tip), arrowhead(tip, math.pi / 2 - bend.angle / 2)]
    return Called(centre if bend.radius * bend.scale >= 12 else tip, Said(f"R {measure.text}"), measure.name)


def _allowance(marks: list[str], bend: Bend, measure: Measure | None) -> list[Called]:
    """The line in the sheet that keeps its length, as long as the allowance says."""
    if measure is None or measure.value is None:
        return []
    radius = min(max(measure.value / bend.angle, bend.radius), bend.outer)
    start, end = bend.around(radius, 0.0), bend.around(radius, bend.angle)
    marks.append(_arc(bend, radius, "axis"))
    marks += [f'<circle class="solid" cx="{at(x)}" cy="{at(y)}" r="1.6"/>' for x, y in (start, end)]
    return [Called(bend.around(radius, bend.angle * 0.4), Said(measure.text), measure.name)]


def _arc(bend: Bend, radius: float, style: str) -> str:
    size = at(radius * bend.scale)
    (x1, y1), (x2, y2) = bend.around(radius, 0.0), bend.around(radius, bend.angle)
    return f'<path class="{style}" d="M{at(x1)} {at(y1)}A{size} {size} 0 0 0 {at(x2)} {at(y2)}"/>'


def _setback(bend: Bend, measure: Measure) -> list[str]:
    """From the start of the bend to the corner in which the outer faces would meet."""
    assert bend.corner is not None
    start, corner = bend.place(0.0, 0.0), bend.place(bend.corner, 0.0)
    end = bend.around(bend.outer, bend.angle)
    text = beside(measure.text, start[0], corner[0], start[1] + _SETBACK_OFF, _SIZE, _LABELS - 4)
    return [line(start, corner, end, style="axis"), between(start, corner, (0.0, _SETBACK_OFF)), text]
