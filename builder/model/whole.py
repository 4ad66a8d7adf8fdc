"""The whole book to print, or a part of it: what one document of many records says, complete before a template runs."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from builder.model.views import Groups, Links, Page


@dataclass(frozen=True, slots=True)
class Whole:
    """One document of many records."""

    path: str
    """From the book's root."""
    title: str
    contents: Groups
    others: Links
    """The other documents, where the book needs several; else no links."""
    pages: Iterable[Page]
    """Made one by one. Links in them lead to ids of the whole book; each page's path is the id of its section."""
