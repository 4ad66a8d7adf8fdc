"""Calculators of the supplied library, worked out through the formula language as the command line does it."""

from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml
from pydantic import TypeAdapter

from builder.formula import Program, compile_calculator, run
from builder.model.records.calculator import Calculator
from builder.model.records.table import Table
from tests.outside.asking import Answer, Calc, Refused

CONTENT = Path(__file__).parents[2] / "content"


@pytest.fixture(scope="session")
def calc() -> Calc:
    """`calc(name, **inputs as text) -> Answer`."""
    return _calc


def _calc(name: str, **inputs: str) -> Answer:
    found = run(program(name), inputs)
    if found.faults:
        raise Refused("; ".join(fault.message for fault in found.faults))
    return Answer(
        {
            "outputs": {
                id_: {"value": result.value, "unit": result.unit} | ({} if result.why is None else {"why": result.why})
                for id_, result in found.outputs.items()
            },
            "warnings": [{"level": told.level, "say": told.say} for told in found.warnings if told.holds],
        }
    )


@cache
def program(name: str) -> Program:
    files = sorted((CONTENT / "tables").glob("*.yaml"))
    tables = {path.stem: TypeAdapter(Table).validate_python(_read(path)) for path in files}
    record = TypeAdapter(Calculator).validate_python(_read(CONTENT / "calculators" / f"{name}.yaml"))
    program, faults = compile_calculator(record, tables, name)
    assert program is not None, faults
    return program


def _read(path: Path) -> Any:
    return yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
