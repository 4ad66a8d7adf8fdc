"""`python -m tests.hostile.fuzzing TARGET`: spoil its seeds for so many seconds or rounds, or led by what is reached.

One line of JSON says what came of it. Every input that raises, or takes too long, is put down beside its trace; the
same trace is put down once. With `--guided` atheris chooses what is worth spoiling further, by the lines that are
reached.
"""

from __future__ import annotations

import argparse
import json
import os
import random
import resource
import shutil
import sys
import tempfile
import time
import traceback
from collections.abc import Callable
from dataclasses import dataclass, field
from hashlib import sha256
from pathlib import Path

MOST_MEGABYTES = 500
MOST_SECONDS = 5.0
"""Of a processor's time for one input; what is slow in earnest takes minutes."""
MOST_KEPT = 400
LONGEST = 60_000


@dataclass
class Count:
    """What has come of all inputs so far."""

    target: str
    folder: Path
    executions: int = 0
    accepted: int = 0
    slowest: float = 0.0
    found: dict[str, str] = field(default_factory=dict)
    """Where an exception was raised -> the file that holds the input."""

    def run(self, deed: Callable[[bytes], bool], data: bytes) -> bool:
        """Try one input."""
        started = time.process_time()
        self.executions += 1
        try:
            is_accepted = deed(data)
        except Exception as error:
            self.put_down(data, _place_of(error), traceback.format_exc())
            return False
        took = time.process_time() - started
        self.slowest = max(self.slowest, took)
        if took > MOST_SECONDS:
            self.put_down(data, f"slow: {took:.0f} s", "")
        self.accepted += is_accepted
        return is_accepted

    def put_down(self, data: bytes, place: str, trace: str) -> None:
        """Keep an input that failed, with its trace."""
        if place not in self.found:
            path = self.folder / f"{self.target}-{sha256(data).hexdigest()[:12]}"
            path.write_bytes(data)
            path.with_suffix(".txt").write_text(f"{place}\n{trace}", "utf-8", errors="replace")
            self.found[place] = path.name

    def said(self) -> str:
        """Say it in one line."""
        return json.dumps({
            "target": self.target, "executions": self.executions, "accepted": self.accepted,
            "slowest": round(self.slowest, 2), "found": self.found,
            "megabytes": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024,
        })  # fmt: skip


def _place_of(error: Exception) -> str:
    """Tell failures apart by the last line of ours that they passed through."""
    frames = traceback.extract_tb(error.__traceback__)
    ours = [one for one in frames if "/builder/" in one.filename or "/tests/" in one.filename]
    last = ours[-1] if ours else frames[-1]
    return f"{type(error).__name__} at {Path(last.filename).name}:{last.lineno} {last.name}"


def main() -> int:
    """Run one target."""
    asked = argparse.ArgumentParser()
    asked.add_argument("target")
    asked.add_argument("--seconds", type=float, default=1e9)
    asked.add_argument("--rounds", type=int, default=10**12)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--found", type=Path, default=None)
    asked.add_argument("--corpus", type=Path, default=None)
    asked.add_argument("--guided", action="store_true")
    order = asked.parse_args()
    most = MOST_MEGABYTES * 1024 * 1024
    resource.setrlimit(resource.RLIMIT_DATA, (most, most))
    with tempfile.TemporaryDirectory() as folder:
        count = Count(order.target, order.found or Path(folder))
        count.folder.mkdir(parents=True, exist_ok=True)
        (_guided if order.guided else _blind)(order, count, Path(folder))
    return 1 if count.found else 0


def _blind(order: argparse.Namespace, count: Count, folder: Path) -> None:
    """Spoil seeds by chance; what was accepted is spoiled further."""
    from tests.hostile.fuzzing.targets import TARGETS

    target = TARGETS[order.target]
    deed, pool = target.open(folder), list(target.seeds())
    seeds = len(pool)
    for data in pool:
        count.run(deed, data)
    chance = random.Random(order.seed)
    ends = time.monotonic() + order.seconds
    for _ in range(order.rounds):
        if time.monotonic() > ends:
            break
        data = target.changed(chance.choice(pool), chance)[:LONGEST]
        if count.run(deed, data) and len(pool) < seeds + MOST_KEPT:
            pool.append(data)
    print(count.said(), flush=True)


def _guided(order: argparse.Namespace, count: Count, folder: Path) -> None:
    """Let atheris choose."""
    import atheris

    with atheris.instrument_imports(include=["builder"]):
        from tests.hostile.fuzzing.targets import TARGETS
    target = TARGETS[order.target]
    corpus = order.corpus or folder / "corpus"
    corpus.mkdir(parents=True, exist_ok=True)
    seeds = target.seeds()
    for data in seeds:
        (corpus / sha256(data).hexdigest()[:16]).write_bytes(data)
    deed = target.open(folder)
    ends = time.monotonic() + order.seconds

    def one(data: bytes) -> None:
        count.run(deed, data)
        if time.monotonic() > ends or count.executions >= order.rounds:
            print(count.said(), flush=True)
            shutil.rmtree(folder, ignore_errors=True)
            os._exit(1 if count.found else 0)  # atheris would take any other end for a find

    def changed(data: bytes, most: int, seed: int) -> bytes:
        chance = random.Random(seed)
        if not chance.randrange(8):
            made: bytes = atheris.Mutate(data, most)
            return made
        # What was spoiled again and again is refused early, and nothing behind is reached: seeds are spoiled as often.
        return target.changed(chance.choice((data, chance.choice(seeds))), chance)[:most]

    arguments = [sys.argv[0], f"-seed={order.seed}", f"-max_len={LONGEST}", "-timeout=60", "-rss_limit_mb=0",
                 "-verbosity=0", f"-artifact_prefix={count.folder}/", str(corpus)]  # fmt: skip
    atheris.Setup(arguments, one, custom_mutator=changed)
    atheris.Fuzz()


if __name__ == "__main__":
    sys.exit(main())
