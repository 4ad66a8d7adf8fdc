"""A script or a style sheet as it is written in, the same without what is only for its readers out.

What stands in quotes, templates and regular expressions is left as it is. A line end is kept wherever leaving it out
could join two statements, so a script means what it meant: tests parse every script and every sheet before and after.
"""

from __future__ import annotations

import re

_QUOTED = r'"(?:[^"\\\n]|\\.)*"|' r"'(?:[^'\\\n]|\\.)*'"
_GAP = r"(?:\s+|//[^\n]*|/\*.*?\*/)++"
_REGEX = (
    r"(?:(?<=[(\[!,:=&|?;{}])|(?<=[(\[!,:=&|?;{}>]\s)|(?<=return\s))"
    r"/(?![*/])(?:[^/\\\[\n]|\\.|\[(?:[^\]\\\n]|\\.)*\])+/\w*"
)
_DEPTH = 4
"""How deep templates may stand in templates, and braces in braces of one."""


def _template() -> str:
    """Return the pattern of a template with all that stands in it."""
    template, braces = r"`(?:[^`\\$]|\\.|\$(?!\{))*`", r"\{[^`{}]*\}"
    for _ in range(_DEPTH):
        inside = rf"(?:{_REGEX}|{_QUOTED}|[^`{{}}\"']|{braces}|{template})*"
        template, braces = rf"`(?:[^`\\$]|\\.|\$(?!\{{)|\$\{{{inside}\}})*`", rf"\{{{inside}\}}"
    return template


_OF_SCRIPT = re.compile(rf"({_GAP})|{_REGEX}|{_QUOTED}|{_template()}", re.DOTALL)
_OF_SHEET = re.compile(rf"({_QUOTED}|url\([^)]*\))|\s*(?:/\*.*?\*/\s*)+|\s*([{{}};,])\s*|(:)\s+|\s+", re.DOTALL)
_JOINED = re.compile(r"[\w$]{2}|\+\+|--|/[\w$/*]|\d\.", re.ASCII)
"""Two characters that mean something else without the gap between them."""
_PARTED = re.compile(r"[\w$)\]}\"'`+/-][\w$\"'{!~+-]", re.ASCII)
"""The end of what may be a statement and the beginning of what may be the next."""


def lean_script(text: str) -> str:
    """Return a script without comments, and with no more blanks than it needs."""
    whole = text.strip()

    def kept(found: re.Match[str]) -> str:
        gap = found[1]
        if gap is None:
            return found[0]
        around = whole[found.start() - 1 : found.start()] + whole[found.end() : found.end() + 1]
        if "\n" in gap and _PARTED.fullmatch(around):
            return "\n"
        return " " if _JOINED.fullmatch(around) else ""

    return _OF_SCRIPT.sub(kept, whole) + "\n"


def lean_sheet(text: str) -> str:
    """Return a style sheet without comments, and with no more blanks than it needs."""
    return _OF_SHEET.sub(_kept_of_sheet, text.strip()).replace(";}", "}") + "\n"


def _kept_of_sheet(found: re.Match[str]) -> str:
    return found[1] or found[2] or found[3] or (" " if "/*" not in found[0] else "")
