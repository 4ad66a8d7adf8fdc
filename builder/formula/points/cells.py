"""A table as text -> its lines of cells: what parts them is found out from the first line, quotes hold what they hold.

`point_rows.js` does the same.
"""

from __future__ import annotations

from typing import NamedTuple

MARKS = (";", "\t", ",")
"""What may part cells; the first of these that stands in the first line does."""
BYTE_ORDER_MARK = "\ufeff"


class Line(NamedTuple):
    """One line that is not empty."""

    number: int
    """Counted from 1, in the text."""
    cells: tuple[str, ...]


class Cells(NamedTuple):
    """A table cut into cells."""

    mark: str
    lines: tuple[Line, ...]


def cut(text: str) -> Cells:
    """Cut a table into cells; a line whose cells are all empty is left out."""
    rows = text.removeprefix(BYTE_ORDER_MARK).replace("\r\n", "\n").replace("\r", "\n").split("\n")
    filled = [(number, row) for number, row in enumerate(rows, 1) if row.strip()]
    mark = next((one for one in MARKS if filled and one in filled[0][1]), ",")
    lines = (Line(number, _cells(row, mark)) for number, row in filled)
    return Cells(mark, tuple(line for line in lines if any(line.cells)))


def _cells(row: str, mark: str) -> tuple[str, ...]:
    """Part one line. Within quotes the mark is a character as any other, and two quotes are one."""
    cells: list[str] = []
    cell, quoted, at = "", False, 0
    while at < len(row):
        sign = row[at]
        if sign == '"' and quoted and row[at + 1 : at + 2] == '"':
            cell += '"'
            at += 1
        elif sign == '"' and (quoted or not cell.strip()):
            quoted = not quoted
        elif sign == mark and not quoted:
            cells.append(cell.strip())
            cell = ""
        else:
            cell += sign
        at += 1
    return (*cells, cell.strip())
