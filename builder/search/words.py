"""Text -> search words, by the rule that find.js follows too."""

from __future__ import annotations

import re
import unicodedata

_WORD = re.compile(r"[a-z0-9]+(?:[.][0-9]+)?(?:-[a-z0-9]+(?:[.][0-9]+)?)*")


def words(text: str) -> list[str]:
    """Split a text: lower case, accents folded, digits kept; of `weld-through` also its parts and `weldthrough`."""
    folded = text.lower()
    if not folded.isascii():
        folded = "".join(c for c in unicodedata.normalize("NFKD", folded) if not unicodedata.combining(c))
    found: list[str] = []
    for word in _WORD.findall(folded):
        if "-" not in word:
            found.append(word)
            continue
        parts = word.split("-")
        found += parts
        found.append("".join(parts))
    return found
