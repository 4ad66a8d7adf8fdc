"""What the later stages ask of links: where a record's page is, who refers to it, and how to get there."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Set
from dataclasses import dataclass
from typing import Protocol

from builder.model.ledger import EVERY, NO_LEDGER, Fact, Ledger, Watched, WatchedSet, mark_of
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
    handed: Set[Ref]
    """Records of which a car has one on each side."""
    ledger: Ledger = NO_LEDGER
    """Where it is written down what is asked."""
    whole: Catalogue | None = None
    """Of a watched catalogue the one behind it."""

    def watched(self, ledger: Ledger) -> Catalogue:
        """Return the same, writing down what it is asked."""
        return Catalogue(
            Watched(self.summaries, "summary", ledger), self.broken, Watched(self.moved, "moved", ledger),
            Watched(self.uses, "uses", ledger), WatchedSet(self.handed, "handed", ledger), ledger, self,
        )  # fmt: skip

    def find(self, ref: Ref) -> Summary | None:
        """Return the summary of the record a reference points at, through old names."""
        self.ledger.note("found", ref.record)
        return self._find(ref)

    def _find(self, ref: Ref) -> Summary | None:
        record, behind = ref.record, self.whole or self
        return behind.summaries.get(behind.moved.get(record, record))

    def facts(self, told: Mapping[Ref, bytes]) -> Iterator[tuple[Fact, bytes]]:
        """Yield all that can be asked here with a mark of the answer; `told` marks each summary."""
        whole = self.whole or self
        for old, ref in (*((ref, ref) for ref in whole.summaries), *whole.moved.items()):
            if ref in whole.summaries:
                summary = whole.summaries[ref]
                yield ("head", old), mark_of((ref.id, summary.title, summary.status))
                yield ("found", old), mark_of(ref.id.encode() + told[ref])
        for ref in whole.summaries:
            yield ("summary", ref), told[ref]
        yield from ((("moved", old), mark_of(ref.id)) for old, ref in whole.moved.items())
        for ref, users in whole.uses.items():
            yield ("uses", ref), mark_of([(one.kind, one.id) for one in users])
        yield from ((("handed", ref), b"") for ref in whole.handed)
        yield ("summary", EVERY), mark_of([*map(str, whole.summaries)])
        yield ("moved", EVERY), mark_of(sorted((str(old), str(ref)) for old, ref in whole.moved.items()))
        yield ("uses", EVERY), mark_of([*map(str, whole.uses)])
        yield ("handed", EVERY), mark_of(sorted(map(str, whole.handed)))

    def is_handed(self, procedure: Summary) -> bool:
        """Whether a procedure is done to one side of the car: whether any of its steps works on what comes in two."""
        subjects = (ref.record for step in procedure.steps for ref in step.subjects)
        return any(self.moved.get(ref, ref) in self.handed for ref in subjects)

    def title(self, ref: Ref) -> str:
        """Return the record's title, or its id where it is broken or one of the lone subjects."""
        self.ledger.note("head", ref.record)
        found = self._find(ref)
        return found.title if found is not None else ref.id.replace("-", " ")

    def status(self, ref: Ref) -> str:
        """Return how far a procedure has come; nothing of any other record."""
        self.ledger.note("head", ref.record)
        found = self._find(ref)
        return found.status if found is not None else ""


class Links(Protocol):
    """The link writer as the page makers see it."""

    def href(self, page: str, ref: Ref) -> str:
        """Return the way from the page at this path to a record, or to an anchor on its page."""

    def path(self, ref: Ref) -> str:
        """Return the path of a record's page from the book's root."""
