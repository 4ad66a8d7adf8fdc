"""The book's own words -> the page about it: who outranks whom, what to take care of, how to tell two books apart."""

from __future__ import annotations

from builder.model.records.settings import BookSettings
from builder.model.reference import Ref
from builder.model.views import Block, Facts, Html, Items, Link, Links, Page, Row
from builder.view.here import Book, Here
from builder.view.lists import ABOUT, AZ, CODES, LISTS, plain_page

KEPT = (
    "Ticks on a procedure, whether the sheet is white or black, and which units are shown. They stay in this browser, "
    "under this book's name, and go nowhere.",
    "Ticks help to keep the place. They are not the record of the job.",
)


def about_page(book: Book, settings: BookSettings, fingerprint: str) -> Page:
    """Make the page. `fingerprint` is the same for two books that were made from the same records."""
    here = Here(book, ABOUT)
    parted = " ".join(fingerprint[at:at + 8] for at in range(0, len(fingerprint), 8))
    facts = (
        Row("Shop", here.text(book.site.name)), Row("Book", here.text(book.site.title)),
        Row("Records", Html(str(len(book.catalogue.summaries)))),
        Row("Fingerprint", Html(parted), "Two books with the same one were made from the same records."),
    )  # fmt: skip
    blocks: tuple[Block, ...] = (
        Items("Take care", here.lines(book.site.cautions), "Nothing is said.", "cautions"),
        Items("Who comes first", tuple(here.line(f"{at}. {one}") for at, one in enumerate(settings.authority, 1)),
              "Nothing is said.", "authority"),
        Facts("This book", facts, "this_book"),
        Items("What stays on this device", here.lines(KEPT), anchor="kept"),
        Links("More", (
            Link("Everything from A to Z", AZ), Link("Everything by kind", LISTS), Link("What a problem means", CODES),
        ), anchor="more"),
    )  # fmt: skip
    return plain_page(here, Ref("page", "about"), "About this book", Html(""), blocks, is_found=True)
