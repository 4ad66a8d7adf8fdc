"""`seambook calc`: the form its answers have for other tools, and that it needs no more of a book than it reads."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.site.building import read_once, seambook_here, write
from tests.site.records import BROKEN

DEW_POINT = ("calc", "dew-point", "air=20 degC", "humidity=60 percent", "surface=18 degC")


@pytest.fixture(scope="module", autouse=True)
def once() -> Iterator[None]:
    with read_once():
        yield


def asked(*words: str, folder: Path) -> Any:
    said = seambook_here(*words, "--json", folder=folder)
    assert said.code == 0, said.err
    assert said.err == ""
    return json.loads(said.out)


def test_the_form_of_an_answer(tmp_path: Path) -> None:
    answer = asked(*DEW_POINT, folder=tmp_path)
    assert list(answer) == ["calculator", "inputs", "outputs", "warnings", "rests_on"]
    assert answer["calculator"] == "dew-point"
    assert answer["inputs"] == {
        "air": {"value": 20, "unit": "degC"},
        "humidity": {"value": 60, "unit": "percent"},
        "surface": {"value": 18, "unit": "degC"},
    }
    assert {name: sorted(output) for name, output in answer["outputs"].items()} == {
        name: ["unit", "value"] for name in ("dew_point", "margin", "least_surface", "advice")
    }
    # PsychroLib 2.5.0 gives 12.01 degC (GetTDewPointFromRelHum); the form used differs by at most 0.033 there.
    assert answer["outputs"]["dew_point"]["value"] == pytest.approx(12.01, abs=0.05)
    assert answer["outputs"]["dew_point"]["unit"] == "degC"
    assert answer["outputs"]["advice"] == {"value": "coat", "unit": ""}
    assert answer["warnings"] == []


def test_inputs_come_back_in_the_calculator_s_own_unit(tmp_path: Path) -> None:
    answer = asked("calc", "dew-point", "air=68 degF", "humidity=60", "surface=64.4 degF", folder=tmp_path)
    assert answer["inputs"]["air"]["unit"] == "degC"
    assert answer["inputs"]["air"]["value"] == pytest.approx(20, abs=1e-12)
    assert answer["outputs"]["dew_point"]["value"] == pytest.approx(12.01, abs=0.05)


def test_a_warning_that_holds_is_told_with_its_level(tmp_path: Path) -> None:
    answer = asked("calc", "dew-point", "air=30 degC", "humidity=90", "surface=22.5", folder=tmp_path)
    assert [sorted(warning) for warning in answer["warnings"]] == [["level", "say"]] * len(answer["warnings"])
    assert [warning["level"] for warning in answer["warnings"]] == ["stop", "care"]
    assert all(warning["say"].endswith(".") for warning in answer["warnings"])


def test_outside_a_table_there_is_no_value_but_a_reason(tmp_path: Path) -> None:
    # 28 is no row of the statute's table as it was read, see tests/outside/test_usc_15_206.py.
    answer = asked("calc", "sheet-gauge", "gauge=28", "series=us-statute", folder=tmp_path)
    assert answer["outputs"]["thickness"]["value"] is None
    assert answer["outputs"]["thickness"]["unit"] == "mm"
    assert "outside the table" in answer["outputs"]["thickness"]["why"]
    text = seambook_here("calc", "sheet-gauge", "gauge=28", "series=us-statute", folder=tmp_path)
    assert text.code == 0
    assert "no answer: outside the table" in text.out


def test_a_book_with_mistakes_elsewhere_still_computes(tmp_path: Path) -> None:
    broken = {**BROKEN, "panels/nothing.yaml": "title: [", "nonsense/x.yaml": "a: b\n", "seams/x.yaml": "a: b\n"}
    write(tmp_path / "mine", broken)
    layers = ("--content", "supplied", "--content", "mine")
    assert seambook_here("check", *layers, folder=tmp_path).code == 1
    assert asked(*DEW_POINT, *layers, folder=tmp_path) == asked(*DEW_POINT, folder=tmp_path)


def test_another_calculator_with_mistakes_does_not_stand_in_the_way(tmp_path: Path) -> None:
    write(tmp_path / "mine", {"calculators/bend.yaml": "title: Bend\nasks: How long?\nwork: {x: 1 +}\n"})
    layers = ("--content", "supplied", "--content", "mine")
    assert asked(*DEW_POINT, *layers, folder=tmp_path)["outputs"]["advice"]["value"] == "coat"
    said = seambook_here("calc", "bend", *layers, folder=tmp_path)
    assert said.code == 1
    assert "mine/calculators/bend.yaml:" in said.err


def test_the_list_names_every_calculator_and_its_inputs(tmp_path: Path) -> None:
    listed = asked("calc", "--list", folder=tmp_path)
    names = [one["calculator"] for one in listed]
    assert names == sorted(names)
    wanted = {"dew-point", "sheet-gauge", "bend", "spot-layout", "bead", "coverage", "ram-force", "noise-dose"}
    assert wanted <= set(names)
    text = seambook_here("calc", "--list", folder=tmp_path).out
    firsts = [line.split()[0] for line in text.splitlines() if line]
    assert sorted(one for one in firsts if one in names) == names
    dew_point = listed[names.index("dew-point")]
    assert dew_point["inputs"]["air"]["unit"] == "degC"
    assert seambook_here("calc", "dew-point", "--list", folder=tmp_path).code == 0
