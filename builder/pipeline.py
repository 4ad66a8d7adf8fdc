"""The way through: content in layers -> a published book, or the problems that keep it from being one.

`make` is the main path. Each line is a stage or a pass over all records; `passes` holds how one record goes through up
to its drawing, `drawing` and `pocket_copy` the rest. Stages know the shared types and not each other; this module,
`passes`, `drawing`,
`pocket_copy` and `settings` are the only ones that know them.

What each step of `make` does, and the file that says what is wrong or missing there:

- discover: which files are records, and which name is none (`read/files.py`)
- gather: a file's text to a tree (`read/tree.py`), the tree to a record: keys and words (`shape/messages.py`),
  quantities and their units (`shape/quantities.py`), its summary (`shape/summaries.py`); a figure's picture
  (`pictures/files.py`)
- connect: references and links to the records they name (`link/resolver.py`)
- judge: formulas and the units in them (`formula/check.py`), proofs (`formula/proofs.py`), the order of work against
  the rules (`check/order.py`)
- work: seam plans and the values of steps (`work/seams.py`); how procedures are written (`style/steps.py`)
- draw: what a page says (`view/`), how it is laid out (`render/`, `templates/`), and what of it the search finds: words
  (`search/words.py`), parts of pages (`search/parts.py`), the index (`search/index.py`)
- copy: the book once more as one file, if that is asked for (`pocket_copy.py`, `pocket/`)
- publish: the folder in place of the one before, all or nothing (`publish/`)
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

from builder import keeping, publish, read, report, shape
from builder.formula import Program
from builder.model.files import Discovery, Layer
from builder.model.problem import Problem
from builder.model.records import Record
from builder.model.reference import Ref
from builder.order import NotInBookError, Order
from builder.outcome import Outcome
from builder.passes import CODES, Way
from builder.untouched import untouched

PublishError, require_file, kept_of = publish.PublishError, publish.require_file, publish.kept_of
edition = keeping.code_mark
"""A mark of Seambook itself and of what it runs on."""


def make(order: Order) -> Outcome:
    """Build the book and publish it if nothing is wrong with it; without a target stop before drawing."""
    try:
        return _make(order)
    except keeping.SpoiledError:
        return _make(replace(order, anew=True))


def _make(order: Order) -> Outcome:
    way = Way(order)
    if (outcome := untouched(order, way.keeper)) is not None:
        return outcome
    way.keeper.recall()
    discovery = way.discover()
    gathered = way.gather(discovery)
    catalogue = way.connect(gathered)
    programs = way.judge(gathered, catalogue)
    if order.target is None or way.has_failed():
        way.work(gathered, catalogue, programs)
        return way.outcome(discovery, gathered)
    # Loaded here, since what draws takes as long to load as a small book takes to be checked.
    from builder.drawing import Drawing
    from builder.pocket_copy import pocket_copy, require_known

    require_known(order.only, catalogue)
    with publish.open_draft(order.target, way.settings().id, keeps_spare=way.keeper.is_on) as draft:
        drawing = Drawing(way, gathered, catalogue, programs, draft.desk, way.keeper)
        paths = drawing.draw()
        with pocket_copy(drawing, paths) as copy:
            published = None if way.has_failed() else draft.publish(paths, way.keeper.site)
            if published is not None:
                way.keeper.save(draft.book_id, way.told(discovery, gathered))
            if published is not None and copy is not None:
                copy.place()
    return way.outcome(discovery, gathered, published)


class Asked(NamedTuple):
    """What answering calculators needs of a book."""

    programs: Mapping[str, Program]
    problems: tuple[Problem, ...]
    shelf: Mapping[Ref, Record]
    """The calculators, tables, sources and scales."""


def asked(layers: Sequence[Layer]) -> Asked:
    """Return the calculators and what they rest on, so that they can be asked in a book with errors elsewhere."""
    way = Way(Order(tuple(layers)))
    gathered = way.gather(way.discover(CALCULATOR_FOLDERS))
    programs = way.compile(gathered)
    return Asked(programs, way.outcome_problems(), gathered.shelf)


def calculators(layers: Sequence[Layer]) -> tuple[Mapping[str, Program], tuple[Problem, ...]]:
    """Return the calculators alone."""
    return asked(layers)[:2]


def records(layers: Sequence[Layer]) -> Discovery:
    """List the records of the layers, each where its last layer has it."""
    return read.discover(layers)[0]


def scales(layers: Sequence[Layer]) -> Mapping[str, tuple[str, ...]]:
    """Return the words of every scale alone, in order."""
    way = Way(Order(tuple(layers)))
    return way.gather(way.discover(frozenset({"scales"}))).scales


CALCULATOR_FOLDERS = frozenset({"calculators", "tables", "sources", "scales"})
read_settings, read_text, shape_settings = read.read_settings, read.read_text, shape.shape_settings
bytes_of = read.bytes_of

__all__ = [
    "CODES", "Asked", "NotInBookError", "Order", "Outcome", "PublishError", "asked", "bytes_of", "calculators",
    "edition", "kept_of", "make", "read_settings", "read_text", "records", "report", "require_file", "scales",
    "shape_settings",
]  # fmt: skip
