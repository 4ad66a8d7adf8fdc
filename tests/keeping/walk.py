"""So many edits -> a build that takes kept results and one that takes none after each, held against each other."""

from __future__ import annotations

import gc
import shutil
from pathlib import Path
from typing import NamedTuple

from builder import pipeline
from builder.model.files import Layer
from builder.supplied import templates
from builder.warm import Warm
from tests.keeping.edits import Edits


class Walked(NamedTuple):
    """What came of a walk."""

    published: int
    refused: int
    made: list[tuple[str, int]]
    """Each edit of a book that was published, and how many files it changed."""


def walk(
    content: Path, folder: Path, count: int, seed: int, processes: int = 1, warm: Warm | None = None
) -> Walked:
    """Make so many edits in a copy of a book; raises AssertionError at the first difference."""
    own, look = folder / "content", folder / "templates"
    shutil.copytree(content, own)
    shutil.copytree(templates(), look)
    edits = Edits(own, look, seed)
    assert _build(own, look, folder / "kept", folder / "kept-results", processes, warm).published is not None
    walked = Walked(0, 0, [])
    for at in range(count):
        before = folder / "before"
        shutil.copytree(own, before / "content")
        shutil.copytree(look, before / "templates")
        deed = edits.one()
        said = f"seed {seed}, edit {at + 1}: {deed}"
        kept = _build(own, look, folder / "kept", folder / "kept-results", processes, warm)
        anew = _build(own, look, folder / f"anew-{at}", None, processes)
        assert kept.problems == anew.problems, said
        assert (kept.published is None) == (anew.published is None), said
        if kept.published is None:
            walked = walked._replace(refused=walked.refused + 1)
            for name, place in (("content", own), ("templates", look)):
                shutil.rmtree(place)
                shutil.move(before / name, place)
        else:
            require_equal(folder / "kept", folder / f"anew-{at}", said)
            walked.made.append((deed, kept.published.changed))
            walked = walked._replace(published=walked.published + 1)
        shutil.rmtree(before, ignore_errors=True)
        shutil.rmtree(folder / f"anew-{at}", ignore_errors=True)
        gc.collect()
    return walked


def _build(
    content: Path, look: Path, target: Path, kept: Path | None, processes: int, warm: Warm | None = None
) -> pipeline.Outcome:
    layer = Layer(content, "content")
    return pipeline.make(pipeline.Order((layer,), look, target, processes=processes, kept=kept, warm=warm))


def require_equal(one: Path, other: Path, said: str) -> None:
    """Hold two published folders against each other, byte for byte."""
    paths, others = (sorted(str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file())
                     for folder in (one, other))  # fmt: skip
    assert paths == others, said
    different = [path for path in paths if (one / path).read_bytes() != (other / path).read_bytes()]
    assert different == [], f"{said}: {different[:8]}"
