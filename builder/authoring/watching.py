"""Folders -> a word whenever something in them changes, from threads of their own."""

from __future__ import annotations

import queue
import threading
from collections.abc import Callable, Iterable
from pathlib import Path

from watchfiles import Change, DefaultFilter, watch

from builder.layers import SHOP_FILE

_DRAFTS = ".seambook-"
"""So begin the names of what a build keeps beside its target."""


class _OfTheBook(DefaultFilter):
    """Lets pass what the book is made of, and not the book itself where it lies in a folder that is looked at."""

    def __init__(self, out: Path) -> None:
        super().__init__()
        self._out = out

    def __call__(self, change: Change, path: str) -> bool:
        at = Path(path)
        inside = at == self._out or self._out in at.parents or any(part.startswith(_DRAFTS) for part in at.parts)
        return not inside and super().__call__(change, path)


class Watcher:
    """Looks at a shop's folders until it is closed; `changed` holds a word for each change that nobody took yet."""

    def __init__(self, shop: Path, out: Path) -> None:
        self.changed: queue.SimpleQueue[None] = queue.SimpleQueue()
        self._filter = _OfTheBook(out.resolve())
        self._closed = threading.Event()
        self._folders: tuple[Path, ...] = ()
        self._others: threading.Event | None = None
        self._replaced = threading.Event()
        """A folder looked at was taken away or put in the place of another: its watch is on what is gone."""
        self._begin((shop.resolve(),), self._closed, self._is_at_the_top, recursive=False)

    def look_at(self, folders: Iterable[Path]) -> None:
        """Look at these folders, whatever lies in them, and no longer at those before."""
        wanted = tuple(sorted({folder.resolve() for folder in folders if folder.is_dir()}))
        if wanted == self._folders and not self._replaced.is_set():
            return
        self._replaced.clear()
        if self._others is not None:
            self._others.set()
        self._folders, self._others = wanted, threading.Event()
        self._begin(wanted, self._others, self._filter, recursive=True)

    def wait(self) -> None:
        """Return when something has changed; however much it was, once."""
        while True:
            try:
                self.changed.get(timeout=0.5)  # now and then, so that Ctrl-C is heard wherever this runs
                break
            except queue.Empty:
                continue
        while not self.changed.empty():
            self.changed.get()

    def close(self) -> None:
        """Let the threads end."""
        self._closed.set()
        if self._others is not None:
            self._others.set()

    def _is_at_the_top(self, change: Change, path: str) -> bool:
        """Whether it is the shop's own file, or a folder of records as a whole."""
        if Path(path) in self._folders and change is not Change.modified:
            self._replaced.set()
            return True
        return Path(path).name == SHOP_FILE

    def _begin(
        self, folders: tuple[Path, ...], stop: threading.Event, admit: Callable[[Change, str], bool], recursive: bool
    ) -> None:
        def look() -> None:
            for _ in watch(
                *folders, watch_filter=admit, stop_event=stop, recursive=recursive, raise_interrupt=False,
                rust_timeout=500, debounce=400,
            ):  # fmt: skip
                self.changed.put(None)

        threading.Thread(target=look, daemon=True).start()


