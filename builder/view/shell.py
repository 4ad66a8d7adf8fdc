"""A shell and the book's panels -> the sheet that shows them, the same in words, and the shell's own page."""

from __future__ import annotations

from collections.abc import Iterator

from builder.model.drawings import Body, DrawnPanel, ShellView
from builder.model.outline import Line, mirrored, read_line
from builder.model.records.shell import Drawn, Shell, Twin, View
from builder.model.reference import Ref
from builder.model.views import Block, Group, Groups, Link, Links, Page
from builder.view.here import Here
from builder.view.page import page, passage

WORDS = "in-words"
"""Anchor of the list that says what the drawing shows."""
BEHIND = "behind what is seen there"
Placed = tuple[Ref, bool, Drawn]
"""A panel, whether it is handed, and one place where it is drawn."""


def shell_page(here: Here, ref: Ref, shell: Shell) -> Page:
    """Make a shell's page."""
    body = unfold(here, shell, "The shell unfolded", "body")
    main: tuple[Block, ...] = (
        body,
        Groups("Its panels in words", in_words(shell, body), WORDS),
        Links("Sources", here.links("source", shell.sources), "None.", "sources"),
    )
    return page(
        here, ref, shell.title, "Body shell", here.paragraphs(shell.summary), main, aliases=shell.was,
        texts=(passage("", shell.title, shell.summary),),
    )  # fmt: skip


def unfold(here: Here, shell: Shell, title: str, anchor: str) -> Body:
    """Lay a shell flat, with every panel of the book that is drawn on it."""
    places = tuple(_places(here))
    rows: dict[int, list[ShellView]] = {}
    for id_, view in shell.views.items():
        twin = next((name for name, one in shell.twins.items() if one.of == id_), "")
        panels = _panels(here, view, places, id_, twin)
        rows.setdefault(view.row, []).append(
            ShellView(id_, view.say, view.width, view.height, view.column, False, tuple(_strokes(view)), panels)
        )
    for id_, one in shell.twins.items():
        rows.setdefault(one.row, []).append(_twin(here, id_, one, shell.views[one.of], places))
    lain = tuple(tuple(rows[row]) for row in sorted(rows))
    return Body(title, shell.title, shell.notes, lain, anchor, WORDS)


def _twin(here: Here, id_: str, twin: Twin, view: View, places: tuple[Placed, ...]) -> ShellView:
    strokes = tuple(
        (style, tuple(mirrored(line, width=view.width) for line in lines)) for style, lines in _strokes(view)
    )
    panels = _panels(here, view, places, id_, twin.of)
    return ShellView(id_, twin.say, view.width, view.height, twin.column, twin.upended, strokes, panels)


def _places(here: Here) -> Iterator[Placed]:
    summaries = here.book.catalogue.summaries
    for ref in sorted(ref for ref, summary in summaries.items() if summary.drawn):
        summary = summaries[ref]
        yield from ((ref, bool(summary.handed), drawn) for drawn in summary.drawn)


def _strokes(view: View) -> Iterator[tuple[str, tuple[Line, ...]]]:
    """A view's lines whole: those of a half are mirrored, and the middle line is added."""
    for stroke in view.strokes:
        lines = tuple(read_line(run) for run in stroke.runs)
        yield stroke.style, lines + tuple(_other_half(line, view) for line in lines if view.middle)
    if view.middle == "level":
        yield "axis", (((0, view.height / 2), (view.width, view.height / 2)),)
    elif view.middle == "upright":
        yield "axis", (((view.width / 2, 0), (view.width / 2, view.height)),)


def _other_half(line: Line, view: View) -> Line:
    return mirrored(line, height=view.height) if view.middle == "level" else mirrored(line, width=view.width)


def _panels(
    here: Here, view: View, places: tuple[Placed, ...], id_: str, twin: str
) -> tuple[DrawnPanel, ...]:
    """The panels drawn on a view, and those of its twin that the car has on both sides."""
    found: list[DrawnPanel] = []
    for ref, handed, drawn in places:
        if drawn.view != id_ and not (handed and twin and drawn.view == twin):
            continue
        line = read_line(drawn.outline)
        if drawn.view != id_:
            line = mirrored(line, width=view.width)
        lines = (line, _other_half(line, view)) if handed and view.middle else (line,)
        link = here.link_to(ref)
        found.append(DrawnPanel(link.text, link.href, lines, drawn.hidden))
    return tuple(found)


def in_words(shell: Shell, body: Body) -> tuple[Group, ...]:
    """Say what the drawing shows: each view with its panels; a twin with what it alone has."""
    views = {view.id: view for row in body.rows for view in row}
    groups: list[Group] = []
    for id_, view in shell.views.items():
        shared = _links(views[id_])
        twins = [(name, twin) for name, twin in shell.twins.items() if twin.of == id_]
        both = {link for link in shared if all(link in _links(views[name]) for name, _ in twins)}
        title = " and ".join([view.say, *(twin.say[:1].lower() + twin.say[1:] for _, twin in twins)])
        groups += _group(title, [link for link in shared if link in both])
        groups += _group(f"{view.say} alone", [link for link in shared if link not in both])
        for name, twin in twins:
            groups += _group(f"{twin.say} alone", [link for link in _links(views[name]) if link not in both])
    return tuple(groups)


def _links(view: ShellView) -> tuple[Link, ...]:
    """Of a view what is seen first, then what lies behind."""
    links = dict.fromkeys(Link(one.title, one.href, BEHIND if one.hidden else "") for one in view.panels)
    return tuple(sorted(links, key=lambda link: (bool(link.note), link.text.casefold(), link.href)))


def _group(title: str, links: list[Link]) -> list[Group]:
    return [Group(title, tuple(links))] if links else []
