"""Look-ups: from a table record its rows in base units, and from keys a cell, or "outside the table".

`compile_table` is the entry point; `LookupTable.find` answers. formula.js has the twin.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from functools import lru_cache
from typing import NamedTuple

from builder.formula.codes import BAD_TABLE, ROW_TWICE, UNKNOWN_UNIT
from builder.formula.fault import Fault
from builder.formula.kinds import ChoiceKind, Kind, choice, kind_of_unit
from builder.formula.meanings import finite
from builder.formula.no_answer import OUTSIDE, unanswered
from builder.formula.numbers import plain, read_number, to_float
from builder.formula.units import Unit, unit, unit_advice
from builder.model.near import offer
from builder.model.records.table import Column, Key, Table
from builder.model.summary import KEY

SAME = 1e-9
"""Two numbers this near each other, relative to the larger, are one key."""
BLANK = "-"

Cell = float | str | None
"""A number in base units, an id, or None where the source prints nothing."""


class LookupKey(NamedTuple):
    """One way in."""

    name: str
    unit: Unit | None
    match: str
    kind: Kind


class LookupColumn(NamedTuple):
    """One column to read, with its cells from the first row down."""

    name: str
    kind: Kind
    cells: tuple[Cell, ...]


class LookupTable(NamedTuple):
    """A table ready to be read."""

    keys: tuple[LookupKey, ...]
    columns: dict[str, LookupColumn]
    rows: tuple[tuple[float | str, ...], ...]
    """The keys of each row."""

    def find(self, column: str, asked: tuple[float | str, ...]) -> float | str:
        """Return the cell for these keys; raise `Unanswered` where the table has none."""
        rows = list(range(len(self.rows)))
        for place in self.order():
            key = self.keys[place]
            if key.match == "between":
                return self._between(column, place, asked[place], rows)
            rows = self._narrowed(place, asked[place], rows)
        return self._cell(column, rows[0])

    def order(self) -> tuple[int, ...]:
        """Return the keys in the order they narrow the rows: equal ones first, interpolation last."""
        rank = {"exact": 0, "up": 1, "down": 1, "between": 2}
        return tuple(sorted(range(len(self.keys)), key=lambda place: rank[self.keys[place].match]))

    def _narrowed(self, place: int, asked: float | str, rows: list[int]) -> list[int]:
        values = {row: self.rows[row][place] for row in rows}
        equal = [row for row in rows if is_same(values[row], asked)]
        if equal:
            return equal
        match = self.keys[place].match
        if match == "exact" or isinstance(asked, str):
            raise unanswered(f"{OUTSIDE}: it has no {self._told(place, asked)}")
        numbers = {row: value for row, value in values.items() if isinstance(value, float)}
        beyond = [value for value in numbers.values() if (value > asked if match == "up" else value < asked)]
        if not beyond:
            raise self._past_end(place, asked, list(numbers.values()))
        next_one = min(beyond) if match == "up" else max(beyond)
        return [row for row in rows if numbers[row] == next_one]

    def _between(self, column: str, place: int, asked: float | str, rows: list[int]) -> float | str:
        values = sorted((value, row) for row in rows if isinstance(value := self.rows[row][place], float))
        assert isinstance(asked, float)
        for value, row in values:
            if is_same(value, asked):
                return self._cell(column, row)
        below = [pair for pair in values if pair[0] < asked]
        above = [pair for pair in values if pair[0] > asked]
        if not below or not above:
            raise self._past_end(place, asked, [value for value, _ in values])
        (low, low_row), (high, high_row) = below[-1], above[0]
        first, last = self._cell(column, low_row), self._cell(column, high_row)
        assert isinstance(first, float)
        assert isinstance(last, float)
        return finite(first + (last - first) * ((asked - low) / (high - low)))

    def _cell(self, column: str, row: int) -> float | str:
        cell = self.columns[column].cells[row]
        if cell is None:
            told = ", ".join(self._told(place, value) for place, value in enumerate(self.rows[row]))
            raise unanswered(f"{OUTSIDE}: its source gives no {_words(column)} for {told}")
        return cell

    def _past_end(self, place: int, asked: float, values: list[float]) -> Exception:
        end, verb = (max(values), "ends") if asked > max(values) else (min(values), "begins")
        limit = self._told(place, end).removeprefix(_words(self.keys[place].name) + " ")
        return unanswered(f"{OUTSIDE}: {self._told(place, asked)}, the table {verb} at {limit}")

    def _told(self, place: int, value: float | str) -> str:
        key = self.keys[place]
        if isinstance(value, str):
            return f"{_words(key.name)} {value}"
        shown = plain(key.unit.from_base(value) if key.unit else value)
        return f"{_words(key.name)} {shown}" + (f" {key.unit.name}" if key.unit else "")


def is_same(one: float | str, other: float | str) -> bool:
    """Tell whether two keys are one: ids to the letter, numbers within `SAME`."""
    if isinstance(one, str) or isinstance(other, str):
        return one == other
    return abs(one - other) <= SAME * max(abs(one), abs(other))


def _words(name: str) -> str:
    return name.replace("_", " ")


class CompiledTable(NamedTuple):
    """A table ready to be read, or None with the faults that prevent it."""

    table: LookupTable | None
    faults: tuple[Fault, ...]


def compile_table(record: Table) -> CompiledTable:
    """Turn a table record into rows in base units; every fault names its field."""
    faults = [*_row_faults(record), *_form_faults(record)]
    if faults:
        return CompiledTable(None, tuple(faults))
    keys = tuple(LookupKey(name, _unit(key), key.match, _kind(record, name, key)) for name, key in record.keys.items())
    columns = {
        name: LookupColumn(name, _kind(record, name, column), _cells(record, name, column))
        for name, column in record.columns.items()
    }
    faults = [*_cell_faults(record)]
    ways = [(key, _cells(record, key.name, record.keys[key.name])) for key in keys]
    faults += [
        Fault(BAD_TABLE, f"the key {key.name} is empty in this row", "write its value", path=("rows", row, key.name))
        for key, cells in ways for row, cell in enumerate(cells) if cell is None
    ]  # fmt: skip
    faults += [
        Fault(BAD_TABLE, f"the key {key.name} has ids, which cannot be matched {key.match}", "write match: exact",
              path=("keys", key.name, "match"))
        for key in keys if isinstance(key.kind, ChoiceKind) and key.match != "exact"
    ]  # fmt: skip
    faults += [
        Fault(BAD_TABLE, f"the column {name} has ids, which cannot be interpolated", "match its keys exact, up or down",
              path=("columns", name))
        for name, column in columns.items()
        if isinstance(column.kind, ChoiceKind) and any(key.match == "between" for key in keys)
    ]  # fmt: skip
    rows = tuple(
        tuple(cells[row] for _, cells in ways if (cells[row]) is not None) for row in range(len(record.rows))
    )
    faults += _repeated(rows) if not faults else []
    made = tuple(tuple(cell for cell in row if cell is not None) for row in rows)
    return CompiledTable(None if faults else LookupTable(keys, columns, made), tuple(faults))


def _form_faults(record: Table) -> Iterator[Fault]:
    """Units that do not exist, no rows, two interpolated keys."""
    for group, fields in (("keys", record.keys), ("columns", record.columns)):
        ways: Mapping[str, Key | Column] = fields
        for name, field in ways.items():
            if field.unit is not None and unit(field.unit) is None:
                message = f'there is no unit "{field.unit}"'
                yield Fault(UNKNOWN_UNIT, message, unit_advice(field.unit), path=(group, name, "unit"))
    if not record.rows:
        yield Fault(BAD_TABLE, "the table has no rows", "write them", path=("rows",))
    between = [name for name, key in record.keys.items() if key.match == "between"]
    if len(between) > 1:
        message = "only one key may be interpolated: " + " and ".join(between) + " are"
        yield Fault(BAD_TABLE, message, "match the others exact, up or down", path=("keys", between[1], "match"))
    for name in record.keys.keys() & record.columns.keys():
        yield Fault(BAD_TABLE, f"{name} is a key and a column", "rename the column", path=("columns", name))


def _row_faults(record: Table) -> Iterator[Fault]:
    """Every row has every key and column, and no other cell."""
    names = [*record.keys, *record.columns]
    for number, row in enumerate(record.rows):
        for name in names:
            if name not in row:
                do = f'write it, or "{BLANK}" for none'
                yield Fault(BAD_TABLE, f"this row has no {name}", do, path=("rows", number))
        for name in row:
            if name not in names:
                do = offer(name, names, "take it out, or name it under columns")
                message = f'the table has no key or column "{name}"'
                yield Fault(BAD_TABLE, message, do, path=("rows", number, name, KEY))


def _cell_faults(record: Table) -> Iterator[Fault]:
    """A column with a unit, or with any number, holds numbers only."""
    ways: dict[str, Key | Column] = {**record.keys, **record.columns}
    for name, field in ways.items():
        texts = [row[name] for row in record.rows]
        own = _unit(field)
        numeric = [isinstance(_number(text, own), float) for text in texts]
        if field.unit is None and not any(numeric):
            continue
        for row, (text, is_number) in enumerate(zip(texts, numeric, strict=True)):
            if not is_number and text != BLANK:
                do = f"write a number, or {BLANK} where the source prints nothing"
                yield Fault(BAD_TABLE, f'"{text}" is no number, as {name} is elsewhere', do, path=("rows", row, name))


def _repeated(rows: tuple[tuple[Cell, ...], ...]) -> list[Fault]:
    seen: dict[tuple[Cell, ...], int] = {}
    faults = []
    for number, row in enumerate(rows):
        if row in seen:
            message = f"this row has the keys of row {seen[row] + 1}"
            faults.append(Fault(ROW_TWICE, message, "take one of them out", path=("rows", number)))
        seen.setdefault(row, number)
    return faults


def _unit(field: Key | Column) -> Unit | None:
    return unit(field.unit) if field.unit is not None else None


def _kind(record: Table, name: str, field: Key | Column) -> Kind:
    texts = [row[name] for row in record.rows if row[name] != BLANK]
    if field.unit is None and not any(_number(text, None) is not None for text in texts):
        return choice(texts)
    return kind_of_unit(_unit(field))


def _cells(record: Table, name: str, field: Key | Column) -> tuple[Cell, ...]:
    """Return a column's cells in base units; what cannot be read is left to `_cell_faults` and stands as text."""
    own = _unit(field)
    cells: list[Cell] = []
    for row in record.rows:
        text = row[name]
        number = _number(text, own)
        cells.append(number if number is not None else None if text == BLANK else text)
    return tuple(cells)


@lru_cache(maxsize=8192)
def _number(text: str, own: Unit | None) -> float | None:
    """Return a cell's number in base units; None where it is none, or one that floats cannot hold."""
    number = read_number(text)
    if isinstance(number, str):
        return None
    base = own.to_base(number) if own else to_float(number)
    return base if math.isfinite(base) else None
