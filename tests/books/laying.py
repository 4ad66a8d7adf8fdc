"""A folder of content, and files laid over it -> a book in a temporary folder, and what the builder says of it."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

from builder import pipeline
from builder.model.files import Layer
from builder.model.place import Span
from builder.model.problem import Problem
from builder.supplied import templates

BOOKS = Path(__file__).parent
TINY = BOOKS / "tiny" / "content"
LABEL = "content"
"""Stands before every file in problems, wherever the temporary folder is."""
REMOVED = "removed.txt"
EXPECTED = "expected.txt"


def lay(onto: Path, *folders: Path) -> Path:
    """Copy the folders one over the other; a folder's `removed.txt` lists the files it takes away first."""
    for folder in folders:
        listed = folder / REMOVED
        for name in listed.read_text("utf-8").split() if listed.exists() else ():
            (onto / name).unlink()
        shutil.copytree(folder, onto, dirs_exist_ok=True, ignore=shutil.ignore_patterns(REMOVED, EXPECTED))
    return onto


def edit(onto: Path, name: str, *changes: tuple[str, str]) -> None:
    """Change one file's text; each old text stands in it exactly once."""
    text = (onto / name).read_text("utf-8")
    for old, new in changes:
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {name}"
        text = text.replace(old, new)
    (onto / name).write_text(text, "utf-8")


def build(content: Path, target: Path | None = None, strict: bool = False) -> pipeline.Outcome:
    """Send a folder the whole way through; without a target stop before drawing, as `check` does."""
    return pipeline.make(pipeline.Order((Layer(content, LABEL),), templates(), target, strict=strict, processes=1))


def shown(outcome: pipeline.Outcome) -> str:
    """Return the problems as the terminal shows them."""
    return "".join(f"{block}\n" for block in pipeline.report.text(outcome.problems, line_of(outcome)))


def line_of(outcome: pipeline.Outcome) -> Callable[[Span], str]:
    """Return what reads the author's line again."""
    paths = {file.shown: file.path for file in outcome.discovery.files}

    def read(span: Span) -> str:
        path = paths.get(span.file)
        lines = path.read_text("utf-8", errors="replace").splitlines() if path and path.is_file() else []
        return lines[span.line - 1] if span.line <= len(lines) else ""

    return read


def place(content: Path, problem: Problem) -> str:
    """Return the characters a problem points at."""
    lines = (content / problem.span.file.removeprefix(f"{LABEL}/")).read_text("utf-8").splitlines()
    return lines[problem.span.line - 1][problem.span.column - 1 : problem.span.end - 1]
