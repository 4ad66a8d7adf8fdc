"""Bytes in, text for a page in ISO 8859-1 out: fifteen bits stand as two of 182 letters, each a byte of the file.

Letters that HTML, mail or an editor might take for something else are not among them: no blanks, no line ends, no
control characters, no `<`, `&`, quotes or soft hyphen. `templates/pocket/shelf.js` reads it back.
"""

from __future__ import annotations

_UNFIT = frozenset("<>&\"'`\xad")
LETTERS = "".join(
    letter for code in (*range(0x21, 0x7F), *range(0xA1, 0x100)) if (letter := chr(code)) not in _UNFIT
)[:182]
_BITS, _BASE = 15, len(LETTERS)
_PAIRS = tuple(LETTERS[value // _BASE] + LETTERS[value % _BASE] for value in range(1 << _BITS))


def armoured(data: bytes) -> str:
    """Return the bytes as letters; what is left of the last pair are zeros."""
    filled = data + bytes(-len(data) % _BITS)
    return "".join(
        _PAIRS[whole >> shift & 0x7FFF]
        for at in range(0, len(filled), _BITS)
        for whole in (int.from_bytes(filled[at:at + _BITS], "big"),)
        for shift in range(105, -1, -_BITS)
    )
