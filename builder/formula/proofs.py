"""Proofs: from the published examples of a record what is worked out again at every build."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from builder.formula.codes import BAD_PROOF, NO_PROOF
from builder.formula.fault import Fault
from builder.formula.inputs import Question, answer, read_quantity, read_tolerance
from builder.formula.kinds import ChoiceKind, TextKind
from builder.formula.numbers import to_float
from builder.formula.outputs import Shown
from builder.formula.units import Unit
from builder.model.near import offer
from builder.model.records.calculator import NO_ANSWER, Calculator, Proof
from builder.model.summary import KEY


class Expected(NamedTuple):
    """What one output must be."""

    value: float | str | None
    """In the output's unit, or an id; None where there must be no answer."""
    within: float
    """In the output's unit, of a temperature a difference."""


class CheckedProof(NamedTuple):
    """One example, ready to be worked out."""

    given: dict[str, str]
    values: dict[str, float | str]
    """What is given, in base units."""
    expected: dict[str, Expected]


def check_proofs(
    record: Calculator, questions: Mapping[str, Question], outputs: Mapping[str, Shown]
) -> tuple[tuple[CheckedProof, ...], tuple[Fault, ...]]:
    """Return the proofs that are well formed and the faults of the others."""
    faults: list[Fault] = []
    if not record.proofs:
        do = "add a published or measured example under proofs"
        faults.append(Fault(NO_PROOF, "no proof shows that this calculator is right", do, path=("proofs",)))
    made = []
    for number, proof in enumerate(record.proofs):
        values, wrong = _given(proof, record, questions)
        expected: dict[str, Expected] = {}
        for name, text in proof.expect.items():
            found = _expected(name, text, proof, record, outputs)
            if isinstance(found, Fault):
                wrong.append(found)
            elif found is not None:
                expected[name] = found
        wrong += _within_faults(proof)
        faults += [fault.under(("proofs", number)) for fault in wrong]
        made.append(CheckedProof(dict(proof.given), values, expected))
    return tuple(made), tuple(faults)


def _given(
    proof: Proof, record: Calculator, questions: Mapping[str, Question]
) -> tuple[dict[str, float | str], list[Fault]]:
    values: dict[str, float | str] = {}
    wrong = []
    for name, text in proof.given.items():
        if name not in record.inputs:
            do = offer(name, record.inputs, "take it out")
            wrong.append(Fault(BAD_PROOF, f'there is no input "{name}"', do, path=("given", name, KEY)))
        elif name in questions:
            value = answer(questions[name], text)
            if isinstance(value, Fault):
                wrong.append(Fault(BAD_PROOF, value.message, value.do, path=("given", name)))
            else:
                values[name] = value
    for name, question in questions.items():
        if question.default is None and name not in proof.given:
            message = f"the proof gives no {name}, which has no default"
            wrong.append(Fault(BAD_PROOF, message, f"give {name}", path=("given",)))
    if not proof.expect:
        wrong.append(Fault(BAD_PROOF, "the proof expects nothing", "write what the source prints", path=("expect",)))
    return values, wrong


def _within_faults(proof: Proof) -> Iterator[Fault]:
    for name in proof.within if isinstance(proof.within, dict) else ():
        if name not in proof.expect:
            do = offer(name, proof.expect, "take it out")
            yield Fault(BAD_PROOF, f'the proof expects no "{name}"', do, path=("within", name, KEY))


def _expected(
    name: str, text: str, proof: Proof, record: Calculator, outputs: Mapping[str, Shown]
) -> Expected | Fault | None:
    """Return what an output must be; None where the output itself is at fault."""
    if name not in outputs:
        if name in record.outputs:
            return None
        do = offer(name, record.outputs, "take it out, or make it an output")
        return Fault(BAD_PROOF, f'there is no output "{name}"', do, path=("expect", name, KEY))
    shown = outputs[name]
    if text == NO_ANSWER:
        return Expected(None, 0.0)
    if isinstance(shown.kind, TextKind):
        return Expected(text, 0.0)
    if isinstance(shown.kind, ChoiceKind):
        if text in shown.kind.ids:
            return Expected(text, 0.0)
        do = offer(text, shown.kind.ids, "write one of " + ", ".join(sorted(shown.kind.ids)))
        return Fault(BAD_PROOF, f'{name} is never "{text}"', do, path=("expect", name))
    reading = read_quantity(text, shown.unit)
    if isinstance(reading, str):
        message = f'"{text}" cannot be used: {reading}'
        return Fault(BAD_PROOF, message, "write a number with a unit of the output's kind", path=("expect", name))
    within = _within(name, proof, shown.unit)
    if isinstance(within, str):
        path = ("within", name) if isinstance(proof.within, dict) else ("within",)
        return Fault(BAD_PROOF, within, "write a bare number in the output's unit, or one for each output", path=path)
    return Expected(shown.unit.from_base(reading.base), within)


def _within(name: str, proof: Proof, own: Unit) -> float | str:
    """Return the tolerance in the output's unit; what is wrong with it where it cannot be used."""
    text = proof.within.get(name, "0") if isinstance(proof.within, dict) else proof.within
    reading = read_tolerance(text, name, own)
    return reading if isinstance(reading, str) else to_float(reading.own)
