"""A script of data in, the same written as a page writes it out.

The bay's and the jobs' data hold what stands on the pages too, but as quoted text, so that hardly a stretch is alike.
Quotes and line ends change places with their quoted forms; `templates/pocket/shelf.js` changes them back.
"""

from __future__ import annotations

import re

QUOTE, LINE_END = "\x02", "\x03"
"""Stand for a quote and a line end of the script itself; no text of a book holds them."""
_FOLDERS = ("assets/bay/", "assets/job/")
_TOKEN = re.compile(r'\\u[0-9a-f]{4}|\\.|["\n]')
_SWAPPED = {'\\"': '"', "\\n": "\n", '"': QUOTE, "\n": LINE_END}
_PLAIN_LETTERS = range(0xA0, 0xD800)


def is_quoted(path: str) -> bool:
    """Return whether a file is such a script."""
    return path.startswith(_FOLDERS)


def unquoted(script: str) -> str:
    """Return the script with what is quoted written plainly."""
    return _TOKEN.sub(_swap, script)


def _swap(token: re.Match[str]) -> str:
    text = token[0]
    if text.startswith("\\u"):
        letter = int(text[2:], 16)
        return chr(letter) if letter in _PLAIN_LETTERS and letter not in (0x2028, 0x2029) else text
    return _SWAPPED.get(text, text)
