"""`explain`, `check` and `--help`: what they say, and how long the check of the supplied library takes."""

from __future__ import annotations

import json
import os
import re
import resource
import subprocess
import sys
import time
from pathlib import Path

import pytest

from builder import pipeline
from tests.books.laying import TINY
from tests.site.building import ROOT, seambook, seambook_here, write
from tests.site.records import BROKEN, LAP

COMMANDS = ("make", "check", "calc", "explain", "start", "write", "confirm", "schema", "show")
WITHOUT_LAYERS = {"explain", "start"}


def test_a_code_is_explained_by_its_number_or_its_name(tmp_path: Path) -> None:
    by_number = seambook("explain", "l203", folder=tmp_path)
    assert by_number.code == 0
    assert by_number.out.startswith("L203 unknown_reference\n\n")
    assert seambook_here("explain", "unknown_reference", folder=tmp_path).out == by_number.out


def test_each_code_is_one_of_a_kind_and_explained() -> None:
    ids = [code.id for code in pipeline.CODES]
    names = [code.name for code in pipeline.CODES]
    assert len(set(ids)) == len(ids) > 30
    assert len(set(names)) == len(names)
    for code in pipeline.CODES:
        assert re.fullmatch(r"[A-Z]\d{3}", code.id), code.id
        assert re.fullmatch(r"[a-z]+(_[a-z]+)*", code.name), code.name
        assert len(code.explanation.split()) >= 8, code.id


def test_each_form_of_a_problem(tmp_path: Path) -> None:
    write(tmp_path / "mine", BROKEN)
    words = ("check", "--content", "mine", "--format")
    told = json.loads(seambook(*words, "json", folder=tmp_path).out)
    assert [(one["file"], one["line"], one["column"], one["level"]) for one in told] == [(f"mine/{LAP}", 4, 7, "error")]
    annotated = seambook_here(*words, "github", folder=tmp_path).out
    assert annotated.startswith(f"::error file=mine/{LAP},line=4,col=7,endColumn=14,title={told[0]['code']} ")
    assert len(annotated.splitlines()) == 1


def test_a_sound_book_says_so(tmp_path: Path) -> None:
    said = seambook_here("check", "--format", "json", "--content", str(TINY), folder=tmp_path)
    assert (said.code, json.loads(said.out)) == (0, [])
    assert list(tmp_path.iterdir()) == []


def test_help_names_every_command_and_option(tmp_path: Path) -> None:
    said = seambook("--help", folder=tmp_path)
    assert said.code == 0
    assert all(re.search(rf"^  {command}\s", said.out, re.MULTILINE) for command in COMMANDS)
    for command in COMMANDS:
        text = seambook_here(command, "--help", folder=tmp_path).out
        assert len(text.split()) > 20, command
        if command not in WITHOUT_LAYERS:
            assert "--content DIR" in text, command


def test_the_script_is_the_module(tmp_path: Path) -> None:
    script = Path(sys.executable).parent / "seambook"
    run = subprocess.run((script, "--version"), capture_output=True, text=True, cwd=tmp_path, check=True)
    assert run.stdout.split()[-1] == seambook("--version", folder=tmp_path).out.split()[-1]


@pytest.mark.alone
@pytest.mark.slow
def test_the_supplied_library_is_checked_as_fast_as_its_libraries_let(tmp_path: Path) -> None:
    # Processor time, so that whatever else this machine does is left out; with one process it is the time waited.
    taken = []
    for _ in range(3):
        started = time.monotonic()
        run = subprocess.Popen(
            (sys.executable, "-m", "builder", "check"), cwd=tmp_path, stderr=subprocess.PIPE,
            env={**os.environ, "PYTHONPATH": str(ROOT)},
        )  # fmt: skip
        assert run.stderr is not None
        with run.stderr:
            said = run.stderr.read()
        _, status, usage = os.wait4(run.pid, 0)
        run.returncode = os.waitstatus_to_exitcode(status)
        assert run.returncode == 0, said
        taken.append((usage.ru_utime + usage.ru_stime, time.monotonic() - started, 3 * libraries_alone()))
        if taken[-1][0] < max(1, taken[-1][-1]):
            return
    pytest.fail(f"{taken}: each processor time, time waited, and the most that would do")


def test_a_check_of_the_supplied_library_says_that_it_is_sound_and_never_waits_for_pint(tmp_path: Path) -> None:
    """Its units are among those of every day: a third of a second at each check."""
    looks = """import sys; from builder.cli import main
sys.argv[1:] = ["check"]
try: main()
finally: print("pint" in sys.modules)"""
    run = subprocess.run(
        (sys.executable, "-c", looks), cwd=tmp_path, env={**os.environ, "PYTHONPATH": str(ROOT)}, capture_output=True,
        text=True, check=True,
    )  # fmt: skip
    assert run.stdout.split()[-1] == "False"
    assert re.fullmatch(r"\d+ records, 0 errors, 0 warnings\n", run.stderr)
    assert list(tmp_path.iterdir()) == []


LIBRARIES_ALONE = """
import pathlib, sys
import click, markdown, pydantic, rich.console, yaml
for file in pathlib.Path(sys.argv[1]).rglob("*.yaml"):
    yaml.compose(file.read_text("utf-8"), yaml.CSafeLoader)
"""


def libraries_alone() -> float:
    """Processor time that the libraries of a check take to be imported and to read the same records.

    Machines differ by more than twice, and the library has grown fourfold since a second was asked of it.
    """
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run((sys.executable, "-c", LIBRARIES_ALONE, str(ROOT / "content")), check=True)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
