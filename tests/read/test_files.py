"""Finding and reading files: what is no file, no text, or too much of it is told with its place."""

from __future__ import annotations

import os
import time
from pathlib import Path

import pytest

from builder.model.files import Layer, SourceFile
from builder.model.reference import Ref
from builder.read import discover, read
from builder.read.tree import MAX_BYTES, parse


def _file(path: Path) -> SourceFile:
    return SourceFile(path, path.name, Ref("term", path.stem))


def test_a_file_too_large_is_refused_without_reading_on(tmp_path: Path) -> None:
    path = tmp_path / "huge.yaml"
    with path.open("wb") as stream:
        stream.truncate(MAX_BYTES * 50)
    tree, problems = read(_file(path))
    assert tree is None
    assert [problem.code.name for problem in problems] == ["too_large"]


@pytest.mark.parametrize("data", [b"title: caf\xe9\n", b"\xff\xfet\x00i\x00", b"a: \xed\xa0\x80\n"])
def test_what_is_not_utf_8_is_told_by_its_line(data: bytes, tmp_path: Path) -> None:
    path = tmp_path / "x.yaml"
    path.write_bytes(b"ok: 1\n" + data)
    _, problems = read(_file(path))
    assert [(problem.code.name, problem.span.line) for problem in problems] == [("not_text", 2)]


def test_what_is_no_ordinary_file_is_not_opened(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.yaml")
    (tmp_path / "folder.yaml").mkdir()
    for name in ("pipe.yaml", "folder.yaml", "gone.yaml"):
        tree, problems = read(_file(tmp_path / name))
        assert tree is None
        assert [problem.code.name for problem in problems] == ["unreadable"]


def test_line_ends_and_byte_order_marks_change_nothing(tmp_path: Path) -> None:
    texts = [
        b"title: A\nmeans: B\n", b"title: A\r\nmeans: B\r\n", b"\xef\xbb\xbftitle: A\nmeans: B\n",
        b"title: A\rmeans: B", b"\xef\xbb\xbftitle: A\r\nmeans: B\r", b"title: A\rmeans: B\n\r\n",
    ]  # fmt: skip
    trees = []
    for at, data in enumerate(texts):
        (tmp_path / f"{at}.yaml").write_bytes(data)
        trees.append(read(_file(tmp_path / f"{at}.yaml"))[0])
    assert trees[0] is not None
    assert all(tree == trees[0] for tree in trees)


def test_of_two_records_of_one_name_the_later_layer_wins(tmp_path: Path) -> None:
    for layer in ("a", "b"):
        (tmp_path / layer / "terms").mkdir(parents=True)
        (tmp_path / layer / "terms" / "lap.yaml").write_text(f"title: {layer}\n")
    (tmp_path / "a" / "terms" / "plug.yaml").write_text("title: only here\n")
    found, problems = discover((Layer(tmp_path / "a", "a"), Layer(tmp_path / "b", "b")))
    assert problems == ()
    assert [file.shown for file in found.files] == ["b/terms/lap.yaml", "a/terms/plug.yaml"]
    assert [(lost.loser, lost.winner) for lost in found.overridden] == [("a/terms/lap.yaml", "b/terms/lap.yaml")]


@pytest.mark.alone
def test_twelve_thousand_lines_are_read_in_a_third_of_a_second() -> None:
    step = "      - key: prime\n        do: Brush primer on every face.\n        on: [seam:x]\n        minutes: 12\n"
    text = "title: Long\nphases:\n  - steps:\n" + step * 3000
    assert text.count("\n") > 12_000
    best = 9.0
    for _ in range(3):
        started = time.perf_counter()
        tree, problems = parse(text, "x.yaml")
        best = min(best, time.perf_counter() - started)
        assert tree is not None
        assert problems == ()
    assert best < 0.3
