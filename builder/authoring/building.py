"""A shop's folder and a folder for the book -> the book built, in a process of its own, and what came of it.

Of its own, because a build switches the cycle collector off and may fork, and neither does good to a server's process;
and so that it can be ended with all its children when somebody presses Ctrl-C. It stays between builds: what it has
read, compiled and worked out, the next build need not.
"""

from __future__ import annotations

import contextlib
import gc
import os
import signal
import sys
import traceback
from collections.abc import Iterator, Sequence
from multiprocessing import get_context, resource_tracker
from multiprocessing.connection import Connection
from multiprocessing.context import SpawnProcess
from pathlib import Path
from typing import NamedTuple

from builder import layers, pipeline, telling
from builder.crew import FaultInSeambookError
from builder.model.problem import Problem
from builder.supplied import templates
from builder.warm import Warm

WAKES = 0.2
"""Seconds after which whoever waits for a build looks whether it is to end."""
MOST_MB = 2_000
"""A process that has become larger than this is ended after its build, and the next is begun anew."""


class Built(NamedTuple):
    """What came of it."""

    published: bool
    said: str
    """In a few words: how many records, errors and warnings."""
    blocks: tuple[str, ...]
    """One a problem."""


class Apart:
    """A process that builds when it is asked to, and remembers between builds; it is begun anew when it has grown.

    Interrupted while it waits, or closed, it ends that process with whatever that began.
    """

    def __init__(self) -> None:
        self._process: SpawnProcess | None = None
        self._ours: Connection | None = None
        self._edition = b""

    @property
    def process(self) -> int | None:
        """The number of the process; None while there is none."""
        return self._process.pid if self._process is not None else None

    def build(self, contents: Sequence[str], folder: Path, out: Path) -> Built:
        """Build once."""
        if self._process is None or not self._process.is_alive() or self._edition != pipeline.edition():
            self.close()
            self._begin()
        assert self._process is not None
        assert self._ours is not None
        try:
            self._ours.send((tuple(contents), folder, out))
            # While it was started, the signal went to another thread; only this one acts on it, when it wakes.
            while not self._ours.poll(WAKES):
                pass
            built, megabytes = self._ours.recv()
        except (EOFError, BrokenPipeError, ConnectionResetError):
            self._process.join()
            code = self._process.exitcode
            self.close()
            return Built(False, f"building ended by itself ({code})", ("seambook: building ended by itself",))
        except BaseException:
            self.close()
            raise
        if megabytes > MOST_MB:
            self.close()
        assert isinstance(built, Built)
        return built

    def close(self) -> None:
        """End the process, if there is one."""
        process, ours = self._process, self._ours
        self._process = self._ours = None
        if ours is not None:
            with _undisturbed():
                ours.close()
        if process is not None:
            with _undisturbed():
                _end(process)

    def _begin(self) -> None:
        context = get_context("spawn")
        ours, theirs = context.Pipe()
        self._edition = pipeline.edition()
        self._process, self._ours = context.Process(target=_build_and_tell, args=(theirs,)), ours
        _start_deaf(self._process)
        theirs.close()


@contextlib.contextmanager
def _undisturbed() -> Iterator[None]:
    """Whoever presses Ctrl-C twice must not keep the first from ending what was begun."""
    before = [(one, signal.signal(one, signal.SIG_IGN)) for one in (signal.SIGINT, signal.SIGTERM)]
    try:
        yield
    finally:
        for one, handler in before:
            signal.signal(one, handler)


def _start_deaf(process: SpawnProcess) -> None:
    """Start it so that Ctrl-C in the terminal, which reaches all that runs there, is for the server alone."""
    if not hasattr(signal, "pthread_sigmask"):
        process.start()
        return
    resource_tracker.ensure_running()  # starting it later would lift the mask
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        process.start()
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _end(process: SpawnProcess) -> None:
    process.join(0.5)
    if process.is_alive():
        _terminate(process)
        process.join()


def _terminate(process: SpawnProcess) -> None:
    """End it with all that it began; before it has a group of its own it has begun nothing."""
    if hasattr(os, "killpg") and process.pid is not None:
        with contextlib.suppress(ProcessLookupError, PermissionError):
            os.killpg(process.pid, signal.SIGTERM)
            return
    process.terminate()


def _build_and_tell(asked: Connection) -> None:
    if hasattr(os, "setpgid"):
        os.setpgid(0, 0)  # so that it can be ended with its own children
    gc.disable()
    warm = Warm()
    while True:
        try:
            contents, folder, out = asked.recv()
        except EOFError:
            return
        asked.send((build(contents, folder, out, warm), _megabytes()))
        gc.collect()  # of what a build leaves, nobody waits for this


def _megabytes() -> float:
    """Return how large this process has become; 0 where the system does not tell."""
    try:
        import resource
    except ImportError:
        return 0
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return most / 1e6 if sys.platform == "darwin" else most / 1e3


def build(contents: Sequence[str], folder: Path, out: Path, warm: Warm | None = None) -> Built:
    """Build the book once; nothing that can be wrong with it raises."""
    try:
        chosen = layers.choose(contents, folder)
        if chosen.problems:
            return _failed(chosen.problems, {layers.SHOP_FILE: folder / layers.SHOP_FILE})
        order = pipeline.Order(
            chosen.layers, templates(), out, chosen.name, shop=chosen.shop, kept=pipeline.kept_of(out.absolute()),
            warm=warm,
        )
        outcome = pipeline.make(order)
    except (layers.LayerError, pipeline.PublishError) as trouble:
        return Built(False, str(trouble), (f"seambook: {trouble}\n    do    {trouble.do}",))
    except FaultInSeambookError as fault:
        return Built(False, f"a fault in Seambook: {fault}", (fault.details, f"seambook: a fault in Seambook: {fault}"))
    except Exception as fault:
        return Built(False, f"a fault in Seambook: {fault}", (traceback.format_exc(),))
    if outcome.published is None:
        return _failed(outcome.problems, telling.paths_of(outcome))
    said = f"{outcome.records} records, {telling.counted(outcome.problems)}"
    return Built(True, said, telling.blocks(outcome.problems, telling.paths_of(outcome)))


def _failed(problems: Sequence[Problem], paths: dict[str, Path]) -> Built:
    return Built(False, telling.counted(problems), telling.blocks(problems, paths))
