"""The catalogue -> the page where labels are printed, and what its script is given of panels, tools and supplies."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from builder.model.label_views import LabelDesk
from builder.model.records import KIND
from builder.model.reference import Ref
from builder.model.views import Html, Page
from builder.view.here import Book, Here
from builder.view.lists import LABELS, plain_page
from builder.view.shared import shared

TITLE = "Labels, to print"
LEAD = """\
For panels on the rack, for tools and for supplies: with the name, the code that leads to the page, and the job they
belong to. On any sheet of labels, or on plain paper to be cut."""
LABELLED = ("panel", "tool", "supply")
DATA = "assets/labels.js"
SIDES = ("left", "right")
SCRIPTS = (DATA, *shared("job_dom", "qr", "labels"))


def labels_page(book: Book) -> Page:
    """Make the page."""
    here = Here(book, LABELS)
    desk = LabelDesk("Labels", bool(book.site.base))
    lead = Html(f"<p>{here.text(LEAD)}</p>")
    page = plain_page(here, Ref("page", "labels"), TITLE, lead, (desk,), is_found=True)
    return replace(page, scripts=SCRIPTS)


def labels_data(book: Book) -> dict[str, Any]:
    """Return what may be labelled, by kind and title; a handed panel once for each side."""
    return {"kinds": [{"title": KIND[kind].plural, "items": _items(book, kind)} for kind in LABELLED]}


def _items(book: Book, kind: str) -> list[dict[str, str]]:
    refs = [ref for ref in book.catalogue.summaries if ref.kind == kind]
    titles = {ref: book.catalogue.title(ref) for ref in refs}
    return [
        {"id": ref.id, "title": titles[ref], "path": book.links.path(ref), **({"side": side} if side else {})}
        for ref in sorted(refs, key=lambda ref: (titles[ref].casefold(), ref.id))
        for side in (SIDES if ref in book.catalogue.handed else ("",))
    ]
