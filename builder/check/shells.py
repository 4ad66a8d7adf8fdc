"""Shells and where their panels are drawn -> every fault of the drawing: strange views, lines too short or off it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.check import codes
from builder.formula import Fault
from builder.model.near import listed, offer
from builder.model.outline import first_outside, read_line
from builder.model.records import Record
from builder.model.records.shell import Drawn, Shell, View
from builder.model.reference import Ref
from builder.model.summary import Path, Summary

_FEWEST = {"outline": 3, "runs": 2}
"""Points that make an area, and points that make a line."""


def drawing_faults(
    shelf: Mapping[Ref, Record], summaries: Mapping[Ref, Summary], broken: frozenset[Ref]
) -> Iterator[tuple[Ref, Fault]]:
    """Check every shell, then where every panel is drawn on one.

    While a shell's record is broken nobody can tell which views it has, and no panel is told that one is strange.
    """
    views: dict[str, View] = {}
    owners: dict[str, Ref] = {}
    for ref in sorted(shelf):
        record = shelf[ref]
        if isinstance(record, Shell):
            for fault in _shell_faults(ref, record, owners):
                yield ref, fault
            views.update(record.views)
            views.update({id_: record.views[twin.of] for id_, twin in record.twins.items() if twin.of in record.views})
    all_known = not any(ref.kind == "shell" for ref in broken)
    for ref in sorted(ref for ref, summary in summaries.items() if summary.drawn):
        for at, drawn in enumerate(summaries[ref].drawn):
            for fault in _panel_faults(drawn, views, all_known):
                yield ref, fault.under(("drawn", at))


def _shell_faults(ref: Ref, shell: Shell, owners: dict[str, Ref]) -> Iterator[Fault]:
    for id_ in (*shell.views, *shell.twins):
        owner = owners.setdefault(id_, ref)
        if owner != ref or (id_ in shell.views and id_ in shell.twins):
            where = "this shell" if owner == ref else owner
            key: Path = ("twins" if id_ in shell.twins else "views", id_, "say")
            yield Fault(
                codes.VIEW_NAME_TAKEN, f'{where} has a view called "{id_}" already',
                "give this one a name of its own, since panels say by it where they are drawn", path=key,
            )  # fmt: skip
    for id_, twin in shell.twins.items():
        if twin.of not in shell.views:
            yield _unknown_view(twin.of, shell.views, ("twins", id_, "of"))
    for id_, view in shell.views.items():
        for at, stroke in enumerate(view.strokes):
            for run_at, run in enumerate(stroke.runs):
                yield from _line_faults(run, "runs", view, ("views", id_, "strokes", at, "runs", run_at))


def _panel_faults(drawn: Drawn, views: Mapping[str, View], all_known: bool) -> Iterator[Fault]:
    view = views.get(drawn.view)
    if view is not None:
        yield from _line_faults(drawn.outline, "outline", view, ("outline",))
    elif all_known:
        yield _unknown_view(drawn.view, views, ("view",))


def _unknown_view(name: str, views: Mapping[str, View], path: Path) -> Fault:
    known = f"use one of: {listed(views)}" if views else "draw the view in a shell's record first"
    return Fault(codes.UNKNOWN_VIEW, f'no shell has a view called "{name}"', offer(name, views, known), path=path)


def _line_faults(text: str, sort: str, view: View, path: Path) -> Iterator[Fault]:
    line = read_line(text)
    if len(line) < _FEWEST[sort]:
        yield Fault(codes.LINE_TOO_SHORT, f"this line has {len(line)} of the {_FEWEST[sort]} points it needs",
                    "write the others, each behind a semicolon", path=path)  # fmt: skip
    outside = first_outside(line, view.width, view.height)
    if outside is not None:
        yield Fault(
            codes.OFF_ITS_VIEW, f'it leaves the view "{view.say}" at {outside[0]:g} {outside[1]:g}',
            f"keep every point, and the curves between them, from 0 0 to {view.width:g} {view.height:g}", path=path,
        )  # fmt: skip
