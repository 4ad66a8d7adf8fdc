"""A build in a process of its own -> its seconds by stage and the memory all its processes took at their fullest."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import threading
import time
from pathlib import Path
from typing import NamedTuple

_BUILD = """
import gc, json, sys
gc.disable()
from pathlib import Path
from builder import pipeline
from builder.model.files import Layer
from builder.supplied import templates
outcome = pipeline.make(pipeline.Order(
    (Layer(Path(sys.argv[1]), "content"),), templates(), Path(sys.argv[2]), processes=int(sys.argv[3]),
    kept=Path(sys.argv[4]) if len(sys.argv) > 4 else None,
))
assert outcome.published is not None, outcome.problems[:3]
print(json.dumps(outcome.seconds))
"""


_SHOWN = """
import gc, sys, time
gc.disable()
from pathlib import Path
from builder import pipeline
from builder.model.files import Layer
from builder.supplied import templates
from builder.warm import Warm
content, out, kept, path = map(Path, sys.argv[1:])
order = pipeline.Order((Layer(content, "content"),), templates(), out, kept=kept, warm=Warm())
text = path.read_text("utf-8")
assert "purpose: |" in text
for turn in range(3):
    time.sleep(3)
    path.write_text(text.replace("purpose: |\\n", f"purpose: |\\n  Looked at {turn}.\\n", 1), "utf-8")
    started = time.perf_counter()
    assert pipeline.make(order).published is not None
    took = time.perf_counter() - started
    gc.collect()
path.write_text(text, "utf-8")
print(took)
"""


class Measured(NamedTuple):
    """What one build took."""

    seconds: float
    """From starting the interpreter to its end."""
    stages: dict[str, float]
    peak_mb: float
    """Proportional share of memory summed over all processes, at its greatest; 0 where the system does not tell."""


def build(content: Path, out: Path, processes: int = 2, kept: Path | None = None) -> Measured:
    """Build a content folder into `out` and measure it from outside; `kept` is where results are kept, if they are."""
    started = time.perf_counter()
    child = subprocess.Popen(
        [sys.executable, "-c", _BUILD, str(content), str(out), str(processes), *([str(kept)] if kept else [])],
        stdout=subprocess.PIPE, text=True,
    )  # fmt: skip
    watcher = _Watcher(child.pid)
    watcher.start()
    output, _ = child.communicate()
    seconds = time.perf_counter() - started
    watcher.stop()
    assert child.returncode == 0
    return Measured(seconds, json.loads(output), watcher.peak_kb / 1024)


def shown(content: Path, out: Path, kept: Path, path: Path) -> float:
    """Edit one record again and again before a process that stays, as `show` has one; return what the last took."""
    arguments = [sys.executable, "-c", _SHOWN, *map(str, (content, out, kept, path))]
    return float(subprocess.run(arguments, stdout=subprocess.PIPE, text=True, check=True).stdout)


class _Watcher(threading.Thread):
    """Adds up the memory of a process and its children, five times a second: asking more often would cost time."""

    def __init__(self, pid: int) -> None:
        super().__init__(daemon=True)
        self.pid, self.peak_kb, self._done = pid, 0, threading.Event()

    def run(self) -> None:
        while not self._done.wait(0.2):
            self.peak_kb = max(self.peak_kb, sum(_share_kb(pid) for pid in _family(self.pid)))

    def stop(self) -> None:
        self._done.set()
        self.join()


def _family(pid: int) -> list[int]:
    try:
        children = Path(f"/proc/{pid}/task/{pid}/children").read_text()
    except OSError:
        return [pid]
    return [pid, *(other for child in children.split() for other in _family(int(child)))]


def _share_kb(pid: int) -> int:
    try:
        lines = Path(f"/proc/{pid}/smaps_rollup").read_text()
    except OSError:
        return 0
    return next((int(line.split()[1]) for line in lines.splitlines() if line.startswith("Pss:")), 0)


def cores() -> int:
    """Return how many cores the build may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
