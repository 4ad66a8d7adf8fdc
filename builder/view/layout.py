"""A seam and its plan -> the layout of the whole seam by each method that no limit stops everywhere."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from builder.model.laid import Laid, LaidSegment, WeldLayout
from builder.model.records.body import Seam, Segment
from builder.model.records.law import Method
from builder.model.reference import Ref
from builder.model.said import Said, joined, said
from builder.model.views import Block, Html
from builder.model.work import MethodPlan, SeamPlan, WeldRow
from builder.view.here import Here
from builder.view.lengths import length_data, said_length
from builder.view.shared import shared
from builder.view.units import millimetres

HEAD = ("Segment", "Length", "Welds", "Factory", "First from the front end", "Apart", "Last from the rear end",
        "Turns, from the front")  # fmt: skip
FOLDER = "strips"
STOPPED, NOT_PLANNED = "stopped by a limit", "not planned"
"""Why a segment has no welds; the script is given both."""
SCRIPTS = shared("numbers", "drawn", "layout", "layout_page")


def layouts(here: Here, ref: Ref, seam: Seam, plan: SeamPlan) -> Iterator[Block]:
    """Make a layout for each method that makes single welds on some segment at least, best first."""
    for method in laid_methods(here, seam, plan):
        yield _laid(here, ref, seam, plan, method)


def strip_path(seam: str, method: str) -> str:
    """Return the path of the page with a seam's marking strip; ids hold no underscore."""
    return f"{FOLDER}/{seam}_{method}.html"


def laid_methods(here: Here, seam: Seam, plan: SeamPlan) -> list[str]:
    """Return the methods that a layout can be made for, in the order of the seam."""
    return [
        id_ for id_ in seam.methods
        if isinstance(here.book.shelf.get(Ref("method", id_)), Method)
        and any(segment.row is not None for segment in laid_segments(here, seam, plan, id_))
    ]  # fmt: skip


def laid_segments(here: Here, seam: Seam, plan: SeamPlan, method: str) -> tuple[LaidSegment, ...]:
    """Return the segments of a seam with the welds that one method makes on each."""
    found = []
    for at, (segment, worked) in enumerate(zip(seam.segments, plan, strict=True), 1):
        one = next((one for one in worked.methods if one.method == method), None)
        found.append(_segment(here, called(seam, segment, at), segment, one))
    return tuple(found)


def called(seam: Seam, segment: Segment, at: int) -> str:
    """Return what a reader calls a segment, counted from 1."""
    return segment.called(at, len(seam.segments)) or "the whole seam"


def _segment(here: Here, name: str, segment: Segment, plan: MethodPlan | None) -> LaidSegment:
    units = here.book.units
    row = plan.row if plan is not None and not is_stopped(plan) else None
    length = millimetres(segment.length) or 0.0
    why = "" if row else STOPPED if plan is not None and is_stopped(plan) else NOT_PLANNED
    told = (said_length(units, row.first), said_length(units, row.spacing)) if row else ()
    return LaidSegment(name, length, said_length(units, length), segment.factory_count, row, why, *told)


def is_stopped(plan: MethodPlan) -> bool:
    """Whether a limit, or a calculator of the plan, stops the method on this segment, or might."""
    remarks = (*plan.remarks, *(remark for worked in plan.worked for remark in worked.remarks))
    return any(remark.level == "stop" for remark in remarks)


def _laid(here: Here, ref: Ref, seam: Seam, plan: SeamPlan, method: str) -> Laid:
    record = here.book.shelf[Ref("method", method)]
    assert isinstance(record, Method)
    segments = laid_segments(here, seam, plan, method)
    layout = WeldLayout(f"layout-{method}", record.draws, segments)
    return Laid(
        f"Weld layout: {record.title}", record.title, layout, in_words(record.title, segments), HEAD,
        tuple(_row(here, segment) for segment in segments), f"layout-{method}_figure",
        json.dumps(layout_data(here, method, layout), ensure_ascii=False, separators=(",", ":")),
        ("Marking strip, to print at full size", here.root + strip_path(ref.id, method)),
    )  # fmt: skip


def in_words(method: str, segments: tuple[LaidSegment, ...]) -> Said:
    """Say a layout in a sentence or two."""
    return said(f"{method}, from the front. ", joined("; ", [_words(segment) for segment in segments]), ".")


def _words(segment: LaidSegment) -> Said:
    row = segment.row
    parts: list[str | Said] = [said(f"{segment.label}: ", segment.length_said)]
    if row is None:
        parts.append(segment.why)
    else:
        parts.append(f"{row.count} {'weld' if row.count == 1 else 'welds'}")
        parts.append(said("the first at ", segment.first_said))
        parts += [said(segment.spacing_said, " apart")] if row.count > 1 else []
    if segment.factory is not None:
        parts.append(f"the factory had {segment.factory}")
    return joined(", ", parts)


def rear_end(row: WeldRow) -> float:
    """From the last weld to the segment's rear end, in mm."""
    return row.length - row.first - row.spacing * max(0, row.count - 1)


def _row(here: Here, segment: LaidSegment) -> tuple[Html, ...]:
    factory = here.text(str(segment.factory) if segment.factory is not None else "")
    row = segment.row
    length = here.both(segment.length_said)
    if row is None:
        return here.text(segment.label), length, here.text(segment.why), factory, *[here.text("")] * 4
    last = here.both(said_length(here.book.units, rear_end(row)))
    order = ", ".join(map(str, row.order))
    spacing = here.both(segment.spacing_said) if row.count > 1 else here.text("")
    return (
        here.text(segment.label), length, here.text(str(row.count)), factory, here.both(segment.first_said), spacing,
        last, here.text(order),
    )  # fmt: skip


def layout_data(here: Here, method: str, layout: WeldLayout) -> dict[str, Any]:
    """Return what a script needs to draw a layout anew."""
    return {"method": method, "id": layout.id, "form": layout.form, **laid_data(here, layout.segments)}


def laid_data(here: Here, segments: tuple[LaidSegment, ...]) -> dict[str, Any]:
    """Return segments as a script holds them, and how it says lengths."""
    return {
        "lengths": length_data(here.book.units), "stopped": STOPPED, "notPlanned": NOT_PLANNED,
        "segments": [
            {"label": one.label, "length": one.length, "factory": one.factory, "why": one.why,
             "row": row_data(one.row)}
            for one in segments
        ],
    }  # fmt: skip


def row_data(row: WeldRow | None) -> dict[str, Any] | None:
    """Return a row of welds as a script holds it."""
    if row is None:
        return None
    return {"length": row.length, "count": row.count, "first": row.first, "spacing": row.spacing,
            "order": list(row.order)}  # fmt: skip
