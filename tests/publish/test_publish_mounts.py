"""Real file systems under the published folder: full, read-only, or the folder itself; a terminal that stands in it."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest

from builder.publish import PublishError
from tests.publish.book import FIRST, SECOND, beside, build, pages_of


class Mounted:
    """A small file system in memory."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def __call__(self, *words: str) -> bool:
        return subprocess.run(words, capture_output=True, check=False).returncode == 0

    def again(self, options: str) -> None:
        assert self("mount", "-o", f"remount,{options}", str(self.folder))


@pytest.fixture
def small(tmp_path: Path) -> Iterator[Mounted]:
    one = Mounted(tmp_path / "small")
    one.folder.mkdir()
    if os.geteuid() != 0 or not one("mount", "-t", "tmpfs", "-o", "size=64k", "none", str(one.folder)):
        pytest.skip("only root mounts, and not everywhere")
    yield one
    assert one("umount", str(one.folder))


def test_a_full_file_system_keeps_the_old_book_and_takes_the_next_that_fits(small: Mounted) -> None:
    target = small.folder / "site"
    build(target, FIRST)
    with pytest.raises(PublishError, match="No space left on device") as caught:
        build(target, {"index.html": b"x" * 200_000})
    assert "free some space" in caught.value.do
    assert pages_of(target) == FIRST
    assert beside(target) == []
    build(target, SECOND)
    assert pages_of(target) == SECOND


def test_a_file_system_without_a_free_entry_keeps_the_old_book(small: Mounted) -> None:
    target = small.folder / "site"
    build(target, FIRST)
    small.again("nr_inodes=24")
    with pytest.raises(PublishError, match="No space left on device"):
        build(target, {f"{at}.html": b"x" for at in range(40)})
    assert pages_of(target) == FIRST
    assert beside(target) == []


def test_a_read_only_file_system_is_told_and_left(small: Mounted) -> None:
    target = small.folder / "site"
    build(target, FIRST)
    small.again("ro")
    with pytest.raises(PublishError, match="Read-only file system"):
        build(target, SECOND)
    assert pages_of(target) == FIRST
    small.again("rw")
    build(target, SECOND)
    assert pages_of(target) == SECOND


def test_the_top_of_a_file_system_is_no_place_for_a_book(small: Mounted) -> None:
    with pytest.raises(PublishError, match="top of a file system") as caught:
        build(small.folder, FIRST)
    assert "name a folder inside it" in caught.value.do
    assert list(small.folder.iterdir()) == []


def test_a_terminal_that_stands_in_the_folder_keeps_nothing_from_being_published(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    target = tmp_path / "site"
    build(target, FIRST)
    monkeypatch.chdir(target / "panels")
    opened = os.open("..", os.O_RDONLY)
    try:
        build(target, SECOND)
    finally:
        os.close(opened)
    assert pages_of(target) == SECOND
    assert beside(target) == []
