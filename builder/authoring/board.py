"""What building came to -> what the pages are told: a version to reload at, and the problems in words."""

from __future__ import annotations

import json
import threading
import time
from collections.abc import Sequence
from typing import NamedTuple


class News(NamedTuple):
    """How the book stands."""

    version: str
    """Another one after each book that was published."""
    failed: bool
    """The records have errors, and the book shown is an older one, if there is one."""
    title: str
    text: str
    """The problems as the terminal shows them; empty where there are none."""

    def script(self) -> str:
        """Return it as a classic script. It is also safe inside a page's own mark-up, though it never stands there."""
        data = json.dumps(self._asdict(), ensure_ascii=True).replace("<", "\\u003c")
        return f"window.seambookNews = {data};\n"


class Board:
    """Holds the news; one thread pins it up, others read it."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._run = time.time_ns()  # a page left open from another run must not take this one's book for its own
        self._books = 0
        self._news = News(f"{self._run}-0", False, "", "")

    @property
    def news(self) -> News:
        """The last news."""
        with self._lock:
            return self._news

    def pin(self, published: bool, title: str, blocks: Sequence[str]) -> None:
        """Tell of a book that was built, or of what kept it from being built."""
        with self._lock:
            self._books += published
            self._news = News(f"{self._run}-{self._books}", not published, title, "\n\n".join(blocks))
