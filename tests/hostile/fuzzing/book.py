"""The tiny book with one file exchanged -> the problems that are told of it, as quickly as a fuzzer wants them.

All other files are read once. What is accepted is drawn, too: the record itself and those that name it.
"""

from __future__ import annotations

import shutil
from collections.abc import Mapping, Sequence
from pathlib import Path

from builder import pipeline, render
from builder.drawing import Drawing
from builder.gathered import Gathered, Shaped
from builder.model.files import Layer, SourceFile
from builder.model.links import Catalogue
from builder.model.problem import Problem, in_order
from builder.model.reference import Ref
from builder.order import Order
from builder.passes import Way
from builder.publish import open_draft
from builder.shaping import How, shape_file, withpicture
from builder.supplied import templates
from tests.books.laying import LABEL, TINY

MOST_DRAWN = 5
"""Records that name the one exchanged and are drawn beside it."""


class _Way(Way):
    """A way that takes what it has read before of all files but the one exchanged."""

    def __init__(self, order: Order, known: dict[Path, Shaped], fresh: Path | None) -> None:
        super().__init__(order)
        self.known, self.fresh = known, fresh
        self.own: Shaped | None = None

    def _shaped(self, files: Sequence[SourceFile], scales: Mapping[str, tuple[str, ...]], how: How) -> list[Shaped]:
        made = []
        # What is strictest depends on the scales, so nothing is known any more where one of them is exchanged.
        is_known = self.fresh is None or self.fresh.parent.name != "scales"
        for file in files:
            known = self.known.get(file.path) if is_known and file.path != self.fresh else None
            one = known or withpicture(file, shape_file(file, scales, how))
            made.append(one)
            if self.fresh is None:
                self.known[file.path] = one
        return made


class Bench:
    """A copy of the tiny book in which one file after another is exchanged."""

    def __init__(self, folder: Path) -> None:
        self.content, self.site = folder / "content", folder / "site"
        shutil.copytree(TINY, self.content)
        self.known: dict[Path, Shaped] = {}
        self.renderer = render.open_renderer(templates())
        self.files = {path.relative_to(self.content).as_posix(): path.read_bytes() for path in
                      sorted(self.content.rglob("*")) if path.suffix in (".yaml", ".md")}  # fmt: skip
        assert self._problems(None) == ()

    def exchanged(self, name: str, data: bytes) -> tuple[Problem, ...]:
        """Put other bytes into one file for a while; return the problems, each with its place."""
        path = self.content / name
        path.write_bytes(data)
        try:
            return self._problems(path)
        finally:
            path.write_bytes(self.files[name])

    def built(self, name: str, data: bytes) -> pipeline.Outcome:
        """Build the whole book with other bytes in one file."""
        path = self.content / name
        path.write_bytes(data)
        shutil.rmtree(self.site, ignore_errors=True)
        try:
            return pipeline.make(self._order())
        finally:
            path.write_bytes(self.files[name])

    def _order(self) -> Order:
        return Order((Layer(self.content, LABEL),), templates(), self.site, processes=1)

    def _problems(self, fresh: Path | None) -> tuple[Problem, ...]:
        way = _Way(self._order(), self.known, fresh)
        gathered = way.gather(way.discover())
        catalogue = way.connect(gathered)
        programs = way.judge(gathered, catalogue)
        own = way.settings()
        way.work(gathered, catalogue, programs)
        if fresh is not None and not way.has_failed():
            shutil.rmtree(self.site, ignore_errors=True)  # what lies there may be of a book of another id
            with open_draft(self.site, own.id) as draft:
                drawing = Drawing(way, gathered, catalogue, programs, draft.desk, way.keeper)
                drawing.__dict__["renderer"] = self.renderer  # a cached property: compiled once for all books
                for ref in _drawn(fresh, gathered, catalogue):
                    drawing.record(ref)
        return in_order(way.problems)


def _drawn(fresh: Path, gathered: Gathered, catalogue: Catalogue) -> list[Ref]:
    """The record that was exchanged and some that name it; where it is no record, one of each kind."""
    own = [ref for ref in gathered.summaries if (ref.id, f"{ref.kind}s"[:3]) == (fresh.stem, fresh.parent.name[:3])]
    if not own:
        return sorted({ref.kind: ref for ref in gathered.summaries}.values())
    return [own[0], *catalogue.uses.get(own[0], ())[:MOST_DRAWN]]
