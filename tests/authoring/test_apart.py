"""The process that `show` builds in: it stays, and is begun anew when it must."""

from __future__ import annotations

import os
import signal
import time
from collections.abc import Iterator
from contextlib import closing
from multiprocessing import active_children
from pathlib import Path

import pytest

from builder import pipeline
from builder.authoring import building
from builder.authoring.building import Apart
from tests.books.laying import TINY, edit, lay

pytestmark = pytest.mark.slow
SAID = "do: Lay the film on every bare face"


class Shop:
    """A shop's folder, its book, and the process that builds it."""

    def __init__(self, folder: Path, apart: Apart) -> None:
        self.folder, self.apart = folder, apart
        self.site = folder / "site"
        lay(folder / "content", TINY)

    def build(self) -> int:
        """Build; return the number of the process, 0 where it was ended."""
        built = self.apart.build((str(self.folder / "content"),), self.folder, self.site)
        assert built.published, built.blocks
        return self.apart.process or 0

    def says(self) -> str:
        return (self.site / "procedures" / "weld-cover.html").read_text("utf-8")


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Shop]:
    with closing(Apart()) as apart:
        yield Shop(tmp_path, apart)


def test_it_stays_between_builds_and_shows_each_edit(shop: Shop) -> None:
    first = shop.build()
    edit(shop.folder / "content", "procedures/weld-cover.yaml", (SAID, "do: Lay one film on every bare face"))
    assert shop.build() == first
    assert "Lay one film" in shop.says()


def test_after_it_was_killed_another_builds(shop: Shop) -> None:
    first = shop.build()
    os.kill(first, signal.SIGKILL)
    while first in {child.pid for child in active_children()}:
        time.sleep(0.01)
    edit(shop.folder / "content", "procedures/weld-cover.yaml", (SAID, "do: Lay one film on every bare face"))
    assert shop.build() not in (0, first)
    assert "Lay one film" in shop.says()


def test_another_edition_of_the_program_gets_another_process(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    first = shop.build()
    monkeypatch.setattr(pipeline, "edition", lambda: b"another")
    assert shop.build() not in (0, first)


def test_one_that_has_grown_is_ended_after_its_build(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(building, "MOST_MB", 1)
    assert shop.build() == 0
    assert "Lay the film" in shop.says()
    assert shop.build() == 0
