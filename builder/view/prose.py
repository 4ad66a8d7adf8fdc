"""Markdown of records -> safe HTML, with references turned into links.

`Prose` holds one Markdown machine a process; plain strings bypass it, and a repeated string is made once.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import lru_cache
from html import escape
from typing import Any
from xml.etree.ElementTree import Element

from markdown import Markdown
from markdown.extensions import Extension
from markdown.treeprocessors import Treeprocessor

from builder.model.records import KIND
from builder.model.reference import Ref, parse_reference
from builder.model.views import Html

_REFERENCE = re.compile(r"(?:\[([^\[\]]*))?\]\(([a-z]+:[^)\s]*)\)")
_MARKED = re.compile(r"[*_`\[\]<>&\\!#|~=:\n\"']|^\s|\s\s|\s$|^[-+>]|^\d+[.)]|://")
"""Anything that could mean something in Markdown; a text without it is a plain paragraph."""
_SCHEMES = ("https://", "http://")
_OWN_WAY = re.compile(r"(?!/)[A-Za-z0-9_./#-]+")
"""What our own link writer writes; a colon, or a character reference that could become one, is not among it, nor is a
first slash: two of them lead to another server."""
Href = Callable[[Ref], str]
Called = Callable[[Ref], str]
"""The title of a page that a way leads to, for paper; empty where it need not be said."""


def _unsaid(_ref: Ref) -> str:
    return ""


class _KnownWaysOnly(Treeprocessor):
    """Links lead to the book's own pages or to the web; every other scheme loses its link."""

    def run(self, root: Element) -> None:
        for element in root.iter():
            way = element.get("href")
            if way is not None and not _OWN_WAY.fullmatch(way) and not way.lower().startswith(_SCHEMES):
                del element.attrib["href"]
            elif way is not None and "title" in element.attrib and _OWN_WAY.fullmatch(way):
                element.set("data-page", element.attrib.pop("title"))


class _Safe(Extension):
    """Markdown without raw HTML, without images and without links to other schemes."""

    def extendMarkdown(self, md: Markdown) -> None:  # noqa: N802  # the library's own name
        md.preprocessors.deregister("html_block")
        for name in ("html", "image_link", "image_reference", "short_image_ref", "automail"):
            md.inlinePatterns.deregister(name)
        md.treeprocessors.register(_KnownWaysOnly(md), "known_ways_only", 0)


class Prose:
    """Turns record texts into HTML; texts are kept, since a book repeats itself."""

    def __init__(self) -> None:
        self._machine: Any = Markdown(extensions=[_Safe(), "tables"], output_format="html")
        self._kept: dict[str, str] = {}
        self._lines: dict[str, Html] = {}

    def paragraphs(self, text: str, href: Href, called: Called = _unsaid) -> Html:
        """Return block HTML: paragraphs, lists, tables. A way carries the title of its page where it is called else."""
        if not _MARKED.search(text):
            return Html(f"<p>{text}</p>")
        return Html(self._convert(_with_ways(text, href, called)))

    def line(self, text: str, href: Href) -> Html:
        """Return inline HTML of a one-line text."""
        if "](" in text:
            return self._inline(_with_ways(text, href))
        made = self._lines.get(text)
        if made is None:
            made = self._lines[text] = self._inline(text)
        return made

    def _inline(self, text: str) -> Html:
        if not _MARKED.search(text):
            return Html(text)
        made = self._convert(_as_one_line(text))
        if made.startswith("<p>") and made.endswith("</p>") and made.count("<p>") == 1:
            return Html(made[3:-4])
        return Html(escape(text))

    def _convert(self, text: str) -> str:
        made = self._kept.get(text)
        if made is None:
            self._machine.reset()
            made = self._kept[text] = self._machine.convert(text)
        return made


_BLOCK_START = re.compile(r"^(\s*)([#>+-]|\*(?= )|\d+(?=[.)]))")


def _as_one_line(text: str) -> str:
    """Keep a line's first characters from being read as a heading, a list or a quotation."""
    found = _BLOCK_START.match(text)
    if found is None:
        return text
    number = found[2].isdigit()
    at = found.end() if number else found.end(1)
    return f"{text[:at]}\\{text[at:]}"


def _with_ways(text: str, href: Href, called: Called = _unsaid) -> str:
    """Put hrefs in place of references; what is no reference of ours is left as it is."""
    if "](" not in text:
        return text

    def way(found: re.Match[str]) -> str:
        ref = parse_reference(found[2])
        if ref is None or ref.kind not in KIND:
            return found[0]
        text, title = found[1], called(ref)
        is_said = text is None or not title or '"' in title or title.casefold() in text.casefold()
        return f"{'' if text is None else f'[{text}'}]({href(ref)}" + (")" if is_said else f' "{title}")')

    return _REFERENCE.sub(way, text)


@lru_cache(maxsize=16384)
def plain_text(text: str) -> str:
    """Return a record's text without its mark-up, for the search index and for text equivalents."""
    text = re.sub(r"\[([^\]]*)\]\([^)]*\)", r"\1", text)
    return re.sub(r"[*_`\\]+", "", text)
