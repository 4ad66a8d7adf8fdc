"""What is no ordinary file, wherever a layer has one: the commands tell it, wait for nobody and fill no memory."""

from __future__ import annotations

import os
import resource
import shutil
import socket
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.books.laying import TINY

ROOT = Path(__file__).parents[2]
MOST = 500 * 1024 * 1024


def _socket(path: Path) -> None:
    with socket.socket(socket.AF_UNIX) as one:
        here = Path.cwd()
        os.chdir(path.parent)  # the name of a socket has at most 107 characters
        try:
            one.bind(path.name)
        finally:
            os.chdir(here)


def _device(path: Path) -> None:
    try:
        os.mknod(path, 0o20666, os.makedev(1, 5))  # as /dev/zero is
        with path.open("rb"):
            pass
    except PermissionError:
        pytest.skip("only root makes devices, and not everywhere")


MAKERS: dict[str, Callable[[Path], None]] = {
    "a pipe": os.mkfifo, "a socket": _socket, "a device": _device,
    "a link to one": lambda path: path.symlink_to("/dev/zero"),
}  # fmt: skip
NAMES = ("terms/lap.yaml", "pages/reading.md", "figures/bead-end.svg", "book.yaml", "training.yaml")


@pytest.mark.slow
@pytest.mark.sweep(10)
@pytest.mark.parametrize("kind", MAKERS)
@pytest.mark.parametrize("name", NAMES)
def test_no_command_waits_for_what_is_no_file_or_reads_it_to_its_end(tmp_path: Path, name: str, kind: str) -> None:
    shutil.copytree(TINY, tmp_path / "own")
    path = tmp_path / "own" / name
    path.unlink()
    MAKERS[kind](path)
    run = subprocess.run(
        (sys.executable, "-m", "builder", "make", "--content", "own"), cwd=tmp_path, stdin=subprocess.DEVNULL,
        env={**os.environ, "PYTHONPATH": str(ROOT)}, capture_output=True, text=True, timeout=60, check=False,
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_DATA, (MOST, MOST)),
    )  # fmt: skip
    assert run.returncode == 1, run.stderr
    assert "Traceback" not in run.stderr + run.stdout
    lines = (run.stdout + run.stderr).splitlines()
    said = [line for line in lines if line.startswith(f"own/{name}:1:1: error: ")]
    if not said:  # a picture is told at the record that shows it
        said = [line for line in lines if line.startswith("own/figures/bead-end.yaml:")]
    assert len(said) == 1, run.stdout + run.stderr
    assert not (tmp_path / "site").exists()
