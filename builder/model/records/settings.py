"""What a layer says about the book it makes (`book.yaml`), and what a shop says about itself (`shop.yaml`)."""

from dataclasses import field, replace
from typing import Annotated, Literal

from pydantic import Field, StringConstraints

from builder.model.records.fields import Id, Line, Name, Prose, Stated, record

Units = Literal["metric", "us"]
Address = Annotated[str, StringConstraints(pattern=r"^https?://[^\s/?#]+(?:/[^\s?#]*)?$", max_length=200)]
"""Where the book is put on a server: https://, a host, and a path where it has one."""
Paper = Literal["A4", "Letter"]
Months = Annotated[int, Field(ge=1, le=120)]
Megabytes = Annotated[int, Field(ge=1, le=1_000_000)]
Reviewed = Literal["draft", "checked", "proven", "issued"]
"""The statuses of a procedure that are looked at again."""


@record
class BookSettings:
    """The book's own words; of several layers the last that has them wins, but cautions and licences add up."""

    name: Name
    """The shop, at the head of every page."""
    id: Id
    """Sets this book's kept data apart from another's in the browser, and marks its published folder."""
    title: Name
    lead: Prose | None = None
    """What the first page says below the title."""
    caution: Stated[Line]
    """At the foot of every page, after those of the layers below: a layer adds to them and takes none away."""
    licence: tuple[Line, ...] = ()
    """On what terms these records may be used; told after those of the layers below."""
    authority: Stated[Line]
    """Who outranks whom, highest first."""
    units: Units = "metric"
    """The units a page shows first; a reader may switch."""
    review: dict[Reviewed, Months] = field(default_factory=dict)
    """After how many months a procedure is looked at again, by its status; a shop's own months come before these."""
    paper: Paper = "A4"
    """What pages are printed on; a reader may switch."""
    quiet: tuple[Name, ...] = ()
    """Words that tell nothing of what is asked for, such as how, the and of: the search gives them little weight."""
    kept_whole: Megabytes | None = None
    """Up to so many megabytes a phone keeps the whole book from a server; of a larger one the procedures chosen."""

    def over(self, lower: "BookSettings") -> "BookSettings":
        """Return these words in place of a lower layer's, with its cautions and licences kept before them."""
        return replace(
            self, caution=tuple(dict.fromkeys((*lower.caution, *self.caution))),
            licence=tuple(dict.fromkeys((*lower.licence, *self.licence))), review=self.review or lower.review,
            kept_whole=self.kept_whole or lower.kept_whole,
        )  # fmt: skip


@record
class ShopPerson:
    """Somebody of the shop, and what they may put their name to."""

    name: Name
    does: tuple[Name, ...]
    """Such as writes, approves, releases holds."""


@record
class ShopSettings:
    """A shop's own folder: where its records lie, and what the book says of the shop."""

    format: Literal["1"]
    """The form of this file."""
    name: Name | None = None
    """The shop, at the head of every page; takes the place of the book's name."""
    id: Id | None = None
    """Sets this book's kept data apart from another's in the browser. Choose it once: ticks and jobs hang on it."""
    title: Name | None = None
    """The title of the book, on its first page."""
    layers: tuple[Name, ...]
    """Folders of records from this one, or `supplied`; later ones win, record by record."""
    base_address: Address | None = None
    """Where the published book is to be had, if it is on a server: printed sheets and labels carry a code that leads
    there."""
    units: Units | None = None
    """The units a page shows first; a reader may switch."""
    paper: Paper | None = None
    """What pages are printed on; a reader may switch."""
    cautions: tuple[Line, ...] = ()
    """Said at the foot of every page, after the book's own."""
    people: tuple[ShopPerson, ...] = ()
    """Who writes, approves and releases; a shop of one names one."""
    kept_whole: Megabytes | None = None
    """Up to so many megabytes a phone keeps the whole book from a server; of a larger one the procedures chosen."""
    review: dict[Reviewed, Months] = field(default_factory=dict)
    """After how many months a procedure is looked at again, by its status."""

    def over(self, book: BookSettings) -> BookSettings:
        """Return the book's own words with the shop's in their place."""
        return replace(
            book, name=self.name or book.name, id=self.id or book.id, title=self.title or book.title,
            units=self.units or book.units, paper=self.paper or book.paper,
            caution=tuple(dict.fromkeys((*book.caution, *self.cautions))),
            review={**book.review, **self.review}, kept_whole=self.kept_whole or book.kept_whole,
        )  # fmt: skip
