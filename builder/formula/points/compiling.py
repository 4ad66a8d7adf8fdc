"""A calculator's table of points -> what it is read and fitted by, and every fault of it and of the proofs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from builder.formula.codes import BAD_POINTS, BAD_POINTS_FIELD, BAD_PROOF, UNKNOWN_UNIT
from builder.formula.fault import Fault, Path
from builder.formula.inputs import BARE_UNIT, Question, read_quantity
from builder.formula.kinds import BARE, Kind, NumberKind, describe, kind_of_unit
from builder.formula.points.deviations import BARE as BARE_NAMES
from builder.formula.points.deviations import LENGTHS, Point
from builder.formula.points.rows import Reader, columns_of, read_rows
from builder.formula.units import offered_units, unit, unit_advice
from builder.model.near import offer
from builder.model.records.calculator import Calculator, Proof
from builder.model.records.points import Points
from builder.model.summary import KEY

AXES = ("x", "y", "z")
LENGTH = NumberKind((1, 0, 0, 0, 0, 0, 0, 0))


class PointTable(NamedTuple):
    """What a table of points is read and fitted by."""

    record: Points
    reader: Reader
    least_breadth: float
    mirror: int | None
    """The axis that is turned round first."""
    start: tuple[Point, ...]
    proofs: tuple[tuple[Point, ...], ...]
    """The points of each proof."""


def measured_kinds(record: Calculator) -> dict[str, Kind]:
    """Return the names that a fit gives to formulas; none where the calculator works on no points."""
    if record.points is None:
        return {}
    return {**dict.fromkeys(BARE_NAMES, BARE), **dict.fromkeys(LENGTHS, LENGTH)}


def compile_points(
    record: Calculator, questions: Mapping[str, Question]
) -> tuple[PointTable | None, tuple[Fault, ...]]:
    """Return what the table is read by; None without points, or where its fields are at fault."""
    points = record.points
    if points is None:
        return None, tuple(_needless(record))
    faults = list(_field_faults(record, points, questions))
    own = unit(points.unit)
    if faults or own is None:
        return None, tuple(fault.under(("points",)) for fault in faults)
    reader = Reader(points, own, offered_units(own))
    start, wrong = _read(points.start, reader, ("points", "start"))
    faults += wrong
    proofs: list[tuple[Point, ...]] = []
    for number, proof in enumerate(record.proofs):
        given, wrong = _proof(proof, reader, ("proofs", number))
        proofs.append(given)
        faults += wrong
    least = _share(points.least_breadth.value)
    mirror = AXES.index(points.mirror) if points.mirror != "none" else None
    return PointTable(points, reader, least or 0.0, mirror, start, tuple(proofs)), tuple(faults)


def _needless(record: Calculator) -> Iterator[Fault]:
    for number, proof in enumerate(record.proofs):
        for key, given in (("points", proof.points), ("deviations", proof.deviations)):
            if given:
                message = f"the calculator has no table of points, and this proof gives {key}"
                yield Fault(BAD_PROOF, message, "take it out", path=("proofs", number, key, KEY))


def _field_faults(record: Calculator, points: Points, questions: Mapping[str, Question]) -> Iterator[Fault]:
    own = unit(points.unit)
    if own is None:
        yield Fault(UNKNOWN_UNIT, f'there is no unit "{points.unit}"', unit_advice(points.unit), path=("unit",))
    elif kind_of_unit(own) != LENGTH:
        message = f"places are lengths, and {points.unit} measures {describe(kind_of_unit(own))}"
        yield Fault(BAD_POINTS_FIELD, message, "write a unit such as mm", path=("unit",))
    tolerance = questions.get(points.tolerance)
    if points.tolerance not in record.inputs:
        do = offer(points.tolerance, record.inputs, "add it to inputs")
        yield Fault(BAD_POINTS_FIELD, f'there is no input "{points.tolerance}"', do, path=("tolerance",))
    elif tolerance is not None and tolerance.kind != LENGTH:
        message = f"{points.tolerance} is no length, and deviations are"
        yield Fault(BAD_POINTS_FIELD, message, "give that input a unit such as mm", path=("tolerance",))
    share = _share(points.least_breadth.value)
    if share is None or not 0 <= share < 1:
        message = f'"{points.least_breadth.value}" is no share of one'
        yield Fault(BAD_POINTS_FIELD, message, "write a number from 0 to below 1", path=("least_breadth", "value"))
    yield from _twice(points)


def _twice(points: Points) -> Iterator[Fault]:
    names = columns_of(points)
    paths: tuple[Path, ...] = (
        ("name", "column"), *(("stated", axis) for axis in AXES), *(("measured", axis) for axis in AXES),
        ("sound", "column"),
    )  # fmt: skip
    for at, (name, path) in enumerate(zip(names, paths, strict=True)):
        if name in names[:at]:
            message = f'two columns are called "{name}"'
            yield Fault(BAD_POINTS_FIELD, message, "give each a name of its own", path=path)
    for word in points.sound.no:
        if word in points.sound.yes:
            message = f'"{word}" means yes and no'
            yield Fault(BAD_POINTS_FIELD, message, "take it out of one of the two", path=("sound", "no"))


def _share(text: str) -> float | None:
    reading = read_quantity(text, BARE_UNIT)
    return None if isinstance(reading, str) else reading.base


def _proof(proof: Proof, reader: Reader, path: Path) -> tuple[tuple[Point, ...], list[Fault]]:
    if proof.points is None:
        message = "the proof gives no points"
        return (), [Fault(BAD_PROOF, message, "write them under points, as under start", path=path)]
    given, faults = _read(proof.points, reader, (*path, "points"))
    names = None if faults else [point.name for point in given]
    if isinstance(within := read_quantity(proof.deviations_within, reader.unit), str):
        message = f'"{proof.deviations_within}" cannot be used: {within}'
        do = f"write a number in {reader.unit.name}"
        faults.append(Fault(BAD_PROOF, message, do, path=(*path, "deviations_within")))
    for name, text in proof.deviations.items():
        if names is not None and name not in names:
            do = offer(name, names, "take it out")
            faults.append(Fault(BAD_PROOF, f'there is no point "{name}"', do, path=(*path, "deviations", name, KEY)))
        reading = read_quantity(text, reader.unit)
        if isinstance(reading, str):
            message = f'"{text}" cannot be used: {reading}'
            do = f"write a number in {reader.unit.name}"
            faults.append(Fault(BAD_PROOF, message, do, path=(*path, "deviations", name)))
    return given, faults


def _read(text: str, reader: Reader, path: Path) -> tuple[tuple[Point, ...], list[Fault]]:
    table = read_rows(text, reader)
    return table.points, [
        Fault(BAD_POINTS, fault.placed(), fault.do, path=path) for fault in table.faults
    ]  # fmt: skip
