"""Pictures of the book: by which endings their files are known, and what becomes of each on the published page."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, NamedTuple

from builder.model.html import Html

PICTURE_ENDINGS = {".jpg": "JPEG", ".jpeg": "JPEG", ".png": "PNG", ".webp": "WebP", ".svg": "SVG"}
"""What a picture's file may be, by its ending."""


class WebFile(NamedTuple):
    """One file of a published picture."""

    path: str
    """From the book's root: `assets/pictures/gap-stations-640.jpg`."""
    width: int
    """In pixels, as it is looked at: upright."""
    height: int


class WebPicture(NamedTuple):
    """A picture as it is published, known before any of it is drawn."""

    full: WebFile
    small: WebFile | None
    """For phones; None where the full one is small, or is drawn at any size."""
    digest: bytes
    """SHA-256 of the author's file."""


class Picture(NamedTuple):
    """A figure's picture as a page shows it."""

    src: str
    width: int
    """Of the full picture, so that its place is kept until it is loaded."""
    height: int
    srcset: str
    """The same in several widths; empty where there is one file."""
    alt: str
    """What is seen, for those who cannot see it."""
    title: str
    caption: Html
    by: str
    """Who took or drew it."""
    href: str
    """Where it stands larger: the figure's own page, or there the picture itself."""
    drawn: bool = False
    """Ink on white, which night turns into its negative."""
    first: bool = False
    """What its page is about: loaded at once."""


@dataclass(frozen=True, slots=True)
class Pictures:
    """Pictures with their captions."""

    form: ClassVar[str] = "pictures"
    title: str
    pictures: tuple[Picture, ...]
    anchor: str = ""
