"""The one place that makes hrefs: to a folder of pages, or to one file that holds the whole book."""

from __future__ import annotations

import posixpath
from collections.abc import Mapping
from dataclasses import dataclass, field
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
    """Links inside one file, or among the few that a book too large for one is split into.

    Every id is unique over the whole book: it holds a double hyphen, which no id of a page's own part does.
    """

    file: str = ""
    """The file that links are made for; empty where there is but one."""
    files: Mapping[Ref, str] = field(default_factory=dict)
    """Which record is in which file, where there are several."""
    moved: Mapping[Ref, Ref] = field(default_factory=dict)
    """Old names, which have no section."""

    def path(self, ref: Ref) -> str:
        """Return the id of a record's section."""
        return f"{ref.kind}--{ref.id}"

    def href(self, page: str, ref: Ref) -> str:  # noqa: ARG002  # from wherever in the file it is, the way is the same
        """Return the way to a record's section, or to an anchor in it."""
        if ref.kind in LONE_SUBJECTS:
            return "#top"
        record = self.moved.get(ref.record, ref.record)
        file = self.files.get(record, self.file)
        section = f"{'' if file == self.file else file}#{self.path(record)}"
        return f"{section}--{ref.anchor}" if ref.anchor else section


@lru_cache(maxsize=16384)
def _between(folder: str, target: str) -> str:
    return posixpath.relpath(target, folder or ".")
