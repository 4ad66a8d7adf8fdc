"""Tables of points for the command line: from a file of comma-separated values the answer as text or JSON."""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from builder import answers
from builder.formula import Program
from builder.formula.numbers import fixed
from builder.formula.points.answers import PointAnswer, run_points
from builder.formula.points.compiling import PointTable
from builder.formula.points.deviations import Deviation
from builder.formula.points.rows import read_rows
from builder.formula.points.verdicts import verdict
from builder.model.standing import Standing

STANDARD_INPUT = "-"
LARGEST = 2_000_000
"""Bytes of a table; one of a whole body has a few thousand."""


def ask(program: Program, given: Sequence[str], table: str | None) -> PointAnswer | str:
    """Read the table and fit it; what is wrong with it or with the inputs comes back as text."""
    if program.points is None:
        return f"{program.id} works on no table of points; leave --csv out"
    if table is None:
        more = f"seambook calc --list {program.id} says its columns"
        return f"{program.id} works on a table of points: add --csv FILE; {more}"
    values = answers.inputs_of(given)
    text = _text(table)
    if isinstance(values, str) or isinstance(text, str):
        return values if isinstance(values, str) else str(text)
    shown = "standard input" if table == STANDARD_INPUT else table
    read = read_rows(text[0], program.points.reader)
    if read.faults:
        return "\n".join(f"{shown}: {fault.placed()}; {fault.do}" for fault in read.faults)
    found = run_points(program, read.points, values)
    if found.answer.faults:
        return answers.faults_text(found.answer)
    return f"{shown}: {found.refused}" if found.refused else found


def _text(table: str) -> tuple[str] | str:
    """Return the table's text, in brackets; or what is wrong."""
    try:
        data = sys.stdin.buffer.read(LARGEST + 1) if table == STANDARD_INPUT else _read(Path(table))
    except OSError as trouble:
        return f"{table} cannot be read: {trouble.strerror or trouble}"
    if len(data) > LARGEST:
        return f"{table} is larger than {LARGEST} bytes; it is no table of points"
    try:
        return (data.decode("utf-8-sig"),)
    except UnicodeDecodeError as wrong:
        line = data[: wrong.start].count(b"\n") + 1
        return f"{table}: line {line}: this is not UTF-8; save the table as UTF-8"


def _read(path: Path) -> bytes:
    with path.open("rb") as file:
        return file.read(LARGEST + 1)


def columns_text(program: Program) -> str:
    """Say what the table holds, below a calculator's inputs; nothing where it works on none."""
    if program.points is None:
        return ""
    record, units = program.points.record, [unit.name for unit in program.points.reader.units]
    stated, measured = record.stated, record.measured
    lines = [
        "", "  --csv FILE: a table of points, its first line naming the columns in any order:",
        f"    {record.name.column}: {record.name.say}",
        f"    {stated.x}, {stated.y}, {stated.z}: {record.stated.say} ({record.unit})",
        f"    {measured.x}, {measured.y}, {measured.z}: {record.measured.say} ({record.unit})",
        f"    {record.sound.column}: {record.sound.say} ({record.sound.yes[0]} or {record.sound.no[0]})",
        f"  Behind the name of a column may stand its unit in brackets: {', '.join(units)}.",
    ]  # fmt: skip
    return "\n".join(["", *lines])


def answer_json(program: Program, found: PointAnswer, rests: Standing) -> str:
    """Return the answer in the form other tools read."""
    table = program.points
    assert table is not None
    fit = found.fitted.fit
    return json.dumps({
        **answers.answer_data(program, found.answer, rests),
        "points": [_row_data(table, row) for row in found.fitted.deviations],
        "fit": {"rotation": fit.rotation, "shift": list(fit.shift)} if fit else None,
        "unit": table.reader.unit.name,
    }, ensure_ascii=False, indent=2)  # fmt: skip


def _row_data(table: PointTable, row: Deviation) -> dict[str, Any]:
    x, y, z = row.off
    return {
        "name": row.name, "sound": row.sound, "x": x, "y": y, "z": z, "length": row.length,
        "beyond": row.is_beyond, "doubtful": row.is_doubtful, "alone": row.alone, "rest": row.rest,
        "verdict": verdict(table.record, row, _shown(table)),
    }  # fmt: skip


def answer_text(program: Program, found: PointAnswer, rests: Standing) -> str:
    """Return the answer for a person: each point, then what comes of all of them."""
    table = program.points
    assert table is not None
    record, rows = table.record, found.fitted.deviations
    width = max(len(record.name.say), *(len(row.name) for row in rows))
    axes = (record.axes.x, record.axes.y, record.axes.z)
    head = "  ".join(f"{axis:>9}" for axis in (*axes, table.reader.unit.name))
    lines = [f"  {record.name.say:<{width}}  {head}"]
    for row in rows:
        numbers = "  ".join(f"{fixed(value, record.digits):>9}" for value in (*row.off, row.length))
        sound = f" ({record.sound.say})" if row.sound else ""
        lines.append(f"  {row.name:<{width}}  {numbers}  {verdict(record, row, _shown(table))}{sound}")
    title, *rest = answers.answer_text(program, found.answer, rests).split("\n")
    return "\n".join([title, *lines, "", *rest])


def _shown(table: PointTable) -> Any:
    return lambda value: f"{fixed(value, table.record.digits)} {table.reader.unit.name}"
