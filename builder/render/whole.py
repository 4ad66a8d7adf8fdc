"""A record as HTML -> its section in a document of many: ids made its own, links kept inside, headings a step down.

Only tags are touched, and only what the templates and the link writer write there. An id of the whole book holds a
double hyphen, an id of a page's own part never does: by this the two are told apart.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from html import escape

_TAG = re.compile(r"<(/?)([a-zA-Z][a-zA-Z0-9]*)((?:\s[^>]*)?)>")
_ATTRIBUTE = re.compile(
    r'(\s(?:id|for|headers|aria-labelledby|aria-describedby|aria-controls))="([^"]*)"|\shref="([^"]*)"|url\(#([^)]+)\)'
    r'|(\saria-label)="([^"]*)"'
)
_DOCUMENT = re.compile(r"print(?:-[0-9]+)?\.html#")
WHOLE = "--"
"""In every id of the whole book."""


def section_of(html: str, name: str, title: str) -> str:
    """Return the mark-up of one record: its ids begin with the name of its section, its labels end in its title."""

    def tag(found: re.Match[str]) -> str:
        end, element, attributes = found.groups()
        if len(element) == 2 and element[0] == "h" and element[1] in "12345":
            element = f"h{int(element[1]) + 1}"
        return f"<{end}{element}{_ATTRIBUTE.sub(attribute, attributes) if attributes else ''}>"

    attribute = _attribute_of(name, escape(title))
    return _TAG.sub(tag, html)


def _attribute_of(name: str, title: str) -> Callable[[re.Match[str]], str]:
    def attribute(found: re.Match[str]) -> str:
        if found[1]:
            return f'{found[1]}="{" ".join(f"{name}{WHOLE}{one}" for one in found[2].split())}"'
        if found[4]:
            return f"url(#{name}{WHOLE}{found[4]})"
        if found[5]:
            return f'{found[5]}="{found[6]}: {title}"'
        way = _way(found[3], name)
        return f' href="{way}"' if way else ""  # what leads out of the documents is no link on paper

    return attribute


def _way(way: str, name: str) -> str:
    if way == "#top" or way.startswith(("https://", "http://")):
        return way
    file, _, rest = way.partition("#")
    anchor = rest.partition("#")[0]  # a calculator's link may hold the inputs it opens with
    if not file:
        return f"#{anchor}" if WHOLE in anchor else f"#{name}{WHOLE}{anchor}"
    return f"{file}#{anchor}" if _DOCUMENT.match(way) else ""
