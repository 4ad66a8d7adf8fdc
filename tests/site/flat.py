"""A page's mark-up -> its elements in document order, each with what holds it: what goes through every page asks this.

A tree that can be asked anything takes four times as long to make of the whole book, and a gigabyte.
"""

from __future__ import annotations

import gc
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path

VOID = {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}


class Element:
    """One element with its own text, piece by piece as child elements part it."""

    __slots__ = ("attrs", "holder", "is_parent", "name", "texts")

    def __init__(self, name: str, attrs: dict[str, str], holder: Element | None) -> None:
        self.name = name
        self.attrs = attrs
        self.holder = holder
        self.is_parent = False
        self.texts: list[str] = []

    def holders(self) -> Iterator[Element]:
        """Whatever holds it, the nearest first."""
        above = self.holder
        while above is not None:
            yield above
            above = above.holder

    def is_in(self, name: str) -> bool:
        """Whether an element of this name holds it."""
        return any(above.name == name for above in self.holders())


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.found: list[Element] = []
        self._open: list[Element] = []
        self._was_text = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_startendtag(tag, attrs)
        if tag not in VOID:
            self._open.append(self.found[-1])

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        holder = self._open[-1] if self._open else None
        if holder is not None:
            holder.is_parent = True
        self.found.append(Element(tag, {name: value or "" for name, value in attrs}, holder))
        self._was_text = False

    def handle_endtag(self, tag: str) -> None:
        self._was_text = False
        for at in range(len(self._open) - 1, -1, -1):
            if self._open[at].name == tag:
                del self._open[at:]
                return

    def handle_data(self, data: str) -> None:
        if not self._open:
            return
        texts = self._open[-1].texts
        if self._was_text:
            texts[-1] += data
        else:
            texts.append(data)
        self._was_text = True


def elements(html: str) -> list[Element]:
    """Every element of a page, in document order."""
    reader = _Reader()
    reader.feed(html)
    reader.close()
    return reader.found


def all_elements(site: Path) -> dict[str, list[Element]]:
    """Those of each page, by its path from the book's root."""
    gc.disable()  # nothing of it can go, and looking through it again and again takes half of the time
    try:
        return {path.relative_to(site).as_posix(): elements(path.read_text("utf-8"))
                for path in sorted(site.rglob("*.html"))}  # fmt: skip
    finally:
        gc.freeze()
        gc.enable()
