"""The book as one file: all of what was drawn, or a part of it drawn anew, packed and put together.

Like `pipeline`, `passes` and `drawing` it knows the stages; what a copy is made of is said in `pocket/`.
"""

from __future__ import annotations

import re
import tempfile
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

from builder import pocket, publish
from builder.crew import processes_for, spread
from builder.drawing import Drawing
from builder.keeper import Keeper
from builder.model.links import Catalogue
from builder.model.near import offer
from builder.model.records import KIND
from builder.model.records.job import Job
from builder.model.reference import Ref
from builder.model.shelf import Shelf
from builder.order import NotInBookError
from builder.render.environment import open_environment

NEEDED_OF = {"procedure": "relies_on", "lesson": "questions.procedures"}
"""Of a kind the field whose procedures it is of no use without; others that it names are a link."""
FOLLOWED = frozenset(("seam", "calculator", "method", "table", "hazard", "decision", "cavity", "opening", "defect"))
"""Kinds whose records are of no use without what they name themselves; of others their own page is enough."""
ALWAYS = frozenset(("shell", "page", "scale"))
WORTH_FORKING = 4
"""Groups: each takes a second to pack."""
_SCRIPT = re.compile(r'<script defer src="(?:\.\./)*([^"]+)">')
_LOADED = re.compile(r'<(?:script defer src|link rel="stylesheet" href)="(?:\.\./)*([^"]+)"')
_NEEDED = ("assets/calc/", "assets/method/")
_FOR_WRITERS = re.compile(r"writing(?:/.*)?\.html|writing/.*|codes\.html")
_WAY = re.compile(r'<a\b([^>]*?) (?:xlink:)?href="([^"#:]+\.html)(#[^"]*)?"([^>]*)>(.*?)</a>', re.DOTALL)


@contextmanager
def pocket_copy(drawing: Drawing, paths: Sequence[str]) -> Iterator[publish.Beside | None]:
    """Make the copy that was asked for, to be put in its place once the book is published, too."""
    order = drawing.way.order
    if order.pocket is None or drawing.way.has_failed():
        yield None
        return
    if order.only:
        with tempfile.TemporaryDirectory(prefix="seambook-") as folder:
            part = _part(drawing, Path(folder))
            data = _copied(part, _needed(part, [*part.records(), *part.pages(), *part.files()]))
    else:
        data = _copied(drawing, paths)
    drawing.way.clock("pocket copy")
    beside = publish.Beside(order.pocket, data)
    try:
        yield beside
    finally:
        beside.clear()


def require_known(ids: Sequence[str], catalogue: Catalogue) -> None:
    """Raise an error if an id is no record's."""
    known = {ref.id for ref in catalogue.summaries}
    for id_ in ids:
        if id_ not in known:
            raise NotInBookError(
                f'--only: the book has no "{id_}"; {offer(id_, known, "its pages are listed in lists.html")}'
            )


def led_to(ids: Sequence[str], catalogue: Catalogue) -> frozenset[Ref]:
    """Return what a copy of these holds: they, what they rely on, and what all of that names and needs."""
    named = [ref for ref in catalogue.summaries if ref.id in ids]
    chosen = [ref for ref in named if ref.kind == "procedure"] or named
    held = set(chosen) | {ref for ref in catalogue.summaries if ref.kind in ALWAYS}
    todo = list(chosen)
    while todo:
        ref = todo.pop()
        for mention in catalogue.summaries[ref].mentions:
            found = catalogue.moved.get(mention.ref.record, mention.ref.record)
            is_wanted = found.kind != "procedure" or mention.field == NEEDED_OF.get(ref.kind)
            if found in held or found not in catalogue.summaries or not is_wanted:
                continue
            held.add(found)
            # A lesson is more than a link only where somebody takes the path that it belongs to.
            if found.kind == "procedure" or found.kind in FOLLOWED or (ref.kind, found.kind) == ("path", "lesson"):
                todo.append(found)
    return frozenset(held)


def _part(drawing: Drawing, folder: Path) -> Drawing:
    """Return a drawing of a part of the book; it is put down in a folder of its own."""
    whole = drawing.catalogue.whole or drawing.catalogue
    held = led_to(drawing.way.order.only, whole)
    uses = {ref: tuple(user for user in users if user.record in held) for ref, users in whole.uses.items()}
    # It still knows what the rest is called.
    catalogue = Catalogue(
        {ref: summary for ref, summary in whole.summaries.items() if ref in held},
        whole.broken, whole.moved, uses, whole.handed, whole=whole,
    )  # fmt: skip
    gathered = drawing.gathered
    shelf = Shelf({ref: record for ref, record in gathered.shelf.items() if not _is_beyond(record, held)})
    part = gathered._replace(summaries=catalogue.summaries, shelf=shelf)
    desk = publish.Desk(folder / "part", folder / "none")
    (folder / "part").mkdir()
    keeper = Keeper(replace(drawing.way.order, kept=None))
    made = Drawing(drawing.way, part, catalogue, drawing.programs, desk, keeper)
    made.is_printed = False
    return made


def _is_beyond(record: object, held: frozenset[Ref]) -> bool:
    """Whether a job does what the copy does not hold."""
    return isinstance(record, Job) and any(Ref("procedure", run.procedure) not in held for run in record.runs)


def _needed(part: Drawing, paths: Sequence[str]) -> list[str]:
    """Leave out what a part of the book has no use for: what its pages do not load, and the guide for writers."""
    where = part.desk.where
    pages = [path for path in paths if path.endswith(".html") and not _FOR_WRITERS.fullmatch(path)]
    loaded = {one for path in pages for one in _SCRIPT.findall(where(path).read_text("utf-8"))}
    others = (path for path in paths if not path.endswith(".html"))
    return [*pages, *(path for path in others if path in loaded or not path.startswith(_NEEDED))]


def _copied(drawing: Drawing, paths: Sequence[str]) -> bytes:
    """Pack what lies on a drawing's desk."""
    order, where, site = drawing.way.order, drawing.desk.where, drawing.book.site
    names = pocket.held(sorted(paths))
    here = frozenset(names)

    def read(path: str) -> str:
        text = where(path).read_text("utf-8")
        if pocket.is_quoted(path):
            return pocket.unquoted(text)
        return _with_ways_of(path, text, here) if order.only and path.endswith(".html") else text

    def put(path: str) -> tuple[str, bytes]:
        return path, pocket.marked(read(path), marks).encode() if pocket.is_text(path) else where(path).read_bytes()

    groups = pocket.grouped({path: where(path).stat().st_size for path in names}, _common(where))
    processes = processes_for(len(groups), order.processes, WORTH_FORKING)
    lines = pocket.shared((read(path) for path in group if pocket.is_text(path)) for group in groups)
    marks = pocket.numbered(lines)
    packed = list(spread(lambda group: pocket.packed([put(path) for path in group]), groups, processes, 1))
    plain = [path for kind in pocket.KINDS for path in names if path.startswith(f"{kind}/")]
    read_plain = frozenset(plain)
    pages = list(spread(lambda path: pocket.plain_page(path, read(path), read_plain), plain, processes))
    folders = {kind.folder: kind.plural for kind in KIND.values()}
    styles = [where(path).read_text("utf-8") for path in names if path.endswith(".css")]
    render = open_environment(order.templates).get_template("pocket/pocket.html").render
    return pocket.bound(order.templates, render, site, packed, lines, pocket.plain_part(pages, folders), styles)


def _common(where: Callable[[str], Path]) -> list[str]:
    """Return the styles and scripts that the first page loads, and so every page."""
    return _LOADED.findall(where(pocket.HOME).read_text("utf-8"))


def _with_ways_of(path: str, html: str, here: frozenset[str]) -> str:
    """Leave ways to pages that the copy does not hold their text alone."""
    depth = path.count("/")
    folder = path.rpartition("/")[0]

    def kept(way: re.Match[str]) -> str:
        target = way[2].removeprefix("../") if way[2].startswith("../") else (f"{folder}/{way[2]}" if depth else way[2])
        return way[0] if target in here else way[5]

    return _WAY.sub(kept, html)


__all__ = ["led_to", "pocket_copy", "require_known"]
