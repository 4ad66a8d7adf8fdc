"""A calculator and the sources of a book -> how far it may be trusted: the sorts of source it rests on, and what of it
must be said.

The scale of sorts says it all, the first sort to be trusted first: which sort speaks where nothing better stands
behind a calculator (`alone`), and which is told wherever it stands (`beside`).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from builder.model.records import Record
from builder.model.records.calculator import Calculator
from builder.model.records.supporting import Scale, ScaleWord, Source
from builder.model.records.table import Table
from builder.model.reference import Ref

SORT = "source-sort"
"""The scale by which sources are told apart, the first to be trusted first."""
Shelf = Mapping[Ref, Record]


class Standing(NamedTuple):
    """What a calculator rests on."""

    sorts: tuple[str, ...]
    """Each sort of source once, the first to be trusted first."""
    say: str = ""
    """What must be said of it before it is used, or nothing."""


def standing(calculator: Calculator, shelf: Shelf) -> Standing:
    """Judge by its own sources and those of its fixed values and tables: the best of them speaks for it."""
    words = _words(shelf)
    found = {record.sort for id_ in _sources(calculator, shelf) if (record := _source(id_, shelf))}
    sorts = tuple(sort for sort in words if sort in found)
    return Standing(sorts, (words[sorts[0]].alone or "") if sorts else "")


def beside(sources: Iterable[str], shelf: Shelf) -> str:
    """Return what stands beside a thing that rests on these sources alone: what its best source has to say."""
    words = _words(shelf)
    found = {record.sort for id_ in sources if (record := _source(id_, shelf))}
    best = next((sort for sort in words if sort in found), None)
    return (words[best].beside or "") if best is not None else ""


def table_sources(table: Table) -> Iterator[str]:
    """Every source of a table, its columns' own among them."""
    yield from table.sources
    yield from (column.source for column in table.columns.values() if column.source)


def _sources(calculator: Calculator, shelf: Shelf) -> Iterator[str]:
    yield from calculator.sources
    yield from (fixed.source for fixed in calculator.fixed.values())
    for id_ in calculator.tables.values():
        record = shelf.get(Ref("table", id_))
        if isinstance(record, Table):
            yield from table_sources(record)


def _source(id_: str, shelf: Shelf) -> Source | None:
    record = shelf.get(Ref("source", id_))
    return record if isinstance(record, Source) else None


def _words(shelf: Shelf) -> Mapping[str, ScaleWord]:
    scale = shelf.get(Ref("scale", SORT))
    return scale.words if isinstance(scale, Scale) else {}
