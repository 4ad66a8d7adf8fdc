"""What anybody may write, spoiled by chance: it is taken, or refused with a place; soon, and in less than 500 MB.

`make test` replays what once failed and spoils the seeds for a moment, always in the same way; `make soak` goes on for
ten minutes, led by atheris where it can be had: by what lines of the builder an input reaches.
"""

from __future__ import annotations

import importlib.util
import json
import subprocess
import sys
from pathlib import Path

import pytest

from builder.model.place import Span
from builder.model.problem import Problem
from builder.read import CODES
from tests.hostile.fuzzing.__main__ import Count
from tests.hostile.fuzzing.targets import TARGETS, require_placed

ROOT = Path(__file__).parents[2]
FAILED = Path(__file__).with_name("failed")
"""Inputs that failed once; the folder of each target holds its own."""
ROUNDS = {"reading": 100, "book": 10, "formulas": 400, "prose": 60, "pictures": 40}
SECONDS = {"reading": 120, "book": 240, "formulas": 75, "prose": 75, "pictures": 90}
"""Ten minutes."""


def run(target: str, *order: str, found: Path, seconds: int) -> dict[str, object]:
    """Run one target in a process of its own, whose memory is bounded; return what it says."""
    command = (sys.executable, "-m", "tests.hostile.fuzzing", target, "--found", str(found), *order)
    done = subprocess.run(command, cwd=ROOT, stdin=subprocess.DEVNULL, capture_output=True, text=True, check=False,
                          timeout=seconds)  # fmt: skip
    assert done.stdout, done.stderr[-2000:]
    said: dict[str, object] = json.loads(done.stdout.splitlines()[-1])
    traces = "\n".join(path.read_text("utf-8")[-1500:] for path in sorted(found.glob("*.txt")))
    assert said["found"] == {}, traces
    assert done.returncode == 0, done.stderr[-2000:]
    return said


def test_every_target_has_its_share() -> None:
    assert set(TARGETS) == set(ROUNDS) == set(SECONDS)
    assert sum(SECONDS.values()) == 600
    assert {path.name for path in FAILED.iterdir()} <= set(TARGETS)


@pytest.mark.slow
@pytest.mark.parametrize("target", sorted(TARGETS))
def test_spoiled_input_is_taken_or_refused_with_a_place(target: str, tmp_path: Path) -> None:
    said = run(target, "--rounds", str(ROUNDS[target]), found=tmp_path, seconds=120)
    assert isinstance(said["executions"], int)
    assert isinstance(said["accepted"], int)
    assert said["executions"] > ROUNDS[target]
    assert said["accepted"] > 20  # some of it is still sound, so what comes behind reading is reached, too


@pytest.mark.parametrize("path", sorted(FAILED.glob("*/*")), ids=lambda path: f"{path.parent.name}-{path.name}")
def test_what_failed_once_fails_no_more(path: Path, tmp_path: Path) -> None:
    TARGETS[path.parent.name].open(tmp_path)(path.read_bytes())


@pytest.mark.soak
@pytest.mark.timeout(900)
@pytest.mark.parametrize("target", sorted(TARGETS))
def test_ten_minutes_led_by_what_is_reached(target: str, tmp_path: Path) -> None:
    guided = ("--guided",) if importlib.util.find_spec("atheris") else ()
    said = run(target, *guided, "--seconds", str(SECONDS[target]), found=tmp_path, seconds=SECONDS[target] + 300)
    print("led by what is reached" if guided else "by chance alone: atheris is not there", said)


def test_a_target_that_fails_is_told(tmp_path: Path) -> None:
    def deed(data: bytes) -> bool:
        raise ValueError(data)

    count = Count("reading", tmp_path)
    assert not count.run(deed, b"x")
    assert not count.run(deed, b"y")
    assert len(count.found) == 1  # one trace is one find
    assert len(list(tmp_path.glob("reading-*.txt"))) == 1


@pytest.mark.parametrize("span", [Span("x.yaml", 3, 1, 2), Span("x.yaml", 1, 9, 10), Span("x.yaml", 0, 1, 2)])
def test_a_problem_beside_its_file_is_told(span: Span) -> None:
    with pytest.raises(AssertionError):
        require_placed((Problem(CODES[0], span, "said", "do"),), "x.yaml", b"a: b\n")
    require_placed((Problem(CODES[0], Span("x.yaml", 2, 1, 2), "said", "do"),), "x.yaml", b"a: b\n")
