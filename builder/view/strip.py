"""A seam and its plan -> a page for each method with the marking strip of the whole seam, to print at full size."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from builder.model.records.body import Seam
from builder.model.reference import Ref
from builder.model.strip import Sheets, Strip
from builder.model.views import Block, Html, Link, Links, Page
from builder.model.work import SeamPlan
from builder.view.calculator import FINGERPRINT
from builder.view.here import Book, Here
from builder.view.layout import laid_data, laid_methods, laid_segments, strip_path
from builder.view.lengths import said_length
from builder.view.lists import plain_page
from builder.view.shared import shared

SCRIPTS = shared("numbers", "drawn", "strip", "strip_page")


def strip_pages(book: Book, ref: Ref, seam: Seam, plan: SeamPlan) -> Iterator[Page]:
    """Make a page for each method that a layout can be made for."""
    methods = laid_methods(Here(book, book.links.path(ref)), seam, plan)
    for method in methods:
        yield _page(Here(book, strip_path(ref.id, method)), ref, seam, plan, method, methods)


def strips_of(book: Book, ref: Ref, seam: Seam, plan: SeamPlan) -> dict[str, dict[str, Any]]:
    """Return what a script needs to draw the strips of a seam, by method; a job prints them with its other sheets."""
    found = {}
    for method in laid_methods(Here(book, book.links.path(ref)), seam, plan):
        here = Here(book, strip_path(ref.id, method))
        data = strip_data(here, method, _strip(here, ref, seam, plan, method))
        found[method] = data | {"id": f"strip-{ref.id}-{method}", "path": here.path}
    return found


def _page(here: Here, ref: Ref, seam: Seam, plan: SeamPlan, method: str, methods: list[str]) -> Page:
    title = here.book.catalogue.title(Ref("method", method))
    back = here.link_to(ref)
    strip = _strip(here, ref, seam, plan, method)
    data = json.dumps(strip_data(here, method, strip), ensure_ascii=False, separators=(",", ":"))
    others = tuple(
        Link(here.book.catalogue.title(Ref("method", other)), here.root + strip_path(ref.id, other))
        for other in methods if other != method
    )  # fmt: skip
    sheets = Sheets("The sheets", strip, data, back.href, here.address)
    blocks: tuple[Block, ...] = (sheets, Links("The seam", (back,), anchor="seam"))
    if others:
        blocks += (Links("Strips for the other methods", others, anchor="others"),)
    name = Ref("page", here.path.removesuffix(".html").replace("/", "-"))
    page = plain_page(here, name, f"Marking strip: {seam.title}, {title}", Html(""), blocks)
    return replace(page, scripts=SCRIPTS)


def _strip(here: Here, ref: Ref, seam: Seam, plan: SeamPlan, method: str) -> Strip:
    units = here.book.units
    segments = laid_segments(here, seam, plan, method)
    places = tuple(
        tuple(said_length(units, place, is_bare=True) for place in segment.weld_places) for segment in segments
    )
    strip = Strip(
        id="strip", seam=seam.title, method=here.book.catalogue.title(Ref("method", method)), shop=here.book.site.name,
        edition="", unit=units.name("mm"), is_handed=ref in here.book.catalogue.handed, segments=segments,
        places=places,
    )  # fmt: skip
    return replace(strip, edition=f"{here.book.site.title}, fingerprint of this strip {_fingerprint(strip)}")


def _fingerprint(strip: Strip) -> str:
    """Return what is the same for two strips with the same marks: that of the whole book changes with every record."""
    return hashlib.sha256(repr(strip).encode()).hexdigest()[:FINGERPRINT]


def strip_data(here: Here, method: str, strip: Strip) -> dict[str, Any]:
    """Return what a script needs to draw the sheets anew."""
    return {
        "method": method, "id": strip.id, "seam": strip.seam, "methodTitle": strip.method, "shop": strip.shop,
        "edition": strip.edition, "isHanded": strip.is_handed, **laid_data(here, strip.segments),
    }  # fmt: skip
