"""A small build in, stopped at one disk call after another, on a system of one's choice; what it left, out."""

import errno
import inspect
import os
import shutil
import signal
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from builder.publish import Beside, disk, open_draft

Pages = dict[str, bytes]
React = Callable[[int, str, Callable[..., Any], tuple[Any, ...]], Any]

BOOK = "stopped-book"
OLD: Pages = {
    "index.html": b"<h1>Contents, first edition</h1>",
    "same.html": b"the same in both editions",
    "panels/rocker.html": b"old rocker",
    "panels/same.html": b"also the same",
    "gone/away.html": b"only in the first edition",
    "notes": b"a file that becomes a folder",
}
NEW: Pages = {
    "index.html": b"<h1>Contents, second edition</h1>",
    "same.html": b"the same in both editions",
    "panels/rocker.html": b"a longer, newer rocker",
    "panels/same.html": b"also the same",
    "seams/deep/down/lower.html": b"only in the second edition",
    "notes/first.html": b"now a folder",
    "empty.txt": b"",
}
EARLIER: Pages = OLD | {"index.html": b"<h1>Contents, before the first edition</h1>", "panels/older.html": b"older"}
MANY: Pages = {f"many/{number}.html": b"the same in every edition %d" % number for number in range(9)}
"""So many that it is worth bringing a spare folder up to date."""
DOT_FILES: Pages = {".gitignore": b"*\n!.gitignore\n", ".keep/inner/setting": b"left alone"}
MARK = b'{"book": "stopped-book", "format": 1}\n'


@dataclass(frozen=True)
class Mode:
    name: str
    start: str
    """What stands at the target before: absent, bare or old."""
    has_exchange: bool
    has_links: bool
    is_layered: bool = False
    """Whether the target lies in a lower layer of a container image, where no folder can be renamed."""
    has_spare: bool = False
    """Whether the book before the last stays beside the target, and most pages stay."""

    @property
    def before(self) -> Pages | None:
        old = self.pages(OLD) | DOT_FILES | {".seambook": MARK}
        return {"absent": None, "bare": DOT_FILES, "old": old}[self.start]

    @property
    def after(self) -> Pages:
        return self.pages(NEW) | {".seambook": MARK} | ({} if self.start == "absent" else DOT_FILES)

    def pages(self, edition: Pages) -> Pages:
        """Return what an edition holds here."""
        return edition | (MANY if self.has_spare else {})


MODES = [
    Mode("exchange", "old", True, True),
    Mode("renames", "old", False, True),
    Mode("exchange, no links", "old", True, False),
    Mode("renames, no links", "old", False, False),
    Mode("first build", "absent", True, True),  # needs no exchange
    Mode("bare folder", "bare", True, True),
    Mode("bare folder, renames", "bare", False, True),
    Mode("lower layer", "old", False, True, True),
    Mode("bare lower layer", "bare", False, False, True),
    Mode("spare", "old", True, True, has_spare=True),
    Mode("spare, renames", "old", False, True, has_spare=True),
    Mode("spare, no links", "old", True, False, has_spare=True),
]


def build(target: Path, pages: Pages, *, keeps_spare: bool = False) -> None:
    """Build a book; where a spare is kept, what the published book holds already is kept as it lies there."""
    with open_draft(target, BOOK, keeps_spare=keeps_spare) as draft:
        for path, data in pages.items():
            published = target / path
            if keeps_spare and published.is_file() and published.read_bytes() == data:
                draft.desk.keep([path])
            else:
                draft.desk.put(path, data)
        draft.publish(list(pages))


def content(folder: Path) -> Pages | None:
    """Every file of a folder, links as links; None if nothing stands there."""
    if not os.path.lexists(folder):
        return None
    files = [path for path in sorted(folder.rglob("*")) if not path.is_dir()]
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in files}


def no_sync(folder: Path) -> None:
    """A killed process loses nothing that it wrote; only a power cut does."""


def changes() -> dict[str, Callable[..., Any]]:
    return {name: call for name, call in vars(disk).items() if inspect.isfunction(call)}


def watch(patch: pytest.MonkeyPatch, mode: Mode, target: Path, react: React) -> None:
    """Send every disk call, numbered from 1, through `react`, on a system that can what `mode` says."""

    def cannot_exchange(one: Path, other: Path) -> bool:
        return False

    def cannot_link(source: Path, path: Path) -> None:
        raise OSError(errno.EPERM, "no hard links on this file system")

    lower = target.stat().st_ino if mode.is_layered else None

    def cannot_rename_lower(source: Path, path: Path) -> None:
        if source.stat().st_ino == lower:
            raise OSError(errno.EXDEV, "a folder of a lower layer")
        os.rename(source, path)  # noqa: PTH104

    count = 0

    def watched(name: str, call: Callable[..., Any]) -> Callable[..., Any]:
        def stand_in(*args: Any) -> Any:
            nonlocal count
            count += 1
            return react(count, name, call, args)

        return stand_in

    able = changes()
    able["sync"] = no_sync
    if not mode.has_exchange:
        able["exchange"] = cannot_exchange
    if not mode.has_links:
        able["link"] = cannot_link
    if mode.is_layered:
        able["rename"] = cannot_rename_lower
    for name, call in able.items():
        patch.setattr(disk, name, watched(name, call))


def die() -> None:
    os.kill(os.getpid(), signal.SIGKILL)


def killing(number: int, moment: str) -> React:
    """Kill before or after the call of this number, or in the middle of the write of this number."""
    writes = 0

    def react(count: int, name: str, call: Callable[..., Any], args: tuple[Any, ...]) -> Any:
        nonlocal writes
        writes += name == "write"
        if moment == "within":
            if name == "write" and writes == number:
                call(args[0], args[1][: len(args[1]) // 2])
                die()
            return call(*args)
        if count != number:
            return call(*args)
        if moment == "before":
            die()
        try:
            return call(*args)
        finally:  # a call that fails, as the first file in a missing folder does, is a stop too
            die()

    return react


def failing(number: int, code: int) -> React:
    def react(count: int, name: str, call: Callable[..., Any], args: tuple[Any, ...]) -> Any:
        if count != number:
            return call(*args)
        if name == "write":
            call(args[0], args[1][: len(args[1]) // 2])
        raise OSError(code, os.strerror(code))

    return react


class Bench:
    """A folder in which the old state is laid out anew for each stop."""

    def __init__(self, tmp_path: Path, mode: Mode) -> None:
        self.mode = mode
        self.source = tmp_path / "source" / "site"
        self.target = tmp_path / "bench" / "site"
        self.spare = self.target.with_name(".seambook-spare-site")
        if mode.start != "absent":
            for path, data in DOT_FILES.items():
                (self.source / path).parent.mkdir(parents=True, exist_ok=True)
                (self.source / path).write_bytes(data)
        if mode.start == "old":
            build(self.source, mode.pages(OLD))
        assert content(self.source) == mode.before

    def lay_out(self) -> None:
        shutil.rmtree(self.target.parent, ignore_errors=True)
        self.target.parent.mkdir(parents=True)
        if self.mode.has_spare:  # the two share files, so they are made by builds
            with pytest.MonkeyPatch.context() as patch:
                patch.setattr(disk, "sync", no_sync)
                for edition in (EARLIER, OLD):
                    build(self.target, self.mode.pages(edition), keeps_spare=True)
            assert content(self.spare) == self.mode.pages(EARLIER)
            for path, data in DOT_FILES.items():
                (self.target / path).parent.mkdir(parents=True, exist_ok=True)
                (self.target / path).write_bytes(data)
            return
        if self.mode.start != "absent":
            shutil.copytree(self.source, self.target)

    def build_watched(self, react: React) -> None:
        with pytest.MonkeyPatch.context() as patch:
            watch(patch, self.mode, self.target, react)
            build(self.target, self.mode.pages(NEW), keeps_spare=self.mode.has_spare)

    def write_watched(self, target: Path, data: bytes, react: React) -> None:
        """Put one file in place, as the copy of a book in one file is."""
        with pytest.MonkeyPatch.context() as patch:
            watch(patch, self.mode, self.target, react)
            beside = Beside(target, data)
            try:
                beside.place()
            finally:
                beside.clear()

    def is_away(self) -> bool:
        """Whether the target is in the documented gap; fails unless the folder is whole there or here."""
        found = content(self.target)
        away = sorted(self.target.parent.glob(".seambook-old-*-site"))
        before = self.mode.before
        if before is not None and found not in (before, self.mode.after):
            assert not self.mode.has_exchange
            assert [content(folder) for folder in away] == [before]
            # Absent, or in a lower layer half removed: whole files of the old book, and no mark to call it one.
            assert found is None or (self.mode.is_layered and found.items() <= before.items())
            assert found is None or ".seambook" not in found
            return True
        assert found in (before, self.mode.after)
        assert all(content(folder) == self.mode.before for folder in away)
        return False

    def check_recovery(self) -> None:
        """The next build, on the system as it is, ends with the new book and nothing beside it."""
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(disk, "sync", no_sync)
            build(self.target, self.mode.pages(NEW), keeps_spare=self.mode.has_spare)
        self.check_new()

    def check_new(self) -> None:
        assert content(self.target) == self.mode.after
        beside = {path for path in self.target.parent.iterdir() if path != self.target}
        assert beside <= ({self.spare} if self.mode.has_spare else set())
        # A spare holds whole files of some edition, whatever was done to it when a build ended.
        known = {data for edition in (EARLIER, OLD, NEW, MANY) for data in edition.values()}
        assert set((content(self.spare) or {}).values()) <= known
