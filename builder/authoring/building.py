"""A shop's folder and a folder for the book -> the book built once, in a process of its own, and what came of it.

Of its own, because a build switches the cycle collector off and may fork, and neither does good to a server's process;
and so that it can be ended with all its children when somebody presses Ctrl-C.
"""

from __future__ import annotations

import contextlib
import gc
import os
import signal
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

WAKES = 0.2
"""Seconds after which whoever waits for a build looks whether it is to end."""


class Built(NamedTuple):
    """What came of it."""

    published: bool
    said: str
    """In a few words: how many records, errors and warnings."""
    blocks: tuple[str, ...]
    """One a problem."""


def build_apart(contents: Sequence[str], folder: Path, out: Path) -> Built:
    """Build in a process of its own, and end it with whatever it began when this one is interrupted."""
    context = get_context("spawn")
    ours, theirs = context.Pipe(duplex=False)
    process = context.Process(target=_build_and_tell, args=(tuple(contents), folder, out, theirs))
    _start_deaf(process)
    theirs.close()
    try:
        # While it was started, the signal went to another thread; only this one acts on it, when it wakes.
        while not ours.poll(WAKES):
            pass
        built: Built = ours.recv()
    except EOFError:
        process.join()
        return Built(False, f"building ended by itself ({process.exitcode})", ("seambook: building ended by itself",))
    finally:
        with _undisturbed():
            _end(process)
        ours.close()
    return built


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
        with contextlib.suppress(ProcessLookupError, PermissionError):
            if hasattr(os, "killpg") and process.pid is not None:
                os.killpg(process.pid, signal.SIGTERM)
            else:
                process.terminate()
        process.join()


def _build_and_tell(contents: tuple[str, ...], folder: Path, out: Path, tell: Connection) -> None:
    if hasattr(os, "setpgid"):
        os.setpgid(0, 0)  # so that it can be ended with its own children
    gc.disable()
    tell.send(build(contents, folder, out))


def build(contents: Sequence[str], folder: Path, out: Path) -> Built:
    """Build the book once; nothing that can be wrong with it raises."""
    try:
        chosen = layers.choose(contents, folder)
        if chosen.problems:
            return _failed(chosen.problems, {layers.SHOP_FILE: folder / layers.SHOP_FILE})
        order = pipeline.Order(
            chosen.layers, templates(), out, chosen.name, shop=chosen.shop, kept=pipeline.kept_of(out.absolute())
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
