"""Steps of a calculator -> the unit each value is shown in, one that a reader understands.

`step_units` is the entry point. A step that is an output has the output's unit and digits. Any other takes the unit
of the first thing of its kind that it reads, else of the record's outputs, inputs and fixed values, else the one that
`units.yaml` names as usual, else base units written out. A number without a dimension stays bare: percent and
degrees are numbers too, and which of them is meant only an output can say.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from builder.formula.codes import UNIT_TWICE, UNKNOWN_UNIT
from builder.formula.compiling import Step
from builder.formula.dimension import NO_DIMENSION, TEMPERATURE, unit_text
from builder.formula.fault import Fault
from builder.formula.inputs import asked_unit
from builder.formula.kinds import NumberKind, kind_of_unit
from builder.formula.program import Program
from builder.formula.units import Unit, unit, unit_advice
from builder.model.expression import names_read
from builder.model.records.units import UnitSettings

FIGURES = 5
"""Significant figures of a value that is no output: enough to work the next step out by hand."""

Usual = Mapping[NumberKind, Unit]
"""The unit that a kind of number is shown in where a record has none of its kind."""
NOTHING_USUAL: Usual = {}


class StepUnit(NamedTuple):
    """How a step's number is shown."""

    unit: Unit
    digits: int | None = None
    """Decimal places, of an output; else as many as `FIGURES` need."""


def make_usual(settings: UnitSettings) -> tuple[dict[NumberKind, Unit], tuple[Fault, ...]]:
    """Return the usual units by what they measure, and the faults of the others."""
    found: dict[NumberKind, Unit] = {}
    faults: list[Fault] = []
    for at, name in enumerate(settings.usual):
        one = unit(name)
        if one is None:
            faults.append(Fault(UNKNOWN_UNIT, f'there is no unit "{name}"', unit_advice(name), path=("usual", at)))
        elif (kind := kind_of_unit(one)) in found:
            message = f"{found[kind].name} is the usual unit of what {name} measures"
            faults.append(Fault(UNIT_TWICE, message, "take one of the two out", path=("usual", at)))
        else:
            found[kind] = one
    return found, tuple(faults)


def step_units(program: Program, usual: Usual = NOTHING_USUAL) -> dict[str, StepUnit]:
    """Return the unit of each step that gives a number."""
    named = dict(_named(program))
    of_record: dict[NumberKind, Unit] = {}
    for one in _in_order(program, named):
        of_record.setdefault(kind_of_unit(one), one)
    found: dict[str, StepUnit] = {}
    for step in program.steps:
        kind = program.kinds[step.name]
        if not isinstance(kind, NumberKind):
            continue
        shown = program.outputs.get(step.name)
        if shown is not None:
            found[step.name] = StepUnit(shown.unit, shown.digits)
        else:
            found[step.name] = StepUnit(_unit(kind, step, named, of_record, usual))
        named[step.name] = found[step.name].unit
    return found


def _named(program: Program) -> Iterator[tuple[str, Unit]]:
    for name, question in program.questions.items():
        if isinstance(question.kind, NumberKind):
            yield name, question.unit
    for name, fixed in program.record.fixed.items():
        yield name, asked_unit(fixed.unit)


def _in_order(program: Program, named: Mapping[str, Unit]) -> Iterator[Unit]:
    yield from (shown.unit for shown in program.outputs.values() if isinstance(shown.kind, NumberKind))
    yield from named.values()


def _unit(
    kind: NumberKind, step: Step, named: Mapping[str, Unit], of_record: Mapping[NumberKind, Unit], usual: Usual
) -> Unit:
    if kind.dimension == NO_DIMENSION:
        return asked_unit(None)
    read = (named[one.name] for one in names_read(step.node) if one.name in named) if step.node else ()
    own = next((one for one in read if kind_of_unit(one) == kind), None)
    return own or of_record.get(kind) or usual.get(kind) or _base(kind)


def _base(kind: NumberKind) -> Unit:
    """Base units; a temperature's reading counts from the scale's own zero there."""
    name = "kelvin" if kind.dimension == TEMPERATURE else unit_text(kind.dimension)
    found = unit(name)
    assert found is not None, name
    return found
