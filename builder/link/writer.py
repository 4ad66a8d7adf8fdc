"""The one place that makes hrefs: to a folder of pages, or to one file that holds the whole book."""

from __future__ import annotations

import posixpath
from dataclasses import dataclass
from functools import lru_cache

from builder.model.records import KIND
from builder.model.reference import LONE_SUBJECTS, Ref


@dataclass(frozen=True, slots=True)
class FolderLinks:
    """Links between the pages of a folder: relative, always with the file's own name, so that they work from disk."""

    def path(self, ref: Ref) -> str:
        """Return the path of a record's page from the book's root."""
        return f"{KIND[ref.kind].folder}/{ref.id}.html"

    def href(self, page: str, ref: Ref) -> str:
        """Return the relative way from one page to a record's page, or to an anchor on it."""
        anchor = f"#{ref.anchor}" if ref.anchor else ""
        if ref.kind in LONE_SUBJECTS or self.path(ref) == page:
            return anchor or "#top"
        return _between(page.rpartition("/")[0], self.path(ref)) + anchor


@dataclass(frozen=True, slots=True)
class SingleFileLinks:
    """Links inside one file: every id is unique over the whole book."""

    def path(self, ref: Ref) -> str:
        """Return the id of a record's section."""
        return f"{ref.kind}-{ref.id}"

    def href(self, page: str, ref: Ref) -> str:  # noqa: ARG002  # from wherever it is, the way is the same
        """Return the way to a record's section, or to an anchor in it."""
        if ref.kind in LONE_SUBJECTS:
            return "#top"
        return f"#{self.path(ref)}--{ref.anchor}" if ref.anchor else f"#{self.path(ref)}"


@lru_cache(maxsize=16384)
def _between(folder: str, target: str) -> str:
    return posixpath.relpath(target, folder or ".")
