"""The tiny book, built again and again with what is kept beside it."""

from __future__ import annotations

import os
import shutil
from dataclasses import replace
from pathlib import Path

from builder import pipeline
from builder.model.files import Layer
from builder.supplied import templates
from tests.books.laying import TINY
from tests.keeping.walk import require_equal

PROCEDURE = "procedures/weld-cover.yaml"
LONG_AGO = 1_600_000_000


class Book:
    """The tiny book, built with what is kept beside it."""

    def __init__(self, folder: Path) -> None:
        self.content, self.site, self.kept = folder / "content", folder / "site", folder / ".kept"
        self.apart = folder / "apart"
        self.made_apart: dict[tuple[tuple[Path, bytes], ...], Path] = {}
        """Books that lie apart, by what each was made from."""
        self.restore()

    def restore(self) -> None:
        """Put the content back as it is at first, written long ago."""
        shutil.rmtree(self.content, ignore_errors=True)
        shutil.copytree(TINY, self.content)
        for path in self.content.rglob("*"):
            os.utime(path, (LONG_AGO, LONG_AGO))

    def build(self, **more: object) -> pipeline.Outcome:
        order = pipeline.Order((Layer(self.content, "content"),), templates(), self.site, processes=1, kept=self.kept)
        return pipeline.make(replace(order, **more))  # type: ignore[arg-type]

    def touch(self) -> None:
        """Let a file look as if it were another, so that what is kept is needed."""
        os.utime(self.content / PROCEDURE, (LONG_AGO - 1, LONG_AGO - 1))

    def require_as_anew(self) -> None:
        """Hold what is published against a build that takes nothing: of the same files, one build for all tests."""
        said = tuple((path.relative_to(self.content), path.read_bytes()) for path in files_below(self.content))
        if said not in self.made_apart:
            target = self.apart / str(len(self.made_apart))
            order = pipeline.Order((Layer(self.content, "content"),), templates(), target, processes=1)
            assert pipeline.make(order).published is not None
            self.made_apart[said] = target
        require_equal(self.site, self.made_apart[said], "kept against anew")


def files_below(folder: Path) -> list[Path]:
    return sorted(path for path in folder.rglob("*") if path.is_file())


def changed(outcome: pipeline.Outcome) -> int:
    assert outcome.published is not None, outcome.problems
    return outcome.published.changed
