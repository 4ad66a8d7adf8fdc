"""The smallest parts of pages: a link, a labelled value, and what a calculator has to say."""

from __future__ import annotations

from typing import NamedTuple

from builder.model.html import NO_HTML, Html


class Link(NamedTuple):
    """A link to a page or a place on one."""

    text: str
    href: str
    note: str = ""


class Row(NamedTuple):
    """A label with its value."""

    label: str
    value: Html
    note: str = ""


class Caution(NamedTuple):
    """What a calculator or a method's limit has to say about these values."""

    level: str
    """stop, care or note."""
    say: Html
    unjudged: bool = False
    """True where it has no answer to judge by, which the page says."""
    because: Html = NO_HTML
