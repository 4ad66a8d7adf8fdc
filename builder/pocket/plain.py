"""Pages as they were drawn in, plain HTML out: text and drawings that read where no script runs.

A preview of an attachment often runs none. What only a script can use is left out, and so is what would say a thing
twice: the plain part stands in the file as it is, and packed pages weigh a tenth of it.
"""

from __future__ import annotations

import posixpath
import re
from collections.abc import Iterator, Mapping, Sequence
from html import escape
from typing import NamedTuple

from builder.pocket.strokes import fewer_letters

KINDS = (
    "procedures", "seams", "hazards", "methods", "cavities", "openings", "decisions", "tables", "supplies", "vehicles",
    "pages",
)  # fmt: skip
"""Folders of the pages that are read plain, in their order; what is worked out by typing is not among them, nor
are faults of finished work, which nobody looks for in a preview, nor lessons, which cannot ask anything there."""
LEFT_OUT = frozenset(
    "coming more-on rework tick given with on-this-page used-by ticking onward more initials "  # noqa: SIM905
    "skip paper-head laid plan groups timing in-words choosing part_seams part_sources quiet contents "
    "to_bay part_revisions part_teach".split()
)
"""Classes of what is left out with all in it."""
_UNREAD = frozenset(("form", "button", "script", "math", "input", "select", "textarea", "nav", "desc", "defs"))
_TOKEN = re.compile(r"<(/?)([a-zA-Z][\w-]*)([^>]*)>|([^<]+)")
_ATTRIBUTE = re.compile(r'([\w:-]+)="?((?<=")[^"]*|[\w-]+)')
_MAIN = re.compile(r"<main\b.*?</main>", re.DOTALL)
_VOID = frozenset(("br", "img", "hr", "input", "meta", "link", "wbr", "source"))
_BROKEN_BY = frozenset(("div", "section", "article", "p", "header", "figure", "figcaption", "summary", "details"))
_NEW = {"h1": "h2", "h2": "h3", "h3": "h4", "h4": "h5", "h5": "h5", "h6": "h5"}
_LISTS = frozenset(("ul", "ol", "dl", "table"))
_ROWS = frozenset(("li", "dt", "dd", "tr", "td", "th"))
_JUST_BEGUN = (["<li>"], ["<dd>"], ["<dt>"], ["<td>"], ["<th>"])
_TAKES_NO_BLANK = re.compile(r"^$| $|<(?!/?(?:b|a|sup|sub)\b)[^<]*>$")
_INLINE = {"b": "b", "strong": "b", "sup": "sup", "sub": "sub"}
_DROPPED = re.compile(r' (?:data-[\w-]+|aria-[\w-]+|role|id|class="drawing"|fill="url\([^)]*\)")(?:="[^"]*")?')
"""Hatching goes, too: a tint says as much, and takes no room."""
_FINE = re.compile(r"(?<=[ML HVAZ,\"])-?\d+\.\d+")
_BLANK = re.compile(r" (?=</?(?:p|h[2-5]|hr|ul|li|dl|dt|dd|table|tr|td|th|svg)\b)")
"""A blank that nobody sees, since a new line begins."""
_STEPS = 'id="part_steps"'
_STEP = re.compile(r'class="?step\b')
_CONTENTS = re.compile(
    r'<section class="block links">\s*<h2>[^<]*</h2>\s*<ul[^>]*>\s*<li><a href="#.*?</section>', re.DOTALL
)
"""A page's list of its own parts."""
_BRIEF = re.compile(
    r'<p class="brief signal-[2-9]"><strong>\w+</strong> <a href="([^"]*)">([^<]*)</a>[^\n]*?</p>'
)
"""A danger in a procedure's list of them, with its way and name; what kills is not among them."""
_WHOLE = re.compile(
    r'<div class="warning (signal-[2-9])">\s*<p class="?signal"?>(<strong>\w+</strong>)</p>\s*'
    r'<p>(?:(?!</p>).)*<a class="?more"? href="([^"]*)">[^<]*</a></p>\s*</div>', re.DOTALL,
)  # fmt: skip
"""A danger at a step: what it asks for stands in that list, which is read before, and all of it on its own page."""
_NAMED = "named-danger"
"""The class of a way to such a danger, which is kept where others are words."""
_REPEATED = re.compile(r"\bbrief\b(?!.*\bsignal-1\b)")
"""The class of a danger told in brief; what kills is told whole each time."""


class PlainPage(NamedTuple):
    """One page, read plain."""

    path: str
    title: str
    html: str


def plain_page(path: str, page: str, held: frozenset[str]) -> PlainPage:
    """Return a page's text and drawings; ways lead to what is `held` plain, too."""
    main = _MAIN.search(page)
    writer = _Writer(path, held)
    before, steps, after = _CONTENTS.sub("", main[0] if main else "").partition(_STEPS)
    writer.read(before + steps + _named(after, dict(_BRIEF.findall(before))))
    return PlainPage(path, writer.title.strip(), fewer_letters(_BLANK.sub("", "".join(writer.out))))


def plain_part(pages: Sequence[PlainPage], folders: Mapping[str, str]) -> str:
    """Return all of it: a list of what there is, then page for page; `folders` gives their headings."""
    out: list[str] = []
    for folder, of_folder in _by_folder(pages):
        out.append(f"<h3>{escape(folders.get(folder, folder))}</h3><ul>")
        out += (f'<li><a href="#{one.path}">{one.title}</a>' for one in of_folder)
        out.append("</ul>")
    out += (f'<section id="{one.path}">{one.html}</section>' for one in pages)
    return "".join(out)


def _by_folder(pages: Sequence[PlainPage]) -> Iterator[tuple[str, list[PlainPage]]]:
    for folder in KINDS:
        found = [one for one in pages if one.path.startswith(f"{folder}/")]
        if found:
            yield folder, found


def _named(steps: str, names: Mapping[str, str]) -> str:
    """Leave a danger at a step its word and its name, a way to all of it, where the list of dangers has it."""

    def name(whole: re.Match[str]) -> str:
        signal, word, way = whole.groups()
        if way not in names:
            return whole[0]
        return f'<p class="{signal}">{word} <a class="{_NAMED}" href="{way}">{names[way]}</a></p>'

    return _WHOLE.sub(name, steps)


def _rounded(number: re.Match[str]) -> str:
    """Round to what can be seen of a drawing on a phone."""
    return f"{float(number[0]):.0f}"


class _Writer:
    """Reads a page tag by tag and keeps what can be read; what it reads was written by this book's own templates."""

    def __init__(self, path: str, held: frozenset[str]) -> None:
        self.path = path
        self.held = held
        self.out: list[str] = []
        self.title = ""
        self.is_broken = False
        """Whether a new paragraph begins with the next text."""
        self.skipping = 0
        self.drawing = 0
        self.is_title = False
        self.rows = 0
        """How many lists of ways are open."""
        self.step = ""
        self.is_number = False
        """Whether what is said next is a step's number, with which it begins."""
        self.brief = -1
        """Where a danger told in brief began that a step may have told before."""
        self.told: set[str] = set()
        self.ends: list[tuple[str, str]] = []
        """The open elements, and what is written when each ends."""

    def read(self, html: str) -> None:
        for closing, tag, attributes, text in _TOKEN.findall(html):
            if text:
                self.text(text)
            elif closing:
                self.close(tag)
            else:
                self.open(tag, attributes)

    def text(self, text: str) -> None:
        if self.skipping or (not text.strip() and self.is_broken):
            return
        if self.is_number:
            self.step, self.is_number = text.strip(), False
            return
        said = re.sub(r"\s+", " ", text).replace("&#39;", "'").replace("&quot;", '"').replace("&gt;", ">")
        if self.is_title:
            self.title += said
        if self.is_broken and said.strip():
            self.out.append("<p>")
            self.is_broken = False
        if said != " " or not _TAKES_NO_BLANK.search("".join(self.out[-1:])):
            self.out.append(said)

    def open(self, tag: str, attributes: str) -> None:
        is_void = tag in _VOID or attributes.endswith("/")
        if self.skipping or self.is_left_out(tag, attributes):
            if not is_void:
                self.skipping += 1
                self.ends.append((tag, ""))
            return
        if self.drawing or tag == "svg":
            self.draw(tag, attributes, is_void=is_void)
            return
        if is_void:
            if tag == "br":
                self.out.append("<br>")
            return
        self.ends.append((tag, self.begin(tag, attributes)))

    def begin(self, tag: str, attributes: str) -> str:
        """Write an element's beginning; return its end."""
        if tag == "article" and _STEP.search(attributes):
            self.is_number = True
            self.out.append("<hr>")
        if tag in _NEW:
            return self.heading(tag)
        if tag in _LISTS or tag in _ROWS:
            self.is_broken = False
            self.out.append(f"<{tag}>")
            self.rows += "to-open" in attributes
            return f"</{tag}>" if tag in _LISTS else ""
        if tag in _INLINE:
            self.begun(f"<{_INLINE[tag]}>")
            return f"</{_INLINE[tag]}>"
        if tag == "a":
            return self.way(attributes)
        if tag == "p" and (names := _ATTRIBUTE.findall(attributes)) and _REPEATED.search(names[0][1]):
            self.brief = len(self.out)
        if tag in _BROKEN_BY:
            self.is_broken = self.is_broken or self.out[-1:] not in _JUST_BEGUN
        return ""

    def begun(self, tag: str) -> None:
        if self.is_broken:
            self.out.append("<p>")
            self.is_broken = False
        self.out.append(tag)

    def heading(self, tag: str) -> str:
        self.is_broken = False
        self.is_title = tag == "h1"
        self.out.append(f"<{_NEW[tag]}>")
        if tag == "h4" and self.step:
            self.out.append(f"{self.step}. ")
            self.step = ""
        return f"</{_NEW[tag]}>"

    def way(self, attributes: str) -> str:
        """Write a way of a list to a page that is read plain, too; any other is text alone."""
        href = dict(_ATTRIBUTE.findall(attributes)).get("href", "")
        target = posixpath.normpath(posixpath.join(posixpath.dirname(self.path), href.partition("#")[0]))
        is_wanted = self.rows > 0 or _NAMED in attributes
        if not is_wanted or target not in self.held or target == self.path:
            return ""
        self.begun(f'<a href="#{target}">')
        return "</a>"

    def close(self, tag: str) -> None:
        while self.ends:
            opened, end = self.ends.pop()
            if self.skipping:
                self.skipping -= 1
            else:
                self.end(opened, end)
            if opened == tag:
                return

    def end(self, tag: str, end: str) -> None:
        if end:
            self.out.append(end)
        if self.drawing:
            self.drawing -= 1
            self.is_broken = not self.drawing
        elif tag in _NEW:
            self.is_title = False
            self.is_broken = True
        elif tag in _BROKEN_BY or tag in _LISTS:
            self.is_broken = True
            self.rows -= bool(self.rows) and tag == "ul"
            if self.brief >= 0:
                self.tell()

    def tell(self) -> None:
        """Leave a danger its word and name where this page has said what it asks for."""
        whole = "".join(self.out[self.brief:])
        if whole in self.told:
            self.out[self.brief:] = [whole.partition(": ")[0]]
        self.told.add(whole)
        self.brief = -1

    def draw(self, tag: str, attributes: str, *, is_void: bool) -> None:
        kept = _FINE.sub(_rounded, _DROPPED.sub("", attributes.rstrip("/")))
        if tag == "title":
            kept = ""
        self.is_broken = False
        self.out.append(f"<{tag}{kept}{'/' if is_void else ''}>")
        if not is_void:
            self.drawing += 1
            self.ends.append((tag, f"</{tag}>"))

    def is_left_out(self, tag: str, attributes: str) -> bool:
        if tag in _UNREAD:
            return True
        if not attributes:
            return False
        found = dict(_ATTRIBUTE.findall(attributes))
        names = (*found.get("class", "").split(), found.get("id", ""))
        is_hidden = attributes.rstrip("/").endswith(" hidden") or " hidden " in attributes
        is_unsaid = found.get("aria-hidden") == "true" and tag != "svg"
        return is_hidden or is_unsaid or not LEFT_OUT.isdisjoint(names)
