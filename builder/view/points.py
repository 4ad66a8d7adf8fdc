"""A calculator that works on points -> the table to fill in and every point's deviation, as its page shows them."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from builder.formula.numbers import exact, fixed
from builder.formula.points.rows import columns_of
from builder.formula.points.verdicts import verdict
from builder.model.point_views import EnteredPoint, PointEntry, PointHeads, PointResult, PointResults
from builder.model.records.calculator import Calculator, Proof
from builder.model.records.points import Points
from builder.model.said import Said, said
from builder.model.views import Grid, Html
from builder.model.work import PointRow, WorkedOut
from builder.view.here import Here
from builder.view.shared import shared

SCRIPTS = shared("points")
"""Loaded before the script of the calculator's form, which asks them."""


def point_entry(here: Here, calculator: Calculator, started: WorkedOut | None) -> tuple[PointEntry, ...]:
    """Return the table to fill in; nothing where the calculator works on no points."""
    record = calculator.points
    if record is None:
        return ()
    rows = started.points if started else ()
    points = tuple(_entered(here, record, at, row) for at, row in enumerate(rows, 1))
    return (PointEntry("Points", _heads(record), here.book.units.name(record.unit), points, "points"),)


def point_results(here: Here, calculator: Calculator, started: WorkedOut | None) -> tuple[PointResults, ...]:
    """Return what comes of every point that the page starts with."""
    record = calculator.points
    if record is None:
        return ()
    rows = started.points if started else ()
    points = tuple(_result(here, record, row) for row in rows)
    unit = here.book.units.name(record.unit)
    return (PointResults("Deviations, point by point", _heads(record), unit, points, "deviations"),)


def printed_points(here: Here, entry: PointEntry) -> Grid:
    """Return the points as a plain table, for paper."""
    heads = entry.heads
    places = tuple(f"{part}, {axis}" for part in (heads.stated, heads.measured) for axis in heads.axes)
    rows = tuple(
        (here.text(point.name), *(here.both(text) for text in (*point.stated, *point.measured)),
         here.text(heads.sound if point.sound else ""))
        for point in entry.points
    )  # fmt: skip
    note = Html(f"Unit of every place: {here.both(entry.unit)}.")
    return Grid(entry.title, (heads.name, *places, heads.sound), rows, note, entry.anchor,
                (False, *[True] * len(places), False))  # fmt: skip


def point_limits(here: Here, calculator: Calculator) -> Iterator[tuple[Html, Html, Html]]:
    """Return the limit of the fit as a row of the fixed values: its name, its value, its source."""
    if calculator.points is not None:
        least = calculator.points.least_breadth
        source = here.anchor(here.link("source", least.source))
        note = f" {here.line(least.note)}" if least.note else ""
        yield Html("<code>least_breadth</code>"), here.text(least.value), Html(f"{source}{note}")


def scripts(calculator: Calculator) -> tuple[str, ...]:
    """Return the scripts that a page of points needs beside those of every calculator."""
    return SCRIPTS if calculator.points is not None else ()


def proof_points(here: Here, proof: Proof) -> Html:
    """Return the points of a proof, and what their deviations must be, as HTML."""
    if proof.points is None:
        return Html("")
    head, *rows = proof.points.strip().split("\n")
    must = ", ".join(f"{name} {text}" for name, text in proof.deviations.items())
    text = f" Points ({head}): {'; '.join(rows)}." + (f" Deviations: {must}." if must else "")
    return here.text(text)


def _heads(record: Points) -> PointHeads:
    axes = (record.axes.x, record.axes.y, record.axes.z)
    return PointHeads(
        record.name.say, record.stated.say, record.measured.say, record.sound.say, axes, columns_of(record)
    )  # fmt: skip


def _entered(here: Here, record: Points, at: int, row: PointRow) -> EnteredPoint:
    units = here.book.units
    stated, measured = (
        tuple(units.entry(_written(value), record.unit) for value in place) for place in (row.stated, row.measured)
    )
    return EnteredPoint(at, row.name, stated, measured, row.sound)


def _written(value: float) -> str:
    """Write a number as a person would: as many digits as it has."""
    number = exact(value)
    return str(number.numerator) if number.denominator == 1 else _decimal(number)


def _decimal(number: Fraction) -> str:
    places = next((places for places in range(1, 16) if (number * 10**places).denominator == 1), 16)
    return fixed(float(number), places)


def _result(here: Here, record: Points, row: PointRow) -> PointResult:
    level = "doubtful" if row.is_doubtful else "beyond" if row.is_beyond else "within"
    parts: list[Said] = []

    def kept(value: float) -> str:
        parts.append(here.book.units.answer(fixed(value, record.digits), record.unit, value))
        return f"\0{len(parts) - 1}\0"

    pattern = verdict(record, row, kept).split("\0")
    text = said(*(parts[int(part)] if at % 2 else part for at, part in enumerate(pattern)))
    off = tuple(_number(here, record, value) for value in row.off)
    return PointResult(row.name, row.sound, off, _number(here, record, row.length), here.both(text), level)


def _number(here: Here, record: Points, value: float) -> Said:
    """Say a length alone, its unit standing at the head of its column."""
    pair = here.book.units.pairs.get(record.unit)
    own = fixed(value, record.digits)
    if pair is None:
        return Said(own)
    other = pair.text(exact(value), record.digits)
    return Said(other, own) if pair.to == here.book.units.first else Said(own, other)
