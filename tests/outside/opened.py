"""Calculators as the built book answers them: the page's own scripts in Chromium, asked as Python is."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser

from builder.formula import Program, offered_units
from builder.formula.inputs import answer
from tests.outside.asking import Answer, Refused

SCRIPTS = ("numbers", "working")
ASK = """([name, given]) => {
  const answer = seambook.formula.run(seambook.calculators[name], given);
  return {outputs: answer.outputs, warnings: answer.warnings, faults: answer.faults};
}"""


class Opened:
    """A page that holds the scripts of a built book and nothing else."""

    def __init__(self, chromium: Browser, site: Path, programs: Mapping[str, Program]) -> None:
        self.programs = programs
        paths = [site / "assets" / "js" / f"{name}.js" for name in SCRIPTS]
        paths += sorted((site / "assets" / "calc").glob("*.js"))
        tags = "".join(f'<script src="{path.as_uri()}"></script>' for path in paths)
        bench = site.parent / "asked.html"
        bench.write_text(f"<!DOCTYPE html><title>asked</title>{tags}", "utf-8")
        self.page = chromium.new_context(offline=True).new_page()
        self.page.goto(bench.as_uri())

    def calc(self, name: str, **inputs: str) -> Answer:
        """Ask a calculator; raise `Refused` with what stands beside the fields where the inputs are not admitted."""
        found = self.page.evaluate(ASK, [name, as_offered(self.programs[name], inputs)])
        if found["faults"]:
            raise Refused("; ".join(f"{fault['message']}: {fault['do']}" for fault in found["faults"].values()))
        return Answer({
            "outputs": {id_: _output(one) for id_, one in found["outputs"].items()},
            "warnings": [
                {"level": one["level"], "say": _said(one)} for one in found["warnings"] if one["holds"] is not False
            ],
        })  # fmt: skip


def as_offered(program: Program, given: Mapping[str, str]) -> dict[str, str]:
    """Inputs as a page takes them: those in a unit that it does not offer in the one it asks for."""
    found = {}
    for name, text in given.items():
        question = program.questions.get(name)
        found[name] = text
        if question is None or question.choices or " " not in text:
            continue
        offered = {unit.name for unit in offered_units(question.unit)}
        base = answer(question, text) if text.split(" ", 1)[-1] not in offered else None
        if isinstance(base, float):
            found[name] = repr(question.unit.from_base(base))
    return found


def _output(one: dict[str, Any]) -> dict[str, Any]:
    why = {"why": one["why"]} if one["value"] is None else {}
    return {"value": one["value"], "unit": one["unit"], **why}


def _said(one: dict[str, Any]) -> str:
    return str(one["say"] if one["holds"] else f"This cannot be judged ({one['why']}): {one['say']}")
