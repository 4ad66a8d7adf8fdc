"""From layers of content and a folder to a built book; from a command's words to what it said and its exit code."""

from __future__ import annotations

import contextlib
import gc
import io
import os
import subprocess
import sys
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import NamedTuple

import pytest
from bs4 import BeautifulSoup, Tag

from builder import layers, pipeline
from builder.cli import main
from builder.supplied import templates

ROOT = Path(__file__).parents[2]
CONTENT = ROOT / "content"


class Said(NamedTuple):
    """What a command left behind."""

    code: int
    out: str
    err: str


def build(target: Path, *contents: str, kept: Path | None = None) -> pipeline.Outcome:
    """Build the layers, else the supplied library, into `target`; fails the test where the book does not compile."""
    chosen = layers.choose(contents or ("supplied",), ROOT)
    outcome = pipeline.make(pipeline.Order(chosen.layers, templates(), target, chosen.name, kept=kept))
    assert outcome.published is not None, outcome.problems
    return outcome


def page(book: Path, path: str) -> BeautifulSoup:
    """A page of a built book, given by its path from the root."""
    return BeautifulSoup((book / path).read_bytes(), "html.parser", from_encoding="utf-8")


def seambook(*words: str, folder: Path, told: Mapping[str, str] | None = None) -> Said:
    """Run `python -m builder` in `folder` as a process of its own, with the checkout on its path."""
    environment = {**os.environ, "PYTHONPATH": str(ROOT), **(told or {})}
    run = subprocess.run(
        (sys.executable, "-m", "builder", *words), cwd=folder, env=environment, stdin=subprocess.DEVNULL,
        capture_output=True, timeout=100, check=False,
    )  # fmt: skip
    return Said(run.returncode, run.stdout.decode("utf-8"), run.stderr.decode("utf-8"))


def seambook_here(*words: str, folder: Path) -> Said:
    """Run the same command in this process, which has loaded all of it: where what it says and does is asked.

    That the program by itself does so is tested by its own exit codes, commands and wheel.
    """
    out, err = (io.TextIOWrapper(io.BytesIO(), "utf-8", write_through=True) for _ in range(2))
    before, collects = sys.argv, gc.isenabled()
    with contextlib.chdir(folder), contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        sys.argv = ["seambook", *words]
        try:
            main()
            code = 0
        except SystemExit as end:
            code = end.code if isinstance(end.code, int) else 1
        finally:
            sys.argv = before
            if collects:
                gc.enable()
    said, complained = (one.detach().getvalue().decode("utf-8") for one in (out, err))
    return Said(code, said, complained)


@contextlib.contextmanager
def read_once() -> Iterator[None]:
    """Within this commands of this process read the calculators of the same layers once."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(pipeline, "asked", cache(pipeline.asked))
        yield


def files_of(folder: Path) -> dict[str, bytes]:
    """Every file below the folder, by its path from there; the lock and the marker's dot-files too."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()
    }


def tags(soup: BeautifulSoup | Tag) -> list[Tag]:
    """Every element, in document order."""
    return [tag for tag in soup.find_all(True) if isinstance(tag, Tag)]


def word(tag: Tag, name: str) -> str | None:
    """An attribute's text; None where it is absent."""
    value = tag.get(name)
    return None if value is None else value if isinstance(value, str) else " ".join(value)


def write(folder: Path, records: Mapping[str, str]) -> Path:
    """Put records down as a layer of content: path from the layer -> YAML."""
    for path, text in records.items():
        file = folder / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, encoding="utf-8")
    return folder
