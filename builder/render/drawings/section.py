"""A cross-section as data in, its drawing out: sheets hatched, weld, film, sealer, and a leader to each.

`lay_out` places everything; `draw` only writes it down, so that tests judge places and not mark-up.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from builder.model.drawings import Section
from builder.model.said import Said
from builder.render.drawings import bead, dimension, hatch, stack, strokes
from builder.render.drawings import weld as welds
from builder.render.drawings.leader import Called, Leader, column
from builder.render.drawings.stack import UNIT, WIDTH, Stack
from builder.render.drawings.strokes import Point, line, words
from builder.render.drawings.text import Label, number, wrap, wrap_both

_TOP = 4.0
_ROW = 22.0
_SIZE = 13.0
_NOTE = 12.0
_ABOVE = 8.0
"""From the tips of the turned sheets to what stands above or below them."""
_LEAST_SEAL = 100.0
"""Room in which the sealer's label is broken into lines at least."""
_DROP = 40.0
"""How far the stack is set down at most to stand level with its labels."""


@dataclass(frozen=True, slots=True)
class Pointed:
    """A one-line-or-more label on a reference line, with a leader to one or more places."""

    label: Label
    places: tuple[Point, ...]
    style: str = "thin"

    def draw(self) -> str:
        """Reference line, leader, dots and text; the leader runs straight down or up from its label."""
        x = self.places[0][0]
        shelf = self.label.line_at(len(self.label.lines) - 1) + 5
        far = max(self.places, key=lambda place: abs(place[1] - shelf))
        dotted = "".join(strokes.dot(place, f"solid {self.style}-dot") for place in self.places)
        return line((self.label.box.right, shelf), (x, shelf), far, style=self.style) + dotted + words(self.label)


@dataclass(frozen=True, slots=True)
class Layout:
    """A section with everything in its place."""

    section: Section
    stack: Stack
    weld: welds.Weld | None
    weld_label: Label | None
    weld_line: float
    """y of the weld's dimension line."""
    flange_line: float
    flange_label: Label
    leaders: tuple[Leader, ...]
    pointed: tuple[Pointed, ...]
    notes: Label
    height: float

    @property
    def labels(self) -> tuple[Label, ...]:
        """Every text on the drawing."""
        own = [text for leader in self.leaders for text in leader.texts]
        own += [pointed.label for pointed in self.pointed]
        own += [self.flange_label, self.notes]
        return tuple(own + ([self.weld_label] if self.weld_label else []))


def lay_out(section: Section) -> Layout:
    """Place the parts and labels of a section, from the top down."""
    before = _room_before(section)
    trial = stack.place(section, 0.0, before)
    film = _film_label(section, trial)
    row = _TOP + (film.height + 10 if film else 0.0)
    weld_label = _weld_label(section, trial, row)
    row += weld_label.height + 8 if weld_label else 0.0
    placed = stack.place(section, row + trial.rise + _ABOVE + _drop(section, trial), before)
    weld = welds.place(placed, section.weld, section.width_scale * UNIT) if section.weld else None
    flange_line = placed.bottom + placed.rise * 0.9
    flange_label = _flange_label(section, placed, flange_line - 5)
    leaders = column(_called(placed), *_beside(section, placed), row)
    foot = max(flange_line + 4, placed.bottom + placed.rise)
    pointed = [Pointed(film, _on_film(placed, _film_leader(section, placed)), "film-line")] if film else []
    beside = max(leader.box.bottom for leader in leaders)
    seal = _seal(section, placed, foot, beside)
    foot = max(foot, beside)
    if seal:
        pointed.append(seal)
        foot = max(foot, seal.label.box.bottom + 6)
    notes = Label(wrap(_scales(section, placed), _NOTE, WIDTH - 8), 4, foot + 22, _NOTE, style="quiet")
    return Layout(
        section, placed, weld, weld_label, row, flange_line, flange_label, leaders, tuple(pointed), notes,
        notes.box.bottom + 4,
    )  # fmt: skip


def draw(section: Section, title: str, description: Said) -> str:
    """The section as SVG text."""
    layout = lay_out(section)
    placed = layout.stack
    marks = [hatch.patterns(section.id)]
    marks += [_sheet(section.id, placed, index) for index in range(len(placed.sheets))]
    if section.film:
        marks += _film(layout)
    if section.seal.text:
        marks.append(_bead(section, placed))
    if layout.weld:
        marks += layout.weld.marks
    if placed.is_shortened and not placed.is_staggered:
        marks.append(_interruption(placed))
    marks.append(dimension.across(placed.edge, placed.radius, layout.flange_line, placed.bottom))
    marks += [words(layout.flange_label), words(layout.notes)]
    marks += [pointed.draw() for pointed in layout.pointed]
    marks += [leader.draw() for leader in layout.leaders]
    marks.append(_weld_words(layout))
    return strokes.svg(section.id, title, description, WIDTH, layout.height, marks)


def _bead(section: Section, placed: Stack) -> str:
    """The sealer: over the corner of a stepped lap, else half-way down the edges of all sheets."""
    size = section.seal_size * section.width_scale * UNIT
    if placed.is_stepped:
        return bead.over_a_step(size, placed.edge, placed.top, placed.sheets[-1].top)
    return bead.draw(section.seal_profile, size, placed.edge, _level(placed), welds.room_before_edge(section.weld))


def _level(placed: Stack) -> float:
    """Half-way down the edges that lie level at the flange's edge."""
    return (placed.top + max(sheet.bottom for sheet in placed.sheets if sheet.start <= placed.edge)) / 2


def _room_before(section: Section) -> float:
    size = section.seal_size * section.width_scale * UNIT if section.seal.text else 0.0
    if stack.lies_stepped(section):
        return max(0.0, bead.left_of_a_step(size) + 6 - stack.RUN)
    return welds.room_before_edge(section.weld) + (bead.depth(section.seal_profile, size) if size else 0.0)


def _film_label(section: Section, placed: Stack) -> Label | None:
    if not section.film:
        return None
    x = _film_leader(section, placed) + 4
    return Label(wrap(section.film, _SIZE, WIDTH - x - 6), x, _TOP + _SIZE, _SIZE, style="film-name")


def _film_leader(section: Section, placed: Stack) -> float:
    """x of the film's leader: a little way in from the edge, and always before the weld."""
    weld = welds.place(placed, section.weld, section.width_scale * UNIT) if section.weld else None
    gap = weld.gaps[0] if weld and weld.gaps else None
    return placed.edge + min(8.0, (gap[0] - placed.edge) / 2 if gap else 8.0)


def _on_film(placed: Stack, x: float) -> tuple[Point, ...]:
    """Where a leader straight down at `x` meets film; at least at the first face."""
    return tuple((x, face) for at, face in enumerate(placed.faces) if at == 0 or placed.strip(at)[0] < x)


def _weld_label(section: Section, placed: Stack, row: float) -> Label | None:
    """Above the weld's axis, moved right where it would meet the film's leader or left where it would be cut off."""
    if section.weld is None:
        return None
    least = placed.edge + 16 if section.film else 4.0
    weld = welds.place(placed, section.weld, section.width_scale * UNIT)
    label = _wrapped(section.weld.label, least, row + _SIZE)
    if not weld.has_width:
        x = max(least, weld.middle + 4)
        return _wrapped(section.weld.label, x, label.y)
    x = min(max(least, weld.middle - label.width / 2), WIDTH - 4 - label.width)
    return replace(label, x=x)


def _wrapped(text: Said, x: float, y: float) -> Label:
    """A label from `x` on, as wide as the drawing lets it be."""
    lines, others = wrap_both(text, _SIZE, WIDTH - x - 4)
    return Label(lines, x, y, _SIZE, others=others)


def _flange_label(section: Section, placed: Stack, y: float) -> Label:
    """Over the middle of its dimension line; a narrow flange moves it clear of the labels beside, or of the margin."""
    said = section.flange_said
    others = (said.other,) if said.other else ()
    label = Label((said.text,), (placed.edge + placed.radius) / 2, y, _SIZE, "middle", others=others)
    half = label.width / 2
    return replace(label, x=max(min(label.x, stack.labels_from(placed)[0] - 4 - half), half + 2))


def _beside(section: Section, placed: Stack) -> tuple[float, float]:
    """Where the labels beside the stack begin, clear of a narrow flange's dimension, and how wide they may be."""
    left, room = stack.labels_from(placed)
    clear = max(left, _flange_label(section, placed, 0.0).box.right + 4)
    return clear, room - (clear - left)


def _drop(section: Section, trial: Stack) -> float:
    """How far the stack is set down beside labels that take more height than it does."""
    leaders = column(_called(trial), *_beside(section, trial), -trial.rise - _ABOVE)
    pushed = sum(leader.shelf[1] - leader.place[1] for leader in leaders) / len(leaders)
    return max(0.0, min(_DROP, pushed))


def _called(placed: Stack) -> tuple[Called, ...]:
    """What is said of each sheet."""
    return tuple(
        Called(
            stack.spot_in(placed, sheet),
            sheet.sheet.thickness_said,
            sheet.sheet.label,
            sheet.sheet.note,
        )
        for sheet in placed.sheets
    )


def _seal(section: Section, placed: Stack, foot: float, beside: float) -> Pointed | None:
    """The sealer's label, under the flange's dimension and clear of the labels beside the stack."""
    if not section.seal.text:
        return None
    size = section.seal_size * section.width_scale * UNIT
    x = placed.edge - welds.room_before_edge(section.weld) - bead.depth(section.seal_profile, size) * 0.4
    if placed.is_stepped:
        x = placed.edge - max(bead.left_of_a_step(size) * 0.6, welds.room_before_edge(section.weld) + 3)
    lines, others = wrap_both(section.seal, _SIZE, max(placed.radius - x, _LEAST_SEAL))
    label = Label(lines, x + 4, foot + 10 + _SIZE, _SIZE, others=others)
    if label.box.right > stack.labels_from(placed)[0] - 6 and label.box.top < beside + 4:
        label = replace(label, y=beside + 6 + _SIZE)
    y = placed.sheets[-1].top - 4 if placed.is_stepped else _level(placed)
    return Pointed(label, ((x, y),))


def _scales(section: Section, placed: Stack) -> str:
    """What the drawing's measures mean."""
    said = f"On paper: thickness {number(section.thickness_scale)}:1, width {number(section.width_scale)}:1"
    said += ", bead at the width scale." if section.seal.text else "."
    if placed.is_shortened:
        said += " Flange drawn shortened."
    if placed.is_staggered:
        said += " Steps of the edges not to scale."
    if section.weld and section.weld.form == "plug" and section.weld.has_stepped_holes and len(placed.sheets) > 2:
        said += " Steps of the hole not to scale."
    if any(sheet.thickness is None for sheet in section.sheets):
        said += " ? and dashed: thickness not known."
    return said


def _sheet(drawing: str, placed: Stack, index: int) -> str:
    sheet = placed.sheets[index]
    marks = [strokes.shape(stack.outline(placed, sheet), "sheet", hatch.fill(drawing, index))]
    near, far = stack.faces(placed, sheet)
    style = "outline unknown" if sheet.sheet.thickness is None else "outline"
    marks += [f'<path class="{style}" d="M{near}M{far}V{strokes.at(sheet.bottom if sheet.turn <= 0 else sheet.top)}"/>']
    if sheet.turn:
        _, near_tip, far_tip, _ = stack.ends(placed, sheet)
        marks.append(strokes.break_line(near_tip, far_tip))
    else:
        x = sheet.start if sheet.is_cut_off else sheet.end
        marks.append(strokes.break_line((x, sheet.top), (x, sheet.bottom)))
    return "".join(marks)


def _film(layout: Layout) -> list[str]:
    """The film on every mating face, from the edge to the radius, none where the weld is."""
    placed = layout.stack
    gaps = layout.weld.gaps if layout.weld else ()
    marks: list[str] = []
    for at, face in enumerate(placed.faces):
        start, gap = placed.strip(at)[0], gaps[at] if at < len(gaps) else None
        runs = [(start, gap[0]), (gap[1], placed.radius)] if gap else [(start, placed.radius)]
        marks += [line((left, face), (right, face), style="film") for left, right in runs]
    return marks


def _weld_words(layout: Layout) -> str:
    """The weld's label: over a dimension line where its width is given, else at the end of a leader."""
    if layout.weld is None or layout.weld_label is None:
        return ""
    weld, label = layout.weld, layout.weld_label
    if weld.has_width:
        return dimension.across(weld.left, weld.right, layout.weld_line, weld.top) + words(label)
    return Pointed(label, ((weld.middle, weld.top),)).draw()


def _interruption(placed: Stack) -> str:
    """Two break lines across the flange with nothing between them: it is wider than it is drawn."""
    x = placed.edge + (placed.radius - placed.edge) * 0.82
    top, bottom = placed.top - 3, placed.bottom + 3
    gap = strokes.shape(f"M{strokes.points([(x - 3, top), (x + 3, top), (x + 3, bottom), (x - 3, bottom)])}Z", "paper")
    return gap + "".join(strokes.break_line((side, placed.top), (side, placed.bottom)) for side in (x - 3, x + 3))
