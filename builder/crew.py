"""Items and a function -> results in order, made by one process or by several that inherit everything.

`spread` is the entry point. Children are forked, so that what the parent has read need not be handed over; where the
system cannot fork, one process does the work. Nothing may depend on which process did what.
"""

from __future__ import annotations

import gc
import os
import pickle
import signal
import traceback
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from functools import partial
from typing import NamedTuple, NoReturn, TypeVar, cast

from builder.model.problem import OutsideError

T = TypeVar("T")
R = TypeVar("R")
CHUNK = 40
"""Items handed to a process at a time: enough to keep its errand short beside its work."""
SHIFT = 40
"""Errands after which a process gives its place to a fresh one: what it keeps for what comes back grows with all that
it has seen, and so does what it has come to write upon of the memory it shares."""
WORTH_FORKING = 240
"""Below this many items starting processes costs more than it saves."""


class FaultInSeambookError(Exception):
    """An exception that no author can have caused, with the item that was in hand."""

    def __init__(self, item: str, details: str) -> None:
        super().__init__(f"at {item}: {details.strip().splitlines()[-1]}")
        self.item = item
        self.details = details


class _Trouble(NamedTuple):
    item: str
    details: str


def processes_for(count: int, wanted: int | None, worth: int = WORTH_FORKING) -> int:
    """Return how many processes to use for so many items, of which `worth` make it worth starting more than one."""
    if not hasattr(os, "fork"):
        return 1
    if wanted is not None:
        return max(1, wanted)
    return 1 if count < worth else os.cpu_count() or 1


def spread(work: Callable[[T], R], items: Sequence[T], processes: int, chunk: int = CHUNK) -> Iterator[R]:
    """Yield the result of each item, in order. An exception becomes a fault that names the item.

    What the disk or the system refused is raised as it is.

    A process is handed `chunk` items at a time.
    """
    errands = range(0, len(items), chunk)
    if min(processes, len(errands)) <= 1:  # what is handed over at once keeps no second process busy
        for item in items:
            yield _kept(_one(work, item))
        return
    shift = SHIFT * processes
    for first in range(0, len(errands), shift):
        yield from _shift(work, items, processes, chunk, errands[first:first + shift])


def _shift(
    work: Callable[[T], R], items: Sequence[T], processes: int, chunk: int, errands: Sequence[int]
) -> Iterator[R]:
    """Let fresh processes run some errands, each told by the place of its first item."""
    # Loaded here, since most commands need one process alone.
    import multiprocessing

    global _inherited
    _inherited = (work, items, chunk)
    gc.freeze()
    try:
        with multiprocessing.get_context("fork").Pool(processes) as pool:
            for results in pool.imap(_chunk, errands):
                for result in results:
                    yield _kept(cast("R | _Trouble | OutsideError", result))
    finally:
        gc.unfreeze()
        _inherited = None


_inherited: tuple[Callable[..., object], Sequence[object], int] | None = None
"""What the children of the pool at work find in their memory."""


def _chunk(first: int) -> list[object]:
    assert _inherited is not None
    work, items, chunk = _inherited
    return [_one(work, item) for item in items[first:first + chunk]]


def _one(work: Callable[[T], R], item: T) -> R | _Trouble | OutsideError:
    try:
        return work(item)
    except OutsideError as error:
        return error
    except Exception:
        return _Trouble(str(getattr(item, "ref", item)), traceback.format_exc())


def _kept(result: R | _Trouble | OutsideError) -> R:
    if isinstance(result, OutsideError):
        raise result
    if isinstance(result, _Trouble):
        raise FaultInSeambookError(result.item, result.details)
    return result


@contextmanager
def meanwhile(work: Callable[[], R]) -> Iterator[Callable[[], R]]:
    """Let another process begin some work while this one goes on; yields what waits for its small result.

    Where no second process can be had, or it comes to nothing, the work is done when its result is asked for. What is
    not asked for by the end of the block is given up.
    """
    if processes_for(WORTH_FORKING, None) < 2:
        yield work
        return
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        _tell(work, writing)
    os.close(writing)
    try:
        yield partial(_told, work, reading)
    finally:
        os.close(reading)
        os.kill(child, signal.SIGKILL)  # it has told what it found, or nobody wants it any more
        os.waitpid(child, 0)


def _tell(work: Callable[[], object], writing: int) -> NoReturn:
    """Work in a child and end it, whatever happens: what its parent has open is not to be tidied away twice."""
    try:
        with os.fdopen(writing, "wb") as out:
            pickle.dump(work(), out)
    finally:
        os._exit(0)


def _told(work: Callable[[], R], reading: int) -> R:
    with os.fdopen(reading, "rb", closefd=False) as said:
        data = said.read()
    return cast("R", pickle.loads(data)) if data else work()
