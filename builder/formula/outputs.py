"""Outputs: from the outputs of a record what is shown, each with its unit; those that fit no formula are faults."""

from __future__ import annotations

from collections.abc import Mapping, Set
from typing import NamedTuple

from builder.formula.codes import BAD_OUTPUT, UNKNOWN_UNIT
from builder.formula.fault import Fault
from builder.formula.inputs import asked_unit
from builder.formula.kinds import BARE, ChoiceKind, Kind, NumberKind, TextKind, TruthKind, describe, kind_of_unit
from builder.formula.numbers import plain, read_number
from builder.formula.units import Unit, unit, unit_advice
from builder.model.near import offer
from builder.model.records.calculator import Calculator, Output
from builder.model.summary import KEY

MOST_DIGITS = 12


class Shown(NamedTuple):
    """One output, ready to be shown."""

    say: str
    kind: Kind
    unit: Unit
    digits: int
    labels: dict[str, str]
    """What is shown for an id, or for a number that tells a word; a decision's rows say it themselves."""


def check_outputs(
    record: Calculator, kinds: Mapping[str, Kind | None], decisions: Set[str]
) -> tuple[dict[str, Shown], tuple[Fault, ...]]:
    """Return the outputs that can be shown and the faults of the others."""
    shown: dict[str, Shown] = {}
    faults: list[Fault] = []
    if not record.outputs:
        faults.append(Fault(BAD_OUTPUT, "the calculator has no outputs", "write them", path=("outputs",)))
    for name, output in record.outputs.items():
        if name not in kinds:
            do = offer(name, [*record.work, *record.decide], "name a formula or a decision")
            faults.append(Fault(BAD_OUTPUT, f'nothing works out "{name}"', do, path=("outputs", name)))
            continue
        kind = kinds[name]
        fault = _misfit(output, kind)
        if fault is not None:
            faults.append(fault.under(("outputs", name)))
        elif kind is not None:
            labels = _labels(record) if isinstance(kind, ChoiceKind) and name not in decisions else dict(output.tells)
            shown[name] = Shown(output.say, kind, asked_unit(output.unit), output.digits, labels)
    return shown, tuple(faults)


def _misfit(output: Output, kind: Kind | None) -> Fault | None:
    own = unit(output.unit) if output.unit is not None else None
    if output.unit is not None and own is None:
        message = f'there is no unit "{output.unit}"'
        return Fault(UNKNOWN_UNIT, message, unit_advice(output.unit), path=("unit",))
    if not 0 <= output.digits <= MOST_DIGITS:
        message = f"{output.digits} decimal places cannot be shown"
        return Fault(BAD_OUTPUT, message, f"write 0 to {MOST_DIGITS}", path=("digits",))
    if isinstance(kind, TruthKind):
        return Fault(BAD_OUTPUT, "a condition is no answer", "write 1 if ... else 0 in its formula")
    if isinstance(kind, ChoiceKind | TextKind) and own is not None:
        what = "a choice" if isinstance(kind, ChoiceKind) else "a text"
        return Fault(BAD_OUTPUT, f"{what} has no unit", "take the unit out", path=("unit",))
    if output.tells and kind is not None and (kind != BARE or output.unit is not None):
        return Fault(BAD_OUTPUT, "only a bare number tells words", "take tells out", path=("tells",))
    for number in output.tells:
        if isinstance(read_number(number), str) or plain(float(number)) != number:
            message = f'"{number}" is no number as it would be shown'
            return Fault(BAD_OUTPUT, message, "write a number such as 1 or 0", path=("tells", number, KEY))
    if isinstance(kind, NumberKind) and kind != kind_of_unit(own):
        where = ("unit",) if own is not None else ()
        message = f"the formula gives {describe(kind)}, the output shows {describe(kind_of_unit(own))}"
        return Fault(BAD_OUTPUT, message, "correct the unit or the formula", path=where)
    return None


def _labels(record: Calculator) -> dict[str, str]:
    """Return the labels of all choices; an id has one meaning within a calculator."""
    return {id_: label for asked in record.inputs.values() for id_, label in (asked.choose or {}).items()}
