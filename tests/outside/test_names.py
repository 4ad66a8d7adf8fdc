"""The names by which other tools call the calculators: they stay, whatever else a record comes to hold."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest

from builder.formula import Program

ROWS = [
    [part.strip() for part in line.split("|")]
    for line in (Path(__file__).parent / "names.txt").read_text("utf-8").splitlines()
    if not line.startswith("#")
]


def names(text: str) -> list[str]:
    return [name.strip() for name in text.split(",") if name.strip()]


@pytest.mark.parametrize("row", ROWS, ids=[row[0] for row in ROWS])
def test_inputs_and_outputs(programs: Mapping[str, Program], row: list[str]) -> None:
    id_, required, optional, outputs, choices = row
    program = programs[id_]
    questions = program.questions
    if required:  # of the others only the outputs are agreed
        assert {name for name, asked in questions.items() if asked.default is None} == set(names(required))
    assert {name for name in names(optional) if questions[name].default is None} == set()
    assert set(names(outputs)) <= set(program.outputs)
    for choice in filter(None, choices.split(";")):
        name, _, ids = choice.partition(":")
        asked = questions[name.strip()]
        found = set(asked.choices) or {f"{asked.unit.from_base(value):g} {asked.unit.name}" for value in asked.one_of}
        assert set(names(ids)) <= found, name


def test_nothing_is_left_out() -> None:
    assert len(ROWS) == 56
