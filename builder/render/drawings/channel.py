"""A base with two legs bent up as data in, its section to scale out; channel.js draws the same, mark by mark."""

from __future__ import annotations

from builder.model.plots import Sketch
from builder.model.said import Said
from builder.render.drawings import hatch, strokes
from builder.render.drawings.measure import between, inside, on_paper
from builder.render.drawings.stack import WIDTH
from builder.render.drawings.strokes import at, shape, words
from builder.render.drawings.text import Label

_LEFT, _TOP = 84.0, 30.0
_WIDE, _HIGH = 172.0, 150.0
_SIZE = 13.0
_WIDE_ENOUGH = 90.0
"""Between the legs of a narrower channel there is no room to write."""
_NEEDED = ("base", "left", "right", "thickness")


def draw(sketch: Sketch, title: str, description: str) -> str:
    """The channel as SVG text; bare paper where a measure is missing."""
    found = {name: one.value for name, one in sketch.measures.items() if one.value is not None}
    if any(name not in found or not found[name] > 0 for name in _NEEDED):
        return strokes.svg(sketch.id, title, Said(description), WIDTH, 20.0, [])
    scale = min(_WIDE / found["base"], _HIGH / max(found["left"], found["right"]))
    base, left, right, thick = (found[name] * scale for name in _NEEDED)
    thick = min(thick, base / 2, left, right)
    corner = max(0.0, min(found.get("radius", 0.0) * scale, base / 2 - thick, left - thick, right - thick))
    foot, end = _TOP + max(left, right), _LEFT + base
    marks = [hatch.patterns(sketch.id), _section(sketch.id, (left, right, thick, corner), foot, end)]
    marks.append(between((_LEFT, foot), (end, foot), (0.0, 28.0)))
    marks.append(between((_LEFT, foot - left), (_LEFT, foot), (-24.0, 0.0)))
    marks.append(between((end, foot - right), (end, foot), (24.0, 0.0)))
    middle = (_LEFT + end) / 2
    is_wide = base >= _WIDE_ENOUGH
    if is_wide:
        marks.append(between((middle, foot - thick), (middle, foot), (0.0, 0.0)))
    texts = [
        Label((sketch.measures["base"].text,), middle, foot + 23, _SIZE, "middle"),
        Label((sketch.measures["left"].text,), _LEFT - 29, foot - left / 2 + 4, _SIZE, "end"),
        Label((sketch.measures["right"].text,), end + 29, foot - right / 2 + 4, _SIZE),
        *([Label((sketch.measures["thickness"].text,), middle + 6, foot - thick - 9, _SIZE)] if is_wide else []),
    ]
    marks += [on_paper(inside(text)) for text in texts]
    y = foot + 50.0
    for name in ("radius", "blank") if is_wide else ("thickness", "radius", "blank"):
        if name in found:
            text = f"{sketch.measures[name].name}: {sketch.measures[name].text}"
            marks.append(words(Label((text,), 8.0, y, _SIZE)))
            y += 18
    return strokes.svg(sketch.id, title, Said(description), WIDTH, y - 8, marks)


def _section(name: str, sizes: tuple[float, float, float, float], foot: float, end: float) -> str:
    """The section, its corners rounded by the inside radius."""
    left, right, thick, corner = sizes
    outer = corner + thick if corner else 0.0
    big, small = f"{at(outer)} {at(outer)}", f"{at(corner)} {at(corner)}"
    path = (
        f"M{at(_LEFT)} {at(foot - left)}V{at(foot - outer)}A{big} 0 0 0 {at(_LEFT + outer)} {at(foot)}"
        f"H{at(end - outer)}A{big} 0 0 0 {at(end)} {at(foot - outer)}V{at(foot - right)}H{at(end - thick)}"
        f"V{at(foot - thick - corner)}A{small} 0 0 1 {at(end - thick - corner)} {at(foot - thick)}"
        f"H{at(_LEFT + thick + corner)}A{small} 0 0 1 {at(_LEFT + thick)} {at(foot - thick - corner)}"
        f"V{at(foot - left)}Z"
    )
    return shape(path, "sheet", hatch.fill(name, 0)) + shape(path, "outline")
