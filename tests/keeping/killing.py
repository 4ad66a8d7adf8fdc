"""A child that builds a book again and again -> killed at a moment, and what stands there then."""

from __future__ import annotations

import gc
import os
import random
import shutil
import signal
import time
from contextlib import suppress
from pathlib import Path

from builder import pipeline
from builder.model.files import Layer
from builder.supplied import templates
from tests.books.laying import TINY
from tests.site.building import files_of

WORD = ("Lay the film on every bare face", "Lay one film on every bare face")


class Shop:
    """A book of two editions, of which one or the other is built in a child that may be killed."""

    def __init__(self, folder: Path) -> None:
        self.site = folder / "site"
        self.contents = [folder / name for name in ("first", "second")]
        for at, content in enumerate(self.contents):
            shutil.copytree(TINY, content)
            path = content / "procedures" / "weld-cover.yaml"
            path.write_text(path.read_text("utf-8").replace(*WORD) if at else path.read_text("utf-8"), "utf-8")
        self.editions = [self._built(content, folder / f"edition-{at}") for at, content in enumerate(self.contents)]
        # Layers are told by their path, so both editions are built from one folder, which is exchanged.
        self.content = folder / "content"

    def _built(self, content: Path, site: Path) -> dict[str, bytes]:
        order = pipeline.Order((Layer(content, "content"),), templates(), site, processes=1)
        assert pipeline.make(order).published is not None
        return files_of(site)

    def write(self, edition: int) -> None:
        """Write one edition's records in place of the other's."""
        shutil.rmtree(self.content, ignore_errors=True)
        shutil.copytree(self.contents[edition], self.content)

    def build(self, processes: int, after: float | None = None) -> bool:
        """Build in a child; kill it and its children so many seconds later. Return whether it came to its end."""
        child = os.fork()
        if child == 0:
            code = 1
            try:
                os.setpgid(0, 0)
                gc.disable()
                kept = pipeline.kept_of(self.site)
                layers = (Layer(self.content, "content"),)
                order = pipeline.Order(layers, templates(), self.site, processes=processes, kept=kept)
                code = int(pipeline.make(order).published is None)
            finally:
                os._exit(code)
        with suppress(PermissionError):  # whoever comes first; not where the child has come to its end already
            os.setpgid(child, child)
        if after is not None:
            time.sleep(after)
            os.killpg(child, signal.SIGKILL)
        return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 0

    def edition(self) -> int:
        """Return which edition stands there; -1 for one that is neither."""
        if not self.site.exists():
            return -1
        lying = files_of(self.site)
        return next((at for at, one in enumerate(self.editions) if one == lying), -1)


def killed_at_random(folder: Path, times: int, seed: int) -> tuple[int, int]:
    """Kill so many builds, each at a random moment; return how many were old and how many new afterwards.

    Raises AssertionError where what stands there is neither, or where the next build does not mend it.
    """
    chance, shop = random.Random(seed), Shop(folder)
    shop.write(0)
    started = time.perf_counter()
    assert shop.build(1)
    takes = time.perf_counter() - started
    counts = [0, 0]
    now = 0
    for at in range(times):
        wanted = 1 - now
        shop.write(wanted)
        shop.build(1 + at % 2, after=chance.uniform(0, takes))
        stands = shop.edition()
        assert stands in (now, wanted), f"kill {at} of seed {seed}: neither edition stands there"
        counts[stands == wanted] += 1
        if at % 4 == 3:
            assert shop.build(1 + at % 2), f"kill {at} of seed {seed}: the next build fails"
            stands = shop.edition()
            assert stands == wanted
            left = sorted(
                path.name for path in folder.glob(".seambook-*") if path.name.split("-")[1] not in ("kept", "spare")
            )
            assert left == [], f"kill {at} of seed {seed}"
        now = stands
    return counts[0], counts[1]
