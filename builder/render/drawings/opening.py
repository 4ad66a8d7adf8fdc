"""A four-sided opening that leans as data in, its drawing out, the lean exaggerated; opening.js draws the same."""

from __future__ import annotations

from builder.model.plots import Sketch
from builder.model.said import Said
from builder.render.drawings import strokes
from builder.render.drawings.measure import between, inside, on_paper
from builder.render.drawings.stack import WIDTH
from builder.render.drawings.strokes import Point, line, shape, words
from builder.render.drawings.text import Label, wrap

_LEFT, _TOP = 92.0, 52.0
_WIDE, _HIGH = 176.0, 150.0
_DRAWN_LEAN = 26.0
"""A lean that would be drawn smaller is exaggerated to this."""
_FARTHEST = 60.0
"""A lean that would be drawn larger is drawn as this."""
_SIZE = 13.0


def draw(sketch: Sketch, title: str, description: str) -> str:
    """The opening as SVG text; bare paper where a measure is missing."""
    found = {name: one.value for name, one in sketch.measures.items() if one.value is not None}
    if not {"width", "height", "lean"} <= set(found) or not (found["width"] > 0 and found["height"] > 0):
        return strokes.svg(sketch.id, title, Said(description), WIDTH, 20.0, [])
    scale = min(_WIDE / found["width"], _HIGH / found["height"])
    wide, high = found["width"] * scale, found["height"] * scale
    lean = drawn_lean(found["lean"] * scale)
    foot, left = _TOP + high, _LEFT + max(0.0, -lean)
    corners: list[Point] = [(left, foot), (left + wide, foot), (left + wide + lean, _TOP), (left + lean, _TOP)]
    marks = [shape(f"M{strokes.points(corners)}Z", "outline"), *_diagonals(sketch, corners)]
    marks.append(line((left, foot), (left, _TOP), style="axis"))
    marks.append(between((left, foot), (left + wide, foot), (0.0, 26.0)))
    side = left + min(0.0, lean) - 22
    marks.append(between((left, _TOP), (left, foot), (side - left, 0.0)))
    labels = [
        Label((sketch.measures["width"].text,), left + wide / 2, foot + 21, _SIZE, "middle"),
        Label((sketch.measures["height"].text,), side - 6, (_TOP + foot) / 2 + 4, _SIZE, "end"),
        Label((sketch.measures["lean"].text,), left + lean / 2, _TOP - 21, _SIZE, "middle"),
    ]
    if lean:
        marks.append(between((left, _TOP), (left + lean, _TOP), (0.0, -16.0)))
    marks += [on_paper(inside(label)) for label in labels]
    said = Label(wrap(said_of(found["lean"] * scale, lean), 12.0, WIDTH - 16), 8.0, foot + 50, 12.0, style="quiet")
    marks.append(words(said))
    return strokes.svg(sketch.id, title, Said(description), WIDTH, said.box.bottom + 6, marks)


def drawn_lean(lean: float) -> float:
    """How far the top stands aside on the sheet: as it is, or exaggerated where that could not be seen."""
    if not lean or abs(lean) >= _DRAWN_LEAN:
        return max(-_FARTHEST, min(_FARTHEST, lean))
    return _DRAWN_LEAN if lean > 0 else -_DRAWN_LEAN


def said_of(true: float, drawn: float) -> str:
    """Say whether the lean is drawn to scale."""
    if abs(true) > abs(drawn):
        return "Drawn to scale but for the lean, which is drawn smaller."
    return "Drawn to scale." if true == drawn else "Drawn to scale but for the lean, which is exaggerated."


def _diagonals(sketch: Sketch, corners: list[Point]) -> list[str]:
    """The rising one ends at the upper right, the falling one at the lower right."""
    marks: list[str] = []
    for name, one, other, share in (("rising", 0, 2, 0.3), ("falling", 3, 1, 0.3)):
        measure = sketch.measures.get(name)
        if measure is None or measure.value is None:
            continue
        (x1, y1), (x2, y2) = corners[one], corners[other]
        marks.append(line((x1, y1), (x2, y2)))
        text = Label((measure.text,), x1 + (x2 - x1) * share, y1 + (y2 - y1) * share + 4, _SIZE, "middle")
        marks.append(on_paper(inside(text)))
    return marks
