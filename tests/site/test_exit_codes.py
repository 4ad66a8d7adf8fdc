"""Each exit code, and what is said and left on disk with it (DESIGN, section 4)."""

from __future__ import annotations

import errno
import gc
import os
import pty
import re
import select
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from builder import cli, drawing, passes, publish
from tests.books.laying import TINY
from tests.site.building import ROOT, files_of, seambook, seambook_here, write
from tests.site.records import BROKEN, LAP, MOVED, OUR_LAP

COLOUR = re.compile(r"\x1b\[[\d;]*\b(?:3[0-8]|4[0-8]|9[0-7]|10[0-7])\b[\d;]*m")


@pytest.fixture
def layer(tmp_path: Path) -> Path:
    return write(tmp_path / "mine", OUR_LAP)


def test_0_all_is_well(tmp_path: Path, layer: Path) -> None:
    said = seambook("make", "--content", "mine", folder=tmp_path)
    assert said.code == 0
    assert said.out == f"Open {(tmp_path / 'site/index.html').as_uri()}\n"
    assert seambook_here("check", "--content", "mine", folder=tmp_path).code == 0


def test_1_a_mistake_keeps_the_old_book(tmp_path: Path, layer: Path) -> None:
    assert seambook_here("make", "--content", "mine", folder=tmp_path).code == 0
    before = files_of(tmp_path / "site")
    write(layer, BROKEN)
    said = seambook("make", "--content", "mine", folder=tmp_path)
    assert said.code == 1
    assert said.out == ""
    place, line, mark, do = said.err.splitlines()[:4]
    assert re.fullmatch(rf"mine/{LAP}:4:7: error: .*\bnowhere\b.* \([A-Z]\d\d\d\)", place)
    assert line.endswith("  see: [nowhere]")
    assert mark.strip() == "<----->"
    assert mark.index("<") == line.index("nowhere")
    assert re.match(r"    do    \S", do)
    assert files_of(tmp_path / "site") == before


def test_1_warnings_count_under_strict_only(tmp_path: Path, layer: Path) -> None:
    write(layer, MOVED)
    for command in ("check", "make"):
        eased = seambook_here(command, "--content", "mine", folder=tmp_path)
        assert (eased.code, "warning: " in eased.err) == (0, True), eased.err
        words = (command, "--content", "mine", "--strict", *(("--out", "other") if command == "make" else ()))
        strict = seambook_here(*words, folder=tmp_path)
        assert (strict.code, "warning: " in strict.err) == (1, True), strict.err
    assert (tmp_path / "site/index.html").is_file()
    assert not (tmp_path / "other").exists()


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("frobnicate",), "frobnicate"),
        (("make", "--frobnicate"), "--frobnicate"),
        (("make", "--processes", "none"), "none"),
        (("check", "--format", "poem"), "poem"),
        (("explain", "X999"), "X999"),
        (("calc", "dew-pint", "--content", "supplied"), "dew-point"),
        (("calc", "dew-point", "air=warm", "humidity=60", "surface=18"), "warm"),
        (("calc", "dew-point", "air=20", "humidity=60"), "surface"),
        (("calc", "dew-point", "air=20", "air=21"), "twice"),
    ],
    ids=" ".join,
)
def test_2_wrong_words(tmp_path: Path, words: tuple[str, ...], told: str) -> None:
    said = seambook_here(*words, folder=tmp_path) if len(words) > 1 else seambook(*words, folder=tmp_path)
    assert said.code == 2
    assert said.out == ""
    assert told in said.err
    assert "Traceback" not in said.err


def test_3_a_layer_that_is_not_there(tmp_path: Path) -> None:
    for words in (("make",), ("check",), ("calc", "dew-point")):
        run = seambook if words == ("make",) else seambook_here
        said = run(*words, "--content", "nowhere", folder=tmp_path)
        assert said.code == 3
        assert "nowhere" in said.err
        assert "    do    " in said.err


def test_3_a_target_that_is_not_ours(tmp_path: Path, layer: Path) -> None:
    write(tmp_path / "site", {"thesis.txt": "ten years of work"})
    said = seambook_here("make", "--content", "mine", folder=tmp_path)
    assert said.code == 3
    assert "thesis.txt" in said.err
    assert files_of(tmp_path / "site") == {"thesis.txt": b"ten years of work"}


@pytest.fixture
def collector() -> Iterator[None]:
    """`main` switches the cycle collector off, for good: it ends the process."""
    yield
    gc.enable()


@pytest.mark.usefixtures("collector")
@pytest.mark.parametrize("processes", ["1", "2"])
@pytest.mark.parametrize(("stage", "name"), [("view", "view"), ("read", "read_at_once"), ("work_stage", "work")])
def test_4_a_fault_names_the_record_in_hand(
    tmp_path: Path, layer: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str],
    processes: str, stage: str, name: str,
) -> None:  # fmt: skip
    def stumble(*_given: object) -> object:
        raise ZeroDivisionError("stumbled on purpose")

    monkeypatch.setattr(getattr(drawing if stage == "view" else passes, stage), name, stumble)
    monkeypatch.setattr(sys, "argv", ["seambook", "make", "--content", "mine", "--processes", processes])
    monkeypatch.chdir(tmp_path)
    with pytest.raises(SystemExit) as ended:
        cli.main()
    assert ended.value.code == 4
    said = capsys.readouterr()
    assert "term:lap" in said.err.splitlines()[-1]
    assert "stumbled on purpose" in said.err
    assert not (tmp_path / "site").exists()


@pytest.mark.usefixtures("collector")
@pytest.mark.parametrize("processes", ["1", "2"])
def test_3_a_disk_that_is_full_while_pages_are_drawn(
    tmp_path: Path, layer: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], processes: str
) -> None:
    def refuse(path: Path) -> int:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), str(path))

    monkeypatch.setattr(publish.disk, "create", refuse)
    monkeypatch.setattr(sys, "argv", ["seambook", "make", "--content", "mine", "--processes", processes])
    monkeypatch.chdir(tmp_path)
    with pytest.raises(SystemExit) as ended:
        cli.main()
    assert ended.value.code == 3
    said = capsys.readouterr().err
    assert "No space left on device" in said
    assert "    do    free some space on this disk and build again" in said
    assert "Traceback" not in said
    assert not (tmp_path / "site").exists()


def test_where_nobody_watches_lines_are_plain(tmp_path: Path, layer: Path) -> None:
    forced = {"TERM": "xterm-256color", "COLUMNS": "80", "FORCE_COLOR": "", "CI": "1"}
    for text in (OUR_LAP, BROKEN):
        write(layer, text)
        said = seambook("make", "--content", "mine", "--times", folder=tmp_path, told=forced)
        for stream in (said.out, said.err):
            assert not [character for character in stream if ord(character) < 32 and character != "\n"]


def on_terminal(folder: Path, told: dict[str, str]) -> str:
    """What `make` writes to a terminal."""
    ours, theirs = pty.openpty()
    environment = {key: value for key, value in os.environ.items() if key not in ("NO_COLOR", "FORCE_COLOR")}
    run = subprocess.Popen(
        (sys.executable, "-m", "builder", "make", "--anew", "--content", str(TINY)),
        cwd=folder, stdin=theirs, stdout=theirs, stderr=theirs,
        env={**environment, "PYTHONPATH": str(ROOT), "TERM": "xterm-256color", **told},
    )  # fmt: skip
    os.close(theirs)
    said = bytearray()
    while True:
        ready, _, _ = select.select([ours], [], [], 60)
        try:
            found = os.read(ours, 65536) if ready else b""
        except OSError:  # the other end is closed
            found = b""
        if not found:
            break
        said += found
    os.close(ours)
    assert run.wait(60) == 0, said.decode()
    return said.decode()


@pytest.mark.slow
def test_a_terminal_sees_the_work_go_on_in_colour_unless_refused(tmp_path: Path) -> None:
    coloured = on_terminal(tmp_path, {})
    assert "reading" in coloured
    assert "drawing" in coloured
    assert COLOUR.search(coloured)
    plain = on_terminal(tmp_path, {"NO_COLOR": "1"})
    assert "drawing" in plain
    assert not COLOUR.search(plain)
