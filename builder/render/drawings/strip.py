"""A seam's welds as data in, sheets to print at full size out, one unit a millimetre; strip.js draws the same.

A sheet fits the breadth that A4 and Letter share when they lie on their side. It holds the words and the line by which
the printer is checked, then pieces of the strip, one above the other, to be cut out and joined letter upon letter.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape

from builder.model.said import Said, joined, said
from builder.model.strip import Strip
from builder.render.drawings.paper import arrow_left, line, mm, shortened, text, upright
from builder.render.drawings.pieces import Cross, Piece, pieces
from builder.render.drawings.text import width_of

WIDTH, HEIGHT = 258.0, 186.0
"""What A4 and Letter both leave free within margins of 10 mm."""
ON_A_SHEET = 4
FRONT = 6.0
"""x at which a piece of the seam begins."""
CHECK = 100.0
_CHECK_FROM, _CHECK_LINE = 1.0, 29.0
_FIRST, _PIECE = 35.0, 37.0
_BAND = (19.0, 29.0)
"""Of a piece, from its top."""
_TAB = 8.0
_CODE = 28.0
"""At the right of the head, for the code that leads to the strip's page."""
_SHORTEST = 100.0
"""Of the paper of the last piece, so that what tells it has room."""
_NUMBER, _PLACE, _WORDS = 3.4, 2.6, 3.0
_LABELS = ((15.0, 18.0), (8.2, 11.2))
"""Baselines of a weld's number and place on the line next to the band, and on the one above."""
_GAP, _HAIR = 1.2, 0.4
"""Between two labels on a line, and between a label and a stroke that passes it."""
_FRONT, _REAR = "Front end", "Rear end"
_LEAST = 10.0
"""Room in which a segment's name is begun at all."""
_LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def sheets(strip: Strip) -> list[str]:
    """The sheets as SVG text, each with a name of its own."""
    cut = pieces(strip.segments)
    parts = [cut[at : at + ON_A_SHEET] for at in range(0, len(cut), ON_A_SHEET)]
    return [_svg(strip, number, len(parts), marks_of(strip, part, number, len(parts), len(cut)))
            for number, part in enumerate(parts, 1)]  # fmt: skip


def _svg(strip: Strip, number: int, count: int, marks: Sequence[str]) -> str:
    name = f"{escape(strip.id)}-{number}_title"
    said = f"Sheet {number} of {count}: {strip.seam}, {strip.method}"
    return (
        f'<svg class="strip-sheet" role="img" aria-labelledby="{name}" viewBox="0 0 {mm(WIDTH)} {mm(HEIGHT)}" '
        f'width="{mm(WIDTH)}mm" height="{mm(HEIGHT)}mm"><title id="{name}">{escape(said)}</title>{"".join(marks)}</svg>'
    )


def marks_of(strip: Strip, part: Sequence[Piece], sheet: int, sheet_count: int, piece_count: int) -> list[str]:
    """Everything on one sheet."""
    marks = [*_head(strip, sheet, sheet_count, piece_count), *_check_line(), *_foot(strip)]
    for at, piece in enumerate(part):
        marks += _piece(strip, piece, piece_count, _FIRST + _PIECE * at)
    return [mark for mark in marks if mark]


def _head(strip: Strip, sheet: int, count: int, piece_count: int) -> Iterator[str]:
    number = f"Sheet {sheet} of {count}"
    room = WIDTH - width_of(number, 4.2) - 6
    yield text(shortened(f"{strip.seam}: {strip.method}", 5.0, room, bold=True), 0.0, 4.8, 5.0, style="strong")
    yield text(number, WIDTH, 4.8, 4.2, "end")
    yield text(_told(strip), 0.0, 9.8, _WORDS)
    hand = " It serves both sides of the car; on one of them it reads upside down." if strip.is_handed else ""
    join = "Cut the pieces out. Where letters agree, lay the edge of the piece behind on the line of the one before."
    yield text(join if piece_count > 1 else "Cut the strip out.", 0.0, 13.8, _WORDS)
    yield text(f"Lay the strip along the flange with the arrow to the front.{hand}", 0.0, 17.8, _WORDS)
    legend = "A cross is a weld: its number from the front of its segment, and its place from there in "
    ticks = ". Short light strokes: about where the factory's welds were."
    yield text(said(legend, strip.unit, ticks), 0.0, 21.8, _WORDS)


def _told(strip: Strip) -> Said:
    """The segments in a line, as far as there is room for them."""
    parts: list[str | Said] = []
    for segment in strip.segments:
        row = segment.row
        welds = said(f", {row.count} ", "weld" if row.count == 1 else "welds") if row else said(f", {segment.why}")
        apart = said(" ", segment.spacing_said, " apart") if row is not None and row.count > 1 else said("")
        more = [*parts, said(f"{segment.label} ", segment.length_said, welds, apart)]
        if max(width_of(one, _WORDS) for one in joined("; ", more)) > WIDTH - _CODE:
            return joined("; ", [*parts, "…"])
        parts = more
    return joined("; ", parts)


def _check_line() -> Iterator[str]:
    """100 mm to lay a rule on, with a stroke every 10 mm."""
    left, y = _CHECK_FROM, _CHECK_LINE
    yield text("Check line, 100 mm", 0.0, y - 3.2, _WORDS, style="strong")
    yield line((left, y), (left + CHECK, y), style="check")
    yield upright((left, left + CHECK), y - 2.5, y + 2.5, "check")
    yield upright([left + 10.0 * at for at in range(1, 10)], y - 1.2, y, "check")
    check = "Print at 100 percent, not fitted to the page. Then lay a steel rule on this line."
    yield text(check, left + CHECK + 6, y - 1.4, _WORDS)
    refuse = "If it is not exactly 100 mm long, do not use the sheet."
    yield text(refuse, left + CHECK + 6, y + 3.0, _WORDS, style="strong")


def _foot(strip: Strip) -> Iterator[str]:
    edition = shortened(f"{strip.shop}, {strip.edition}", _PLACE, 142.0)
    yield text(edition, 0.0, HEIGHT - 1.0, _PLACE, style="quiet")
    x = 146.0
    for label, room in (("Car", 24.0), ("Side", 14.0), ("Measured by", 12.0), ("Date", 14.0)):
        yield text(label, x, HEIGHT - 1.0, _PLACE, style="quiet")
        x += width_of(label, _PLACE) + 1
        yield line((x, HEIGHT - 0.6), (x + room, HEIGHT - 0.6), style="thin")
        x += room + 2


def letter(number: int) -> str:
    """The letter of a join: A to Z, then A1 and so on."""
    turn, at = divmod(number - 1, len(_LETTERS))
    return _LETTERS[at] + (str(turn) if turn else "")


def _piece(strip: Strip, piece: Piece, count: int, top: float) -> Iterator[str]:
    """One piece: its outline, its head, the band with its crosses, borders and joins."""
    left, right = FRONT, FRONT + piece.end - piece.start
    end = max(right + 6.0, left + _SHORTEST) if piece.is_last else right + _TAB
    yield from _outline(piece, left, right, end, top)
    yield from _caption(strip, piece, count, left, end - 1 if piece.is_last else right, top)
    upper, lower = top + _BAND[0], top + _BAND[1]
    yield line((left, upper), (right, upper), style="thin")
    yield line((left, lower), (right, lower), style="thin")
    yield upright([left + place - piece.start for place in piece.factory], lower + 0.6, lower + 3.0, "factory")
    yield from _borders(strip, piece, left, right, top)
    yield from _crosses(strip, piece, left, top)


def _borders(strip: Strip, piece: Piece, left: float, right: float, top: float) -> Iterator[str]:
    """Where segments begin, with their names as far as there is room, and where the last one ends."""
    upper, lower, below = top + _BAND[0] - 1.5, top + _BAND[1] + 3.5, top + 35.2
    xs = [left + border.place - piece.start for border in piece.borders]
    ends = [*xs[1:], right - (width_of(_REAR, _PLACE) + 2 if piece.is_last else 0.0)]
    for border, x, end in zip(piece.borders, xs, ends, strict=False):
        yield upright((x,), upper, lower, "outline")
        front = f"{_FRONT}. " if border.segment == 0 else ""
        label = f"{front}{strip.segments[border.segment].label} begins"
        if end - x > _LEAST:
            yield text(shortened(label, _PLACE, end - x - 2), x + 1, below, _PLACE)
    if piece.is_last:
        yield upright((right,), upper, lower, "outline")
        yield text(_REAR, right - 1, below, _PLACE, "end")


def _outline(piece: Piece, left: float, right: float, end: float, top: float) -> Iterator[str]:
    """Where it is cut out; a join is cut on the piece behind it, and lies on the tab of the one before."""
    start = left - (5.5 if piece.number == 1 else 0.0)
    yield line((start, top), (end, top), (end, top + 36.2), (start, top + 36.2), (start, top), style="cut")
    if piece.number > 1:
        yield upright((left,), top, top + 36.2, "outline")
        yield text(letter(piece.number - 1), left + 1.2, top + 5.0, 4.6, style="strong")
    if not piece.is_last:
        yield upright((right,), top, top + 36.2, "outline")
        yield text(letter(piece.number), right + _TAB / 2, top + 5.0, 4.6, "middle", "strong")


def _caption(strip: Strip, piece: Piece, count: int, left: float, right: float, top: float) -> Iterator[str]:
    """What tells a piece once it is cut out."""
    x = left + (8.0 if piece.number > 1 else 0.0)
    yield arrow_left(x, top + 3.0, 9.0)
    room = right - x - 11
    said = f"Front. Piece {piece.number} of {count}. {strip.seam}, {strip.method}"
    yield text(shortened(said, _PLACE, room), x + 10.5, top + 3.9, _PLACE)


def _crosses(strip: Strip, piece: Piece, left: float, top: float) -> Iterator[str]:
    """A cross for every weld, and above it what there is room for."""
    upper, lower = top + _BAND[0], top + _BAND[1]
    middle = (upper + lower) / 2
    xs = [left + cross.place - piece.start for cross in piece.crosses]
    yield upright(xs, upper, lower, "cross")
    yield "".join(line((x - 2, middle), (x + 2, middle), style="cross") for x in xs)
    near, far, stroke = 0.0, 0.0, 0.0
    for cross, x in zip(piece.crosses, xs, strict=True):
        place = strip.places[cross.segment][cross.number - 1]
        half = _half(cross, place)
        if x - half >= max(near + _GAP, stroke + _HAIR):
            near, (number, below) = x + half, _LABELS[0]
        elif x - half >= far + _GAP and x >= near + _HAIR:
            far, stroke, (number, below) = x + half, x, _LABELS[1]
            yield upright((x,), top + below + 0.6, upper, "thin")
        else:
            continue
        yield text(str(cross.number), x, top + number, _NUMBER, "middle", "strong")
        yield text(place, x, top + below, _PLACE, "middle")


def _half(cross: Cross, place: Said) -> float:
    """Half the room that the label of a weld takes."""
    both = max(width_of(one, _PLACE) for one in place)
    return max(both, width_of(str(cross.number), _NUMBER, True)) / 2
