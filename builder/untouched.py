"""An order -> the outcome of the last build once more, where nothing of all that it read or published was touched.

It is decided by looking at files, without opening one but the head of what is kept: a book of ten thousand procedures
is known to be as it was in the time it takes to ask the disk for so many files.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from contextlib import AbstractContextManager, nullcontext
from functools import partial
from pathlib import Path
from typing import NamedTuple

from builder import keeping, publish
from builder.crew import meanwhile
from builder.keeper import Keeper, Told
from builder.model.files import Discovery, Published, SourceFile
from builder.model.look import look
from builder.order import Order
from builder.outcome import Outcome


def untouched(order: Order, keeper: Keeper) -> Outcome | None:
    """Return what the last build came to; None where anything at all may differ, or more is asked for than the book."""
    if order.target is None or keeper.path is None or order.anew or order.pocket is not None:
        return None
    started = time.perf_counter()
    glance = keeping.read_glance(keeper.path)
    if glance is None or keeper.ordered != (glance.code, glance.order):
        return None
    with publish.hold(order.target, glance.book), _looking(order, order.target) as looked:
        if keeper.glanced[-1] != glance.sources:
            return None
        site = looked()
    if site is None or site.mark != glance.site:
        return None
    told = Told(*keeping.unpacked(glance.told))
    published = Published(0, site.files - 1, 0)  # the mark of the folder is no file of the book
    # Problems are shown with the lines they stand in, for which their files must be known.
    files = tuple(SourceFile(Path(path), shown, ref) for path, shown, ref in told.places)
    discovery = Discovery(files, told.overridden)
    outcome = Outcome(told.problems, discovery, told.records, published, {"look": time.perf_counter() - started})
    return None if outcome.failed(order.strict) else outcome


class _Site(NamedTuple):
    """The book as it is published, at a glance."""

    mark: bytes
    files: int


def _looking(order: Order, target: Path) -> AbstractContextManager[Callable[[], _Site | None]]:
    """Look at the book beside its sources; a process that stays has seldom nothing to do, and is large to copy."""
    glance = partial(_site, target)
    return nullcontext(glance) if order.warm is not None or order.processes == 1 else meanwhile(glance)


def _site(target: Path) -> _Site | None:
    """Return None where links or the like are among it."""
    site = look(target, publish.is_ours)
    return _Site(site.mark, len(site.files)) if site.is_plain else None
