"""A draft of a book, its paths and its catalogue -> the files that let a phone keep it, in two turns.

The first turn is of files that are hashed with all others; the second is the hashes themselves, and the worker that
carries the hash of them all: the book's edition.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from builder.delivery.contents import CONTENTS, Taken, contents_of
from builder.delivery.groups import Groups
from builder.delivery.icons import icons
from builder.delivery.listing import LIST, edition_of, listed, read_listing
from builder.delivery.manifest import MANIFEST, manifest_of
from builder.delivery.stretches import Ranked
from builder.delivery.worker import WORKER, worker_of
from builder.model.files import Piece
from builder.model.views import Site


@dataclass(frozen=True, slots=True)
class Kept:
    """A book as far as keeping it on a phone asks for it."""

    site: Site
    fingerprint: str
    """Of the records it was made from."""
    most: int | None
    """Megabytes up to which the whole book is kept; None sets no limit."""
    groups: Groups
    ranked: Ranked
    """The files of records."""
    taken: Sequence[Taken]
    """What each procedure takes of them."""
    pieces: Mapping[str, Piece] = field(default_factory=dict)
    """Of files that were hashed when they were made: their hashes."""


def early(site: Site, templates: Path) -> dict[str, bytes]:
    """Return the manifest and the icons."""
    return {MANIFEST: manifest_of(site), **icons(mark_in(templates))}


def mark_in(templates: Path) -> str:
    """Return the drawing that the icons are made from."""
    return (templates / "assets" / "icon.svg").read_text("utf-8")


def delivered(
    kept: Kept, paths: Iterable[str], where: Callable[[str], Path], templates: Path
) -> dict[str, bytes]:
    """Return the groups, the list of hashes and the worker, for the files at these paths; `where` says where one lies.
    """
    listing = read_listing(where, paths, kept.pieces)
    named = sorted([*listing, CONTENTS])
    sizes = {path: piece.size for path, piece in listing.items()}
    contents = contents_of(
        kept.site, kept.fingerprint, kept.most, named, sizes, kept.groups.core, kept.ranked, kept.taken
    )
    text = listed(listing, {CONTENTS: contents})
    worker = worker_of(templates, kept.site.book_id, edition_of(text))
    return {CONTENTS: contents, LIST: text, WORKER: worker}
