"""A figure: a photo or a drawing of the book, told in words for those who cannot see it."""

from typing import Literal

from builder.model.records.fields import Id, Line, Name, Plain, SourceId, Stated, record


@record
class Figure:
    """A photo or a drawing; its picture file lies beside the record."""

    title: Name
    was: tuple[Id, ...] = ()
    sort: Literal["photo", "drawing"]
    alt: Plain
    """What is seen, said plainly, for a reader who cannot see it; the caption need not say it again."""
    file: Name | None = None
    """Its picture file beside the record, with its ending; left out where the file is named as the record is."""
    caption: Line | None = None
    """What to look at, and what it means for the work."""
    by: Name
    """Who took or drew it."""
    sources: Stated[SourceId]
