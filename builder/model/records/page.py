"""The kind a page is: prose in a Markdown file, below a small head of YAML."""

from typing import Annotated

from pydantic import AfterValidator

from builder.model.records.bounds import bounded_page
from builder.model.records.fields import BelowHead, Id, LineOfText, Name, SourceId, record

TEXT = "text"
"""The key under which a reader of files hands on what stands below the head."""


@record
class Page:
    """Prose: how to use the book, or a piece of knowledge that is no procedure."""

    title: Name
    was: tuple[Id, ...] = ()
    sources: tuple[SourceId, ...] = ()
    """Where what it says comes from."""
    text: Annotated[tuple[LineOfText, ...], AfterValidator(bounded_page), BelowHead()]
    """What stands below the head, in Markdown: no key to be written. Links lead to its headings by their words."""
