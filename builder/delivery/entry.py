"""A draft of a book, its paths and its catalogue -> the files that let a phone keep it, in two turns.

The first turn is of files that are hashed with all others; the second is the hashes themselves, and the worker that
carries the hash of them all: the book's edition.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from builder.delivery.contents import CONTENTS, contents_of
from builder.delivery.groups import grouped
from builder.delivery.icons import icons
from builder.delivery.listing import LIST, edition_of, listed, read_listing
from builder.delivery.manifest import MANIFEST, manifest_of
from builder.delivery.worker import WORKER, worker_of
from builder.model.files import Piece
from builder.model.links import Catalogue
from builder.model.reference import Ref
from builder.model.views import Site


@dataclass(frozen=True, slots=True)
class Kept:
    """A book as far as keeping it on a phone asks for it."""

    site: Site
    fingerprint: str
    """Of the records it was made from."""
    most: int | None
    """Megabytes up to which the whole book is kept; None sets no limit."""
    catalogue: Catalogue
    files_of: Mapping[Ref, tuple[str, ...]]
    """The page of each record first, then what was put down beside it."""
    ways_of: Mapping[Ref, frozenset[str]]
    """The pages that each procedure's own leads to."""
    pieces: Mapping[str, Piece] = field(default_factory=dict)
    """Of files that were hashed when they were made: their hashes."""
    apart: frozenset[str] = frozenset()
    """What is kept only with the whole book, such as the documents that print it."""


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
    groups = grouped(kept.catalogue, kept.files_of, kept.ways_of, kept.apart, listing)
    contents = contents_of(kept.site, kept.fingerprint, kept.most, named, listing, groups)
    text = listed(listing, {CONTENTS: contents})
    worker = worker_of(templates, kept.site.book_id, edition_of(text))
    return {CONTENTS: contents, LIST: text, WORKER: worker}
