"""Calculators' questions and answers -> text and JSON for the command line."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import Any

from builder.formula import Answer, Program, run
from builder.formula.points.rows import columns_of
from builder.model.moments import by_moment
from builder.model.near import offer
from builder.model.records import Record
from builder.model.reference import Ref
from builder.model.standing import Standing, standing


def unknown(name: str, programs: Mapping[str, Program]) -> str:
    """Say that there is no such calculator, and which is near."""
    return f'there is no calculator "{name}"; {offer(name, programs, "seambook calc --list shows them all")}'


def ask(program: Program, given: Sequence[str]) -> Answer | str:
    """Work the calculator out; what is wrong with what was given comes back as text."""
    values = inputs_of(given)
    if isinstance(values, str):
        return values
    answer = run(program, values)
    return faults_text(answer) if answer.faults else answer


def inputs_of(given: Sequence[str]) -> dict[str, str] | str:
    """Take `input=value` apart; what is wrong with it comes back as text."""
    values: dict[str, str] = {}
    for text in given:
        name, sign, value = text.partition("=")
        if not sign:
            return f'"{text}" is no input; write {text}="value unit"'
        if name in values:
            return f'"{name}" is given twice; give it once'
        values[name] = value
    return values


def faults_text(answer: Answer) -> str:
    """Say what is wrong with the inputs."""
    return "; ".join(f"{fault.message}: {fault.do}" for fault in answer.faults)


def answer_json(program: Program, answer: Answer, rests: Standing) -> str:
    """Return the answer in the form other tools read."""
    return json.dumps(answer_data(program, answer, rests), ensure_ascii=False, indent=2)


def answer_data(program: Program, answer: Answer, rests: Standing) -> dict[str, Any]:
    """Return the answer as plain values."""
    return {
        "calculator": program.id,
        "inputs": {name: {"value": taken.value, "unit": taken.unit} for name, taken in answer.inputs.items()},
        "outputs": {
            name: {"value": result.value, "unit": result.unit, **({"why": result.why} if result.value is None else {})}
            for name, result in answer.outputs.items()
        },
        "warnings": [{"level": level, "say": say} for level, say in _warnings(answer)],
        "rests_on": {"sorts": list(rests.sorts), "say": rests.say or None},
    }  # fmt: skip


def answer_text(program: Program, answer: Answer, rests: Standing) -> str:
    """Return the answer for a person."""
    lines = [program.record.title, *([f"  {rests.say}"] if rests.say else [])]
    width = max(len(output.say) for output in program.record.outputs.values())
    for name, result in answer.outputs.items():
        say = program.record.outputs[name].say
        text = f"no answer: {result.why}" if result.value is None else f"{result.text} {result.unit}".rstrip()
        lines.append(f"  {say:<{width}}  {text}" + (f" ({result.because})" if result.because else ""))
    lines += [f"  {level.upper()}: {say}" for level, say in _warnings(answer)]
    return "\n".join(lines)


def _warnings(answer: Answer) -> list[tuple[str, str]]:
    """Return the warnings that hold, and those that cannot be judged, saying so."""
    return [
        (judged.level, judged.say if judged.holds else f"This cannot be judged ({judged.why}): {judged.say}")
        for judged in answer.warnings if judged.holds is not False
    ]  # fmt: skip


def list_text(programs: Mapping[str, Program], shelf: Mapping[Ref, Record]) -> str:
    """List the calculators by the moment of the job, with the question each answers."""
    names = living(programs)
    width = max((len(name) for name in names), default=0)
    moments = by_moment((Ref("calculator", name) for name in names), shelf)
    lines: list[str] = []
    for moment in moments:
        indent = "  " if moment.say else ""
        lines += [*([""] if lines else []), moment.say] if moment.say else []
        lines += [f"{indent}{ref.id:<{width}}  {programs[ref.id].record.asks}" for ref in moment.calculators]
    return "\n".join(lines)


def living(programs: Mapping[str, Program]) -> list[str]:
    """Return the calculators by today's names; old ones still find them."""
    return sorted(name for name, program in programs.items() if program.id == name)


def inputs_text(program: Program) -> str:
    """List one calculator's inputs and outputs."""
    lines = [f"{program.id}: {program.record.asks}", ""]
    for name, question in program.questions.items():
        optional = f"; {question.default} if absent" if question.default is not None else ""
        lines.append(f"  {name}: {question.ask} ({question.admits}{optional})")
    lines.append("")
    lines += [f"  -> {name}: {output.say}" + (f" ({output.unit})" if output.unit else "")
              for name, output in program.record.outputs.items()]  # fmt: skip
    return "\n".join(lines)


def list_json(programs: Mapping[str, Program], shelf: Mapping[Ref, Record]) -> str:
    """List the calculators with their inputs and outputs, for tools."""
    return json.dumps([
        {
            "calculator": name,
            "title": program.record.title,
            "asks": program.record.asks,
            "moment": program.record.moment,
            "rests_on": list(standing(program.record, shelf).sorts),
            "inputs": {
                key: {
                    "ask": question.ask, "unit": question.unit.name, "admits": question.admits,
                    "choices": sorted(question.choices), "default": question.default,
                }
                for key, question in program.questions.items()
            },
            "outputs": {
                key: {"say": output.say, "unit": output.unit or ""} for key, output in program.record.outputs.items()
            },
            **({"columns": columns_of(program.points.record)} if program.points is not None else {}),
        }
        for name in living(programs) for program in (programs[name],)
    ], ensure_ascii=False, indent=2)  # fmt: skip
