"""The shelf: records of the kinds that are few and asked for everywhere, found by old names too."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TypeVar

from builder.model.ledger import EVERY, NO_LEDGER, Fact, Ledger, mark_of
from builder.model.records import KIND, Record
from builder.model.reference import Ref

R = TypeVar("R", bound=Record)


class Shelf(Mapping[Ref, Record]):
    """Goes through the living records, each once; a look-up by a name of `was` finds the record of today."""

    def __init__(self, records: Mapping[Ref, Record], ledger: Ledger = NO_LEDGER) -> None:
        self._ledger = ledger
        self._records = dict(records)
        self._moved = {
            Ref(ref.kind, old): ref for ref, record in self._records.items() for old in record.was
        }  # fmt: skip

    def watched(self, ledger: Ledger) -> Shelf:
        """Return the same, writing down what it is asked."""
        return Shelf(self._records, ledger)

    def facts(self, said: Mapping[Ref, bytes]) -> Iterator[tuple[Fact, bytes]]:
        """Yield all that can be asked here with a mark of the answer; `said` marks every record, of all kinds."""
        yield from ((("record", ref), mark) for ref, mark in said.items())
        yield from ((("record", old), mark_of(ref.id.encode() + said[ref])) for old, ref in self._moved.items())
        yield ("record", EVERY), mark_of([*map(str, self._records)])
        by_kind: dict[str, list[str]] = {}
        for ref in sorted(self._records):
            by_kind.setdefault(ref.kind, []).append(ref.id)
        yield from ((("kind", kind), mark_of(ids)) for kind, ids in by_kind.items())

    def refs_of(self, kind: str) -> list[Ref]:
        """Return the records of one kind, sorted."""
        self._ledger.note("kind", kind)
        return sorted(ref for ref in self._records if ref.kind == kind)

    def __getitem__(self, ref: Ref) -> Record:
        kind = KIND.get(ref.kind)
        if kind is not None and not kind.shelf:  # that it is not here hangs on nothing that the record says
            raise KeyError(ref)
        self._ledger.note("record", ref)
        found = self._records.get(ref)
        return self._records[self._moved[ref]] if found is None else found

    def __iter__(self) -> Iterator[Ref]:
        self._ledger.note("record", EVERY)
        return iter(self._records)

    def __len__(self) -> int:
        self._ledger.note("record", EVERY)
        return len(self._records)


def of_kind(shelf: Mapping[Ref, Record], kind: str, type_: type[R]) -> Iterator[tuple[Ref, R]]:
    """Yield the records of one kind, sorted: of these alone it is written down that they were asked for."""
    refs = shelf.refs_of(kind) if isinstance(shelf, Shelf) else sorted(ref for ref in shelf if ref.kind == kind)
    for ref in refs:
        record = shelf[ref]
        assert isinstance(record, type_)
        yield ref, record
