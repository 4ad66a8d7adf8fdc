"""A record -> its values, limits and rules, each with the source that it rests on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from builder.model.quantity import Quantity
from builder.model.records import Record
from builder.model.records.body import Opening, Panel
from builder.model.records.calculator import Calculator, Fixed, Proof
from builder.model.records.decision import Decision
from builder.model.records.law import Method, Rule
from builder.model.records.procedure import Measure, Procedure
from builder.model.records.supporting import Hazard, Scale, Supply, Tool
from builder.model.records.table import Table
from builder.model.records.vehicle import Vehicle
from builder.model.rests import Rest

ONE, SPREAD = "{}", "{} \u00b1 {}"


def rests_of(record: Record) -> Iterator[Rest]:
    """Return them in the order of the record."""
    match record:
        case Procedure():
            for phase in record.phases:
                for step in phase.steps:
                    yield from (_measure(measure, step.key) for measure in step.measure)
        case Calculator():
            yield from _fixed(record.fixed, "fixed")
            if record.points is not None:
                least = record.points.least_breadth
                yield Rest(least.source, "least_breadth", ONE, (Quantity(least.value, ""),), "fixed")
            yield from (_proof(record, proof) for proof in record.proofs)
        case Table():
            yield from _table(record)
        case Supply():
            yield from _facts(record)
            yield from _bought(record)
        case Tool():
            yield from _facts(record)
            if record.calibrated is not None:
                yield Rest(record.calibrated.source, "Calibrated every", ONE, (record.calibrated.every,), "calibrated")
        case Opening():
            yield from _opening(record)
        case _:
            yield from _said(record)


def _facts(record: Supply | Tool) -> Iterator[Rest]:
    yield from (Rest(fact.source, fact.say, ONE, (fact.value,), "facts") for fact in record.facts)


def _bought(supply: Supply) -> Iterator[Rest]:
    """How it is bought and used up, for the sums of a job."""
    if supply.pack is not None:
        yield Rest(supply.pack.source, supply.pack.say, ONE, (supply.pack.size,), "bought")
    if supply.waste is not None:
        yield Rest(supply.waste.source, "Waste", ONE, (Quantity(f"{supply.waste.part:g}", "percent"),), "bought")
    for usage in supply.used:
        if usage.each is not None and usage.source is not None:
            yield Rest(usage.source, f"Each {usage.per}", ONE, (usage.each,), "bought")
        if usage.by is not None:
            yield from _fixed(usage.by.fixed, "bought")


def _said(record: Record) -> Iterator[Rest]:
    """What rests on a source in words."""
    match record:
        case Method():
            yield from _fixed(record.mark.fixed if record.mark else {}, "")
            yield from _fixed(record.fixed, "fixed")
            yield from (Rest(limit.source, "Limit", limit.say, (), "limits") for limit in record.limits)
        case Rule():
            yield Rest(record.source, "Rule", record.because)
        case Decision():
            yield Rest(record.source, "Decision", record.outranks, (), "outranks")
        case Hazard():
            yield Rest(record.source, "Danger", record.danger)
        case Panel():
            yield from (Rest(zone.source, "May be cut and joined", zone.where, (), "sections")
                        for zone in record.may_section)  # fmt: skip
            if record.face is not None:
                yield Rest(record.face.source, "One face", ONE, (record.face.area,))
        case Vehicle():
            yield from (Rest(one.source, "Differs", one.is_) for one in record.differs)
        case Scale():
            yield from (Rest(word.source, word.say, word.means or word.say, (), "words")
                        for word in record.words.values() if word.source)  # fmt: skip


def _fixed(fixed: Mapping[str, Fixed], anchor: str) -> Iterator[Rest]:
    for name, one in fixed.items():
        yield Rest(one.source, name, ONE, (Quantity(one.value, one.unit or ""),), anchor)


def _proof(calculator: Calculator, proof: Proof) -> Rest:
    said = ", ".join(
        f"{calculator.outputs[name].say if name in calculator.outputs else name} {text}"
        for name, text in proof.expect.items()
    )  # fmt: skip
    return Rest(proof.source, "Proof", said, (), "proofs")


def _table(table: Table) -> Iterator[Rest]:
    """A table rests on its sources, except for the columns that name one of their own."""
    count = f"{len(table.rows)} row{'s' * (len(table.rows) != 1)}"
    for name in table.sources:
        yield Rest(name, table.title, count, (), "table")
    for column in table.columns.values():
        if column.source:
            yield Rest(column.source, column.say, count, (), "table")


def _opening(opening: Opening) -> Iterator[Rest]:
    for check in opening.checks:
        sizes = (check.size, check.tolerance) if check.size else ()
        yield Rest(check.source, check.name, SPREAD if sizes else "unknown", sizes, "checks")
    for station in opening.stations:
        yield Rest(station.source, station.name, SPREAD, (station.gap, station.tolerance), "stations")


def _measure(measure: Measure, step: str) -> Rest:
    low, high = measure.low, measure.high
    if low is not None and high is not None:
        return Rest(measure.source, measure.name, "{} to {}", (low, high), step)
    if low is not None:
        return Rest(measure.source, measure.name, "{} or more", (low,), step)
    if high is not None:
        return Rest(measure.source, measure.name, "{} or less", (high,), step)
    return Rest(measure.source, measure.name, "read and recorded", (), step)
