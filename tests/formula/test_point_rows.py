"""Tables of points as text, read alike by Python and by the page; fixtures/point_tables.txt says what is read."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any, NamedTuple

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from builder import layers, pipeline
from builder.formula import Program, emit_calculator
from builder.formula.points.deviations import Point
from builder.formula.points.rows import read_rows
from tests.formula.node import ASSETS, SCRIPTS, run_node

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
FIXTURE = HERE / "fixtures" / "point_tables.txt"
SHOWN = (*SCRIPTS, ASSETS / "point_rows.js")
NAME = "datum-fit"
READ = f"""
const table = seambook.calculators["{NAME}"].points;
return GIVEN.map((text) => {{
  const found = seambook.pointRows.readRows(text, table);
  const again = seambook.pointRows.readRows(seambook.pointRows.writeRows(found.points, table), table);
  return {{...found, again: again.points}};
}});
"""


class Case(NamedTuple):
    """A table with what is read of it."""

    line: int
    title: str
    text: str
    points: list[str]
    faults: list[str]


def cases() -> list[Case]:
    found: list[Case] = []
    part = "head"
    for at, line in enumerate(FIXTURE.read_text("utf-8").splitlines(), 1):
        if line.startswith("## "):
            found.append(Case(at, line[3:], "", [], []))
            part = "text"
        elif line in ("=>", "=!"):
            part = line
        elif part == "text":
            text = line.replace("\\t", "\t").replace("\\ufeff", "\ufeff").replace("\\s", " ")
            found[-1] = found[-1]._replace(text=found[-1].text + text + "\n")
        elif line and part != "head":
            (found[-1].points if part == "=>" else found[-1].faults).append(line)
    assert len(found) >= 10
    return found


@pytest.fixture(scope="module")
def program() -> Program:
    programs: Mapping[str, Program] = pipeline.calculators(layers.choose(("supplied",), ROOT).layers)[0]
    return programs[NAME]


@pytest.fixture(scope="module")
def shown(program: Program) -> dict[str, dict[str, Any]]:
    """What the page's script reads of every table."""
    texts = [case.text for case in cases()]
    found = run_node(READ, SHOWN, f"{emit_calculator(program)}\nconst GIVEN = {json.dumps(texts)};")
    return dict(zip(texts, found, strict=True))


def told(name: str, numbers: list[float], sound: bool) -> str:
    return " ".join([name, *(f"{number:g}" for number in numbers), "yes" if sound else "no"])


@pytest.mark.parametrize("case", cases(), ids=lambda case: str(case.line))
def test_what_python_reads(program: Program, case: Case) -> None:
    assert program.points is not None
    table = read_rows(case.text, program.points.reader)
    assert [told(one.name, [*one.stated, *one.measured], one.sound) for one in table.points] == case.points
    assert [f"{one.line}|{one.column}|{one.message}|{one.do}" for one in table.faults] == case.faults


@pytest.mark.parametrize("case", cases(), ids=lambda case: str(case.line))
def test_what_the_page_reads(shown: dict[str, dict[str, Any]], case: Case) -> None:
    found = shown[case.text]
    assert [told(one["name"], one["stated"] + one["measured"], one["sound"]) for one in found["points"]] == case.points
    faults = [f"{one['line']:g}|{one['column']}|{one['message']}|{one['do']}" for one in found["faults"]]
    assert faults == case.faults
    assert found["again"] == found["points"], "what the page writes it reads back to the last bit"


numbers = st.floats(-1e6, 1e6).map(lambda value: value + 0.0)


@given(st.lists(st.tuples(*[numbers] * 6), min_size=1, max_size=6))
def test_numbers_are_read_to_the_last_bit(program: Program, rows: list[tuple[float, ...]]) -> None:
    assert program.points is not None
    head = "name;x;y;z;x_measured;y_measured;z_measured;use"
    lines = [";".join([f"P{at}", *(repr(value).replace(".", ",") for value in row), "yes"])
             for at, row in enumerate(rows)]  # fmt: skip
    table = read_rows("\n".join([head, *lines]), program.points.reader)
    assert table.faults == ()
    assert [(*one.stated, *one.measured) for one in table.points] == rows


def test_the_library_starts_with_tables_that_it_reads() -> None:
    programs = pipeline.calculators(layers.choose(("supplied",), ROOT).layers)[0]
    worked = {name: one for name, one in programs.items() if one.points is not None}
    assert sorted(worked) == ["datum-fit", "side-compare"]
    for name, one in worked.items():
        record = yaml.load((ROOT / "content/calculators" / f"{name}.yaml").read_text("utf-8"), yaml.CSafeLoader)
        assert one.points is not None
        assert len(one.points.start) == len(record["points"]["start"].strip().split("\n")) - 1
        assert all(isinstance(point, Point) for point in one.points.start)
