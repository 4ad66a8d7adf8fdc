"""Sketches: from the sketch of a record which name gives each measure of its form; what does not fit is a fault."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from builder.formula.codes import BAD_SKETCH
from builder.formula.fault import Fault
from builder.formula.kinds import BARE, Kind, NumberKind, TruthKind, describe, kind_of_unit
from builder.formula.outputs import Shown
from builder.formula.units import dimension_of_example, unit
from builder.model.near import offer
from builder.model.plots import Said
from builder.model.records.calculator import Calculator, Sketch
from builder.model.summary import KEY

LENGTH = NumberKind(dimension_of_example("mm"))
ANGLE = kind_of_unit(unit("degree"))
ORDER = "order"


class Form(NamedTuple):
    """What a form of sketch is drawn from."""

    needs: Mapping[str, Kind]
    may: Mapping[str, Kind | None]
    """None stands for words: a decision or a choice."""


FORMS: Mapping[str, Form] = {
    "marks": Form({"count": BARE}, {"length": LENGTH, "first": LENGTH, "spacing": LENGTH, ORDER: None}),
    "bend": Form(
        {"angle": ANGLE, "radius": LENGTH, "thickness": LENGTH}, {"setback": LENGTH, "allowance": LENGTH}
    ),
    "channel": Form(
        {"base": LENGTH, "left": LENGTH, "right": LENGTH, "thickness": LENGTH}, {"radius": LENGTH, "blank": LENGTH}
    ),
    "opening": Form(
        {"width": LENGTH, "height": LENGTH, "lean": LENGTH}, {"rising": LENGTH, "falling": LENGTH}
    ),
}  # fmt: skip


class Sketched(NamedTuple):
    """One sketch, ready to be drawn."""

    form: str
    say: str
    given_by: Mapping[str, str]
    """The name that gives each measure."""
    said: Mapping[str, Said]


def check_sketch(
    record: Calculator, kinds: Mapping[str, Kind | None], outputs: Mapping[str, Shown]
) -> tuple[Sketched | None, tuple[Fault, ...]]:
    """Return the sketch where it can be drawn, and its faults."""
    sketch = record.sketch
    if sketch is None:
        return None, ()
    faults = tuple(fault.under(("sketch", "with")) for fault in _faults(sketch, record, kinds))
    if faults:
        return None, faults
    said = {measure: _said(name, record, kinds, outputs) for measure, name in sketch.with_.items()}
    return Sketched(sketch.form, sketch.say, sketch.with_, said), ()


def _said(
    name: str, record: Calculator, kinds: Mapping[str, Kind | None], outputs: Mapping[str, Shown]
) -> Said:
    """In its own unit; a formula that is shown nowhere in that of the first name that measures the same."""
    alike = [name, *(other for other in (*outputs, *record.inputs, *record.fixed) if kinds[other] == kinds[name])]
    for one in alike:
        if one in outputs:
            return Said(outputs[one].unit.name, outputs[one].digits)
        if one in record.inputs:
            return Said(record.inputs[one].unit or "", None)
        if one in record.fixed:
            return Said(record.fixed[one].unit or "", None)
    kind = kinds[name]
    return Said("mm" if kind == LENGTH else "degree" if kind == ANGLE else "", None)


def _faults(sketch: Sketch, record: Calculator, kinds: Mapping[str, Kind | None]) -> Iterator[Fault]:
    form = FORMS[sketch.form]
    known = {**form.needs, **form.may}
    for measure, name in sketch.with_.items():
        if measure not in known:
            do = offer(measure, known, "write " + ", ".join(known))
            yield Fault(BAD_SKETCH, f'the form {sketch.form} has no measure "{measure}"', do, path=(measure, KEY))
        elif name not in kinds:
            do = offer(name, kinds, "name an input, a fixed value or a formula")
            yield Fault(BAD_SKETCH, f'nothing is called "{name}"', do, path=(measure,))
        else:
            yield from _misfit(measure, name, known[measure], record, kinds[name])
    for measure in form.needs:
        if measure not in sketch.with_:
            message = f"the form {sketch.form} needs the measure {measure}"
            yield Fault(BAD_SKETCH, message, f"write {measure}: and what gives it")


def _misfit(measure: str, name: str, wanted: Kind | None, record: Calculator, kind: Kind | None) -> Iterator[Fault]:
    if kind is None:  # its own fault is told where it is written
        return
    if wanted is not None and kind != wanted:
        message = f"{name} is {describe(kind)}, {measure} is {describe(wanted)}"
        yield Fault(BAD_SKETCH, message, "name what measures that", path=(measure,))
    elif wanted is None and (isinstance(kind, NumberKind | TruthKind) or name not in record.outputs):
        message = f"{name} is no output in words"
        do = "name an output that is a decision or a choice, and says the order in numbers"
        yield Fault(BAD_SKETCH, message, do, path=(measure,))
