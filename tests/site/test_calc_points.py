"""`seambook calc NAME --csv FILE`: a table of points in, deviations out; a bad table ends with 2 and its place."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.site.building import ROOT, read_once, seambook_here

HEAD = "name, x, y, z, x_measured, y_measured, z_measured, use"
SET = f"""{HEAD}
A, 0, 0, 0, 0, 0, 0, yes
B, 1000, 0, 0, 1000, 0, 0, yes
C, 1000, 800, 0, 1000, 800, 0, yes
D, 0, 800, 0, 0, 800, 0, yes
E, 500, 400, 300, 500, 400, 300, yes
Far, 700, 700, 150, 703, 704, 150, no
"""


@pytest.fixture(scope="module", autouse=True)
def once() -> Iterator[None]:
    with read_once():
        yield


def asked(folder: Path, text: str | bytes, *words: str, name: str = "datum-fit") -> tuple[int, str, str]:
    data = text.encode() if isinstance(text, str) else text
    (folder / "points.csv").write_bytes(data)
    said = seambook_here("calc", name, "--csv", "points.csv", *words, folder=folder)
    return said.code, said.out, said.err


def test_the_form_of_an_answer(tmp_path: Path) -> None:
    code, out, err = asked(tmp_path, SET, "tolerance=2 mm", "--json")
    assert (code, err) == (0, "")
    answer = json.loads(out)
    assert list(answer) == ["calculator", "inputs", "outputs", "warnings", "rests_on", "points", "fit", "unit"]
    assert answer["inputs"] == {"tolerance": {"value": 2, "unit": "mm"}}
    assert answer["outputs"]["largest"] == {"value": pytest.approx(5), "unit": "mm"}  # 3, 4, 5
    far = answer["points"][-1]
    assert (far["name"], far["sound"], far["beyond"], far["verdict"]) == ("Far", False, True, "Beyond tolerance")
    assert [far[axis] for axis in ("x", "y", "z", "length")] == pytest.approx([3, 4, 0, 5], abs=1e-9)
    assert answer["points"][0]["alone"] == pytest.approx(0, abs=1e-9)
    assert answer["fit"]["shift"] == pytest.approx([0, 0, 0], abs=1e-9)
    assert answer["unit"] == "mm"


def test_the_answer_for_a_person(tmp_path: Path) -> None:
    code, out, err = asked(tmp_path, SET)
    assert (code, err) == (0, "")
    lines = out.splitlines()
    assert lines[0] == "Fit of measured points to the data"
    assert [line.split()[0] for line in lines[2:8]] == ["A", "B", "C", "D", "E", "Far"]
    assert "5.0  Beyond tolerance" in lines[7]
    assert any(line.split() == ["Largest", "deviation", "of", "all", "points", "5.0", "mm"] for line in lines)


@pytest.mark.parametrize("text", [
    "\ufeff" + SET,
    SET.replace(", ", ";"),
    SET.replace(", ", ";").replace("703", "703,0"),
    SET.replace(", ", "\t"),
    SET.replace("\n", "\r\n"),
    SET.replace("\n", "\n\n"),
    "\n".join(", ".join(reversed(line.split(", "))) for line in SET.splitlines()),
    SET.replace("x_measured, y_measured", "x_measured (cm), y_measured").replace("703", "70.3")
    .replace("1000, 0, 0, yes", "100, 0, 0, yes").replace("1000, 800, 0, yes", "100, 800, 0, yes")
    .replace("500, 400, 300, yes", "50, 400, 300, yes"),
])  # fmt: skip
def test_ways_to_write_a_table(tmp_path: Path, text: str) -> None:
    code, out, err = asked(tmp_path, text, "--json")
    assert (code, err) == (0, "")
    assert json.loads(out)["outputs"]["largest"]["value"] == pytest.approx(5)


def test_a_table_that_is_piped_in(tmp_path: Path) -> None:
    command = (sys.executable, "-m", "builder", "calc", "datum-fit", "--csv", "-", "--json", "--content", "supplied")
    run = subprocess.run(command, cwd=ROOT, input=SET, capture_output=True, text=True, check=True)
    assert json.loads(run.stdout)["outputs"]["largest"]["value"] == pytest.approx(5)


@pytest.mark.parametrize(("text", "said"), [
    (SET.replace(", use", ""), "points.csv: line 1, column use: there is no such column; write a first line with name"),
    (SET.replace("703", "7o3"), 'points.csv: line 7, column x_measured: "7o3" cannot be used'),
    (SET.replace("Far", "A"), 'points.csv: line 7, column name: "A" stands on line 2 already'),
    (SET.replace("150, no", "150"), "points.csv: line 7, column use: nothing is written here; write yes or no"),
    (HEAD + "\nA, 0, 0, 0, 0, 0, 0, yes\nB, 1, 0, 0, 1, 0, 0, yes\n", "points.csv: Fewer than three points"),
    (SET.replace("yes", "no"), "points.csv: Fewer than three points"),
    (HEAD + "".join(f"\nP{at}, {at}, {at}, 0, {at}, {at}, 0, yes" for at in range(5)), "points.csv: The points marked"),
    ("", "points.csv: there is nothing in the table; begin with a line: name, x"),
    (b"name\nS\xe4ule", "points.csv: line 2: this is not UTF-8"),
])  # fmt: skip
def test_what_cannot_be_used_ends_with_2_and_its_place(tmp_path: Path, text: str | bytes, said: str) -> None:
    code, out, err = asked(tmp_path, text)
    assert (code, out) == (2, "")
    assert said in err
    assert "Traceback" not in err


@pytest.mark.parametrize(("words", "said"), [
    (("calc", "datum-fit"), "add --csv FILE"),
    (("calc", "datum-fit", "--csv", "none.csv"), "none.csv cannot be read: No such file"),
    (("calc", "datum-fit", "--csv", "."), "cannot be read"),
    (("calc", "dew-point", "--csv", "points.csv"), "dew-point works on no table of points"),
    (("calc", "datum-fit", "--csv", "points.csv", "tolerance=2 kg"), "tolerance"),
    (("calc", "datum-fit", "--csv", "points.csv", "tolerances=2 mm"), "write tolerance, the nearest name"),
    (("calc", "datum-fit", "--csv", "points.csv", "2"), "is no input"),
])  # fmt: skip
def test_what_is_asked_wrongly(tmp_path: Path, words: tuple[str, ...], said: str) -> None:
    (tmp_path / "points.csv").write_text(SET, "utf-8")
    found = seambook_here(*words, folder=tmp_path)
    assert (found.code, found.out) == (2, "")
    assert said in found.err
    assert "Traceback" not in found.err


def test_the_list_says_the_columns(tmp_path: Path) -> None:
    listed = seambook_here("calc", "--list", folder=tmp_path).out
    assert {"datum-fit", "side-compare"} <= {line.split()[0] for line in listed.splitlines() if line.strip()}
    own = seambook_here("calc", "--list", "side-compare", folder=tmp_path).out
    for text in ("x, y, z: Sound side (mm)", "x_damaged, y_damaged, z_damaged: Damaged side (mm)", "(yes or no)"):
        assert text in own
    data = json.loads(seambook_here("calc", "--list", "side-compare", "--json", folder=tmp_path).out)
    assert list(data[0]["inputs"]) == ["tolerance"]
    assert data[0]["columns"] == ["name", "x", "y", "z", "x_damaged", "y_damaged", "z_damaged", "use"]
