"""What the later stages ask of links: where a record's page is, who refers to it, and how to get there."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Protocol

from builder.model.reference import Ref
from builder.model.summary import Summary


@dataclass(frozen=True, slots=True)
class Catalogue:
    """Every record of the book, with the references resolved."""

    summaries: Mapping[Ref, Summary]
    broken: frozenset[Ref]
    """Ids that exist but whose record has problems, so that one typo makes one message."""
    moved: Mapping[Ref, Ref]
    """Old names, kept alive by `was`."""
    uses: Mapping[Ref, tuple[Ref, ...]]
    """Who refers to a record, sorted."""
    handed: frozenset[Ref]
    """Records of which a car has one on each side."""

    def find(self, ref: Ref) -> Summary | None:
        """Return the summary of the record a reference points at, through old names."""
        record = ref.record
        return self.summaries.get(self.moved.get(record, record))

    def is_handed(self, procedure: Summary) -> bool:
        """Whether a procedure is done to one side of the car: whether any of its steps works on what comes in two."""
        subjects = (ref.record for step in procedure.steps for ref in step.subjects)
        return any(self.moved.get(ref, ref) in self.handed for ref in subjects)

    def title(self, ref: Ref) -> str:
        """Return the record's title, or its id where it is broken or one of the lone subjects."""
        found = self.find(ref)
        return found.title if found is not None else ref.id.replace("-", " ")


class Links(Protocol):
    """The link writer as the page makers see it."""

    def href(self, page: str, ref: Ref) -> str:
        """Return the way from the page at this path to a record, or to an anchor on its page."""

    def path(self, ref: Ref) -> str:
        """Return the path of a record's page from the book's root."""
