"""A table as text -> its points, or every fault with its line and column. `point_rows.js` does the same."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from builder.formula.numbers import read_written, to_float
from builder.formula.points.cells import Cells, Line, cut
from builder.formula.points.deviations import Point
from builder.formula.points.fit import Place
from builder.formula.units import Unit
from builder.model.records.points import PlaceColumns, Points


class RowFault(NamedTuple):
    """One mistake in a table."""

    line: int
    """Counted from 1; 0 where there is no line at all."""
    column: str
    """As the head is to call it; empty where the whole line is meant."""
    message: str
    do: str

    def placed(self) -> str:
        """Say where it is and what is wrong."""
        where = [f"line {self.line}"] * bool(self.line) + [f"column {self.column}"] * bool(self.column)
        return f"{', '.join(where)}: {self.message}" if where else self.message


class Reader(NamedTuple):
    """What a table is read by."""

    record: Points
    unit: Unit
    """Of a bare number."""
    units: tuple[Unit, ...]
    """All that may be written, `unit` the first of them."""


class _Column(NamedTuple):
    at: int
    unit: Unit


class Table(NamedTuple):
    """What was read."""

    points: tuple[Point, ...]
    faults: tuple[RowFault, ...]


def columns_of(record: Points) -> tuple[str, ...]:
    """Return the names of all columns, in the order a table is written."""
    stated, measured = record.stated, record.measured
    return (
        record.name.column, stated.x, stated.y, stated.z, measured.x, measured.y, measured.z, record.sound.column
    )  # fmt: skip


def read_rows(text: str, reader: Reader) -> Table:
    """Read a table. A line at fault gives no point; a head at fault gives none at all."""
    cells = cut(text)
    if not cells.lines:
        names = ", ".join(columns_of(reader.record))
        return Table((), (RowFault(0, "", "there is nothing in the table", f"begin with a line: {names}"),))
    columns, faults = _head(cells.lines[0], reader)
    if faults:
        return Table((), tuple(faults))
    points: list[Point] = []
    found: list[RowFault] = []
    first: dict[str, int] = {}
    for line in cells.lines[1:]:
        row = _Row(line, cells, columns, reader)
        wrong = list(row.faults(first))
        first.setdefault(row.name(), line.number)
        if wrong:
            found += wrong
        else:
            points.append(row.point())
    return Table(tuple(points), tuple(found))


def _plain(name: str) -> str:
    """Return a column's name so that blanks and capitals make no difference."""
    return re.sub(r"[\s_]+", "_", name.strip()).lower()


def _head(line: Line, reader: Reader) -> tuple[dict[str, _Column], list[RowFault]]:
    """Find the columns in any order; others are left alone. A unit may stand behind a name in brackets."""
    columns: dict[str, _Column] = {}
    faults: list[RowFault] = []
    wanted = {_plain(name): name for name in columns_of(reader.record)}
    for at, cell in enumerate(line.cells):
        text, _, behind = cell.replace("[", "(").replace("]", ")").partition("(")
        name, written = wanted.get(_plain(text), ""), behind.partition(")")[0].strip()
        if not name:
            continue
        if name in columns:
            faults.append(RowFault(line.number, name, "it stands there twice", "take one of the two out"))
        unit = next((one for one in reader.units if one.name == written), None) if written else reader.unit
        if unit is None:
            message = f'the unit "{written}" is not offered here'
            faults.append(RowFault(line.number, name, message, f"write one of {_names(reader.units)}"))
        columns.setdefault(name, _Column(at, unit or reader.unit))
    do = f"write a first line with {', '.join(wanted.values())}"
    missing = [name for name in wanted.values() if name not in columns]
    faults += [RowFault(line.number, name, "there is no such column", do) for name in missing]
    return columns, faults


def _names(units: Sequence[Unit]) -> str:
    return ", ".join(unit.name for unit in units)


class _Row:
    """One line in hand."""

    def __init__(self, line: Line, cells: Cells, columns: Mapping[str, _Column], reader: Reader) -> None:
        self.line = line
        self.mark = cells.mark
        self.columns = columns
        self.reader = reader
        self.numbers: dict[str, float] = {}

    def cell(self, name: str) -> str:
        """Return what is written in a column; nothing where the line ends before it."""
        at = self.columns[name].at
        return self.line.cells[at] if at < len(self.line.cells) else ""

    def name(self) -> str:
        """Return the point's name."""
        return self.cell(self.reader.record.name.column)

    def faults(self, first: Mapping[str, int]) -> Iterator[RowFault]:
        """Read every cell; yield what is wrong. `first` says on which line a name stood before."""
        record = self.reader.record
        name = record.name.column
        if not self.name():
            yield RowFault(self.line.number, name, "nothing is written here", "give the point a name")
        elif self.name() in first:
            message = f'"{self.name()}" stands on line {first[self.name()]} already'
            yield RowFault(self.line.number, name, message, "give each point a name of its own")
        for column in columns_of(record)[1:7]:
            yield from self._number(column)
        if self._said() is None:
            told = f"write {record.sound.yes[0]} or {record.sound.no[0]}"
            cell = self.cell(record.sound.column)
            message = f'"{cell}" is neither' if cell else "nothing is written here"
            yield RowFault(self.line.number, record.sound.column, message, told)

    def point(self) -> Point:
        """Return the point of a line without faults."""
        record = self.reader.record
        return Point(self.name(), self._place(record.stated), self._place(record.measured), bool(self._said()))

    def _place(self, columns: PlaceColumns) -> Place:
        return self.numbers[columns.x], self.numbers[columns.y], self.numbers[columns.z]

    def _said(self) -> bool | None:
        sound, cell = self.reader.record.sound, self.cell(self.reader.record.sound.column).lower()
        if cell in (word.lower() for word in sound.yes):
            return True
        return False if cell in (word.lower() for word in sound.no) else None

    def _number(self, column: str) -> Iterator[RowFault]:
        cell, own = self.cell(column), self.reader.unit
        found = _read(cell, self.mark, self.columns[column].unit, self.reader)
        if isinstance(found, float):
            self.numbers[column] = found
            return
        message = f'"{cell}" cannot be used: {found}' if cell else "nothing is written here"
        yield RowFault(self.line.number, column, message, f"write a number in {own.name}")


def _read(cell: str, mark: str, unit: Unit, reader: Reader) -> float | str:
    """Read a number in a column's unit, or with one of the offered units; return it in the table's own unit.

    Where the comma parts no cells it can only be a decimal sign; in quotes between commas it could be either.
    """
    written = read_written(cell if mark == "," else cell.replace(",", ".", 1))
    if isinstance(written, str):
        return written
    found = unit if not written.unit else next((one for one in reader.units if one.name == written.unit), None)
    if found is None:
        return f'the unit "{written.unit}" is not offered here'
    value = to_float(written.number * found.factor / reader.unit.factor)
    return value if abs(value) < float("inf") else "the number is too large"
