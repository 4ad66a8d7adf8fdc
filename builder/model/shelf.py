"""The shelf: records of the kinds that are few and asked for everywhere, found by old names too."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.model.records import Record
from builder.model.reference import Ref


class Shelf(Mapping[Ref, Record]):
    """Goes through the living records, each once; a look-up by a name of `was` finds the record of today."""

    def __init__(self, records: Mapping[Ref, Record]) -> None:
        self._records = dict(records)
        self._moved = {
            Ref(ref.kind, old): ref for ref, record in self._records.items() for old in record.was
        }  # fmt: skip

    def __getitem__(self, ref: Ref) -> Record:
        found = self._records.get(ref)
        return self._records[self._moved[ref]] if found is None else found

    def __iter__(self) -> Iterator[Ref]:
        return iter(self._records)

    def __len__(self) -> int:
        return len(self._records)
