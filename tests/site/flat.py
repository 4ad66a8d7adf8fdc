"""A page's mark-up -> its elements in document order, each with what holds it: what goes through every page asks this.

A tree that can be asked anything takes ten times as long to make of the whole book, and a gigabyte. `test_flat.py`
holds this reader against the one of the standard library.
"""

from __future__ import annotations

import gc
import re
from collections.abc import Iterator
from html import unescape
from pathlib import Path

VOID = {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}
RAW = {"script", "style"}
"""What stands in these is no mark-up."""
_ONE = r"""\s+([^\s=>/"']+)(?:\s*=\s*("[^"]*"|'[^']*'|[^\s"'=<>`]+))?"""
_ATTR = re.compile(_ONE)
_TOKEN = re.compile(
    r"([^<]+)|<([a-zA-Z][^\s/>]*)((?:" + _ONE.replace("(", "(?:").replace("(?:?:", "(?:") + r")*)\s*(/?)>"
    r"|</([a-zA-Z][^\s>]*)\s*>|<!(?:--.*?--|[^>]*)>", re.DOTALL,
)  # fmt: skip
"""Text, a start with its attributes, an end; or what says nothing."""


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


def elements(html: str) -> list[Element]:
    """Every element of a page, in document order; ValueError where there is mark-up that a book has no need of."""
    found: list[Element] = []
    holders: list[Element] = []
    at, was_text = 0, False
    while at < len(html):
        token = _TOKEN.match(html, at)
        if token is None:
            raise ValueError(f"what is this: {html[at:at + 80]!r}")
        at = token.end()
        text, name, attrs, closes, ended = token.groups()
        if text is not None:
            if holders:
                _say(holders[-1], unescape(text), was_text)
                was_text = True
        elif name is not None:
            name, was_text = name.lower(), False
            holder = holders[-1] if holders else None
            if holder is not None:
                holder.is_parent = True
            found.append(Element(name, _attrs(attrs), holder))
            if name not in VOID and not closes:
                holders.append(found[-1])
            if name in RAW:
                end = html.index(f"</{name}", at)
                if end > at:
                    _say(found[-1], html[at:end], was_text=False)
                at = end
        elif ended is not None:
            was_text = False
            _close(holders, ended.lower())
    return found


def _say(holder: Element, text: str, was_text: bool) -> None:
    if was_text:
        holder.texts[-1] += text
    else:
        holder.texts.append(text)


def _close(holders: list[Element], name: str) -> None:
    for at in range(len(holders) - 1, -1, -1):
        if holders[at].name == name:
            del holders[at:]
            return


def _attrs(told: str) -> dict[str, str]:
    found = {}
    for name, value in _ATTR.findall(told):
        plain = value[1:-1] if value[:1] in ("'", '"') else value
        found[name.lower()] = unescape(plain) if "&" in plain else plain
    return found


def all_elements(site: Path) -> dict[str, list[Element]]:
    """Those of each page, by its path from the book's root."""
    gc.disable()  # nothing of it can go, and looking through it again and again takes half of the time
    try:
        return {path.relative_to(site).as_posix(): elements(path.read_text("utf-8"))
                for path in sorted(site.rglob("*.html"))}  # fmt: skip
    finally:
        gc.freeze()
        gc.enable()
