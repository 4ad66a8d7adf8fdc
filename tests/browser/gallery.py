"""Sections of every sort, made up, and a page that shows drawings with the book's own style sheets."""

from __future__ import annotations

import itertools
import shutil
from collections.abc import Iterable, Iterator
from html import escape
from pathlib import Path
from typing import Any, Literal, NamedTuple

from builder.formula.pairs import Pair
from builder.formula.units import unit
from builder.model.drawings import DrawnSheet, DrawnWeld, Section
from builder.model.laid import LaidSegment, WeldLayout
from builder.model.said import Said
from builder.model.strip import Strip
from builder.model.work import WeldRow
from builder.supplied import templates
from builder.view.layout import row_data
from builder.view.lengths import length_data, said_length
from builder.view.quantities import Units
from tests.render.samples import said

SHORT = ("Rocker, outer", "Sill, inner", "Floor", "Post")
LONG = ("Wheel housing outer reinforcement, rear upper corner", "Quarter panel lower extension behind the wheel",
        "Trunk gutter reinforcement with the striker's backing plate", "Rear crossmember closing plate")  # fmt: skip
THICK: dict[str, tuple[float | None, ...]] = {
    "thin": (0.6, 0.7, 0.6, 0.65), "thick": (2.5, 3.0, 2.8, 3.0), "mixed": (0.7, 2.5, 1.2, 0.8),
    "unknown": (0.8, None, None, 1.2),
}  # fmt: skip
NOTES: dict[tuple[str, ...], str] = {SHORT: "mild, bare", LONG: "ultra-high-strength, hot-dip galvannealed"}
Form = Literal["spot", "plug", "seam", "bond"]
WELDS: dict[Form, tuple[Said, float | None]] = {
    "spot": (Said("Resistance spot, least nugget 4.0\u00a0mm", "Resistance spot, least nugget 0.157\u00a0in"), 4.0),
    "plug": (Said("MAG plug, hole 8.0\u00a0mm", "MAG plug, hole 0.315 in"), 8.0),
    "seam": (Said("MAG seam, leg 0.8 mm", "MAG seam, leg 0.031 in"), 0.8),
    "bond": (Said("Structural adhesive, bond line"), None),
}
MILLIMETRE, INCH = unit("mm"), unit("inch")
assert MILLIMETRE is not None
assert INCH is not None
UNITS = Units({"mm": Pair(MILLIMETRE, INCH, "us")})
FLANGES = (11.0, 16.0, 28.0)


class Shown(NamedTuple):
    """One drawing on the page."""

    name: str
    svg: str


def sections() -> Iterator[tuple[str, Section]]:
    """Two, three and four sheets, each way of joining, sealed or not, thick and thin, names short and long."""
    for count, form, thick, names in itertools.product((2, 3, 4), WELDS, THICK, (SHORT, LONG)):
        for sealed, film in ((True, True), (False, False)) if names == SHORT else ((True, True),):
            flange = FLANGES[(count + len(thick)) % len(FLANGES)]
            yield f"{count} {form} {thick} {'sealed' if sealed else 'bare'} {names[0]}", _section(
                count, form, THICK[thick], names, flange, sealed=sealed, film=film
            )


def _section(
    count: int, form: Form, thick: tuple[float | None, ...], names: tuple[str, ...], flange: float, *, sealed: bool,
    film: bool,
) -> Section:  # fmt: skip
    sheets = tuple(
        DrawnSheet(name, thickness, said(thickness) if thickness is not None else Said("? mm", "? in"), NOTES[names])
        for name, thickness in zip(names[:count], thick, strict=False)
    )
    label, width = WELDS[form]
    return Section(
        id=f"cut-{count}-{form}-{flange:g}-{abs(hash((thick, names, sealed))) % 10**9}",
        flange=flange, flange_said=said(flange), sheets=sheets,
        weld=DrawnWeld(form, label, width, has_stepped_holes=count > 2),
        film="Weld-through primer" if film else "",
        seal=Said("sealer, half-round 6\u00a0mm", "sealer, half-round 0.24\u00a0in") if sealed else Said(""),
        seal_profile="half-round" if sealed else "", seal_size=6.0 if sealed else 0.0,
        thickness_scale=5.0, width_scale=2.0, is_staggered=count > 3 and form != "plug",
    )  # fmt: skip


SHEETS = ("tokens", "sheet", "parts", "steps", "points", "drawing", "calculation", "plots", "layout", "strip")


def page(folder: Path, drawings: Iterable[Shown]) -> Path:
    """Put a page of drawings down beside the style sheets; a seam's page gives them as much room."""
    shutil.copytree(templates() / "assets", folder / "assets", dirs_exist_ok=True)
    links = [f'<link rel="stylesheet" href="assets/css/{name}.css">' for name in SHEETS]
    links.append('<link rel="stylesheet" href="assets/css/print.css" media="print">')
    blocks = [
        f'<section class="block drawn"><p class="note">{escape(name)}</p><figure data-name="{escape(name)}">{svg}'
        "</figure></section>" for name, svg in drawings
    ]  # fmt: skip
    file = folder / "gallery.html"
    head = '<!DOCTYPE html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width">'
    body = f'<main class="sheet">{"".join(blocks)}</main>'
    file.write_text(f'{head}<title>Gallery</title>{"".join(links)}{body}', "utf-8")
    return file


def halving(count: int) -> tuple[int, ...]:
    """An order of welding: the ends, the middle, then the middle of every stretch left."""
    turns = {0: 1, count - 1: 2} if count > 1 else {0: 1}
    stretches = [(0, count - 1)]
    while stretches:
        stretches, found = [], stretches
        for low, high in found:
            if high - low > 1:
                middle = (low + high) // 2
                turns[middle] = len(turns) + 1
                stretches += [(low, middle), (middle, high)]
    return tuple(turns[at] for at in range(count))


def row(length: float, count: int, first: float = 10.0, *, ordered: bool = True) -> WeldRow:
    """Welds evenly spread between two ends."""
    spacing = (length - 2 * first) / (count - 1) if count > 1 else 0.0
    return WeldRow(length, count, first if count > 1 else length / 2, spacing, halving(count) if ordered else ())


def laid_segment(
    label: str, length: float, count: int | None, factory: int | None = None, *, ordered: bool = True
) -> LaidSegment:
    """A segment with so many welds, or with none planned."""
    if count is None:
        return LaidSegment(label, length, said_length(UNITS, length), factory, None, "stopped by a limit")
    welds = row(length, count, ordered=ordered)
    told = (said_length(UNITS, welds.first), said_length(UNITS, welds.spacing))
    return LaidSegment(label, length, said_length(UNITS, length), factory, welds, "", *told)


SEAMS: dict[str, tuple[LaidSegment, ...]] = {
    "one short": (laid_segment("the whole seam", 150, 5, 5),),
    "one weld": (laid_segment("the whole seam", 24, 1, 1),),
    "two": (laid_segment("Front and middle", 1060, 37, 28), laid_segment("Jack point", 360, 13, 10)),
    "two without order": (laid_segment("Front and middle", 1060, 37, 28, ordered=False),
                          laid_segment("Jack point", 360, 13, 10, ordered=False)),
    "three": (laid_segment("Front end", 130, 5), laid_segment("Long edge", 420, 15), laid_segment("Rear end", 130, 5)),
    "three, one stopped": (laid_segment("Front of the arch", 280, 10, 7), laid_segment("Over the wheel", 620, None, 15),
                           laid_segment("Rear of the arch", 300, 11, 8)),
    "tiny ones": (laid_segment("Foot", 30, 2, 2), laid_segment("Corner of the pillar's foot", 24, 2, 1),
                  laid_segment("Up the pillar", 36, 2, 3), laid_segment("Along the sill behind it", 900, 30, 25)),
    "long": (laid_segment("Drip channel from the windscreen to the rear window", 2450, 95, 80),
             laid_segment("Behind", 140, 6, 5)),
    "endless": (laid_segment("All of it", 12000, 600, 500),),
    "dense": (laid_segment("All of it", 900, 180, 120), laid_segment("The rest", 200, 8, 6)),
}  # fmt: skip
"""Seams of every sort."""


def layouts() -> Iterator[tuple[str, WeldLayout]]:
    """A layout of each seam, spots and plugs by turns."""
    for at, (name, segments) in enumerate(SEAMS.items()):
        yield name, WeldLayout(f"laid-{at}", ("spot", "plug", "seam")[at % 3], segments)


def layout_data(layout: WeldLayout) -> dict[str, Any]:
    """The same as a script is given it."""
    segments = [one._asdict() | {"row": row_data(one.row)} for one in layout.segments]
    return {"method": "made-up", "id": layout.id, "form": layout.form, "lengths": length_data(UNITS),
            "segments": segments}  # fmt: skip


def strips() -> Iterator[tuple[str, Strip]]:
    """A strip of each seam."""
    for at, (name, segments) in enumerate(SEAMS.items()):
        places = tuple(
            tuple(said_length(UNITS, place, is_bare=True) for place in one.weld_places) for one in segments
        )
        yield name, Strip(
            f"strip-{at}", f"A seam of {name}, along the wheel housing and the floor", "Resistance spot",
            "Wexmarrow Body Works", "The book of seams, fingerprint 0123456789abcdef", UNITS.name("mm"), at % 2 == 0,
            segments, places,
        )  # fmt: skip


def strip_data(strip: Strip) -> dict[str, Any]:
    """The same as a script is given it."""
    return layout_data(WeldLayout(strip.id, "spot", strip.segments)) | {
        "seam": strip.seam, "methodTitle": strip.method, "shop": strip.shop, "edition": strip.edition,
        "isHanded": strip.is_handed,
    }  # fmt: skip
