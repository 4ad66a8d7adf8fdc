"""What a layer says about the book it makes (`book.yaml`), and what a shop says about its layers (`shop.yaml`)."""

from __future__ import annotations

from typing import Literal

from builder.model.records.fields import Id, Line, Name, Prose, Stated, record


@record
class BookSettings:
    """The book's own words; of several layers the last that has them wins."""

    name: Name
    """The shop, at the head of every page."""
    id: Id
    """Sets this book's kept data apart from another's in the browser, and marks its published folder."""
    title: Name
    lead: Prose | None = None
    """What the first page says below the title."""
    caution: Stated[Line]
    """At the foot of every page."""
    authority: Stated[Line]
    """Who outranks whom, highest first."""


@record
class ShopSettings:
    """A shop's own folder."""

    format: Literal["1"]
    name: Name | None = None
    """Takes the place of the book's name."""
    layers: tuple[Name, ...]
    """Folders from this one, or `supplied`; later ones win."""
