"""Text -> search words, by the rule that words.js follows too."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator

from builder.formula.everyday import EVERYDAY

_WORD = re.compile(r"[a-z0-9]+(?:[.][0-9]+)?(?:-[a-z0-9]+(?:[.][0-9]+)?)*")
_DECIMAL_COMMA = re.compile(r"(?<=[0-9]),(?=[0-9])")
_WITH_UNIT = re.compile(r"([0-9]+)([a-z]+)")
LONGEST = 60
"""Letters of a word that count: what is longer is no word, and shards of the index are named by words."""
UNITS = frozenset(name.lower() for name in EVERYDAY) | {"c", "f", "k", "in", "m2", "ft2", "l", "gal", "fl"}
"""Units as words: as records spell them, and as pages do."""
_SPELLED = str.maketrans({"µ": "u", "μ": "u", "%": " percent "})


def words(text: str) -> list[str]:
    """Split a text: lower case, accents folded, digits kept.

    Of `weld-through` also its parts and `weldthrough`; `10-12` is two numbers, `0,8mm` is `0.8` and `mm`; `%` is
    `percent` and `µm` is `um`, as a keyboard without them spells it. Of long words `LONGEST` letters count.
    """
    folded = _folded(text.lower())
    found: list[str] = []
    for word in _WORD.findall(folded):
        if "-" in word:
            parts = word.split("-")
            found += parts
            if not "".join(parts).replace(".", "").isdigit():
                found.append("".join(parts))
        elif word[0] <= "9" and (parted := _WITH_UNIT.fullmatch(word)):
            found += parted.groups()
        else:
            found.append(word)
    if len(folded) > LONGEST and any(len(word) > LONGEST for word in found):
        return [word[:LONGEST] for word in found]
    return found


def quantities(found: Iterable[str]) -> Iterator[str]:
    """Of each number with a unit behind it one word more, `0.8mm`: apart they stand almost everywhere."""
    last = ""
    for word in found:
        if word in UNITS and last[:1].isdigit():
            yield last + word
        last = word


def _folded(text: str) -> str:
    if "," in text:
        text = _DECIMAL_COMMA.sub(".", text)
    if "%" in text or not text.isascii():
        text = text.translate(_SPELLED)
    if not text.isascii():
        text = "".join(c for c in unicodedata.normalize("NFKD", text) if not unicodedata.combining(c))
    return text
