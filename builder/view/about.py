"""The book's own words -> the page about it: who outranks whom, what to take care of, how to tell two books apart."""

from __future__ import annotations

from builder.model.records.settings import BookSettings
from builder.model.reference import Ref
from builder.model.views import Block, Facts, Html, Items, Link, Links, Page, Row
from builder.view.here import Book, Here
from builder.view.lists import ABOUT, AZ, CHANGES, CODES, DUE, LISTS, plain_page
from builder.view.status import STATUS

KEPT = (
    "Ticks on a procedure, whether the sheet is white or black, and which units are shown. They stay in this browser, "
    "under this book's name, and go nowhere.",
    "Ticks help to keep the place. They are not the record of the job.",
    "Who learns, what they answered and which skills they were given, by their names, apart from all jobs. Whoever has "
    "the device can read it; it goes to another only in a file that somebody saves.",
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
        *_people(here),
        *_reviews(here),
        *((Items("On what terms", here.lines(settings.licence), anchor="licence"),) if settings.licence else ()),
        Facts("This book", facts, "this_book"),
        Items("What stays on this device", here.lines(KEPT), anchor="kept"),
        Links("More", (
            Link("Everything from A to Z", AZ), Link("Everything by kind", LISTS), Link("What a problem means", CODES),
        ), anchor="more"),
    )  # fmt: skip
    return plain_page(here, Ref("page", "about"), "About this book", Html(""), blocks, is_found=True)


def _people(here: Here) -> tuple[Block, ...]:
    """Who writes, approves and releases, as far as the shop says so."""
    people = here.book.shop.people if here.book.shop else ()
    rows = tuple(here.row(person.name, ", ".join(person.does)) for person in people)
    return (Facts("Who puts their name to it", rows, "people"),) if rows else ()


def _reviews(here: Here) -> tuple[Block, ...]:
    """After how long a procedure is looked at again."""
    review = here.book.review
    rows = tuple(here.row(STATUS[status], _months(review[status])) for status in STATUS if status in review)
    ways = (Link("Due for review", DUE), Link("What changed", CHANGES))
    again = (Facts("When a procedure is looked at again", rows, "reviews"),) if rows else ()
    return (*again, Links("Under control", ways, anchor="control"))


def _months(count: int) -> str:
    return f"{count} month{'s' * (count != 1)} after its revision"
