"""Numbers and sorted words -> the short ASCII that the index is written in; shards.js reads it.

- A number is in base 36.
- A word of a sorted list is a base-36 digit, how many letters it shares with the word before, and the rest of it.
- Where a word stands on a page: `!n` when it is in the title, which has n different words; `+` when it is in another
  name of the thing; then the parts of the page, `*n` in a heading, `:n` in a long one, `.n` in a text and `,n` in a
  table or a labelled value, `.n-m` for each from n to m. No parts mean the text of the first. `postings` says how such
  entries of all pages lie in the index.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache

_PLACE = re.compile(r"([*:.,])([0-9a-z]+)(?:-([0-9a-z]+))?")
_DIGITS = "0123456789abcdefghijklmnopqrstuvwxyz"


def base36(number: int) -> str:
    """Write a number of 0 or more."""
    if number < 36:
        return _DIGITS[number]
    digits = ""
    while True:
        number, digit = divmod(number, 36)
        digits = _DIGITS[digit] + digits
        if not number:
            return digits


def runs(numbers: Iterable[int]) -> Iterator[str]:
    """Write rising numbers, three and more in a row as first and last."""
    first = last = -2
    for number in (*numbers, -4):
        if number == last + 1:
            last = number
            continue
        if first >= 0:
            if last > first + 1:
                yield f"{base36(first)}-{base36(last)}"
            else:
                yield from map(base36, range(first, last + 1))
        first = last = number


@lru_cache(maxsize=4096)
def packed(entry: str) -> str:
    """Write where a word stands on a page, place by place, with the parts that follow each other as first and last."""
    head = re.split(r"[*:.,]", entry, maxsplit=1)[0]
    found: dict[str, list[int]] = {}
    for mark, number, _ in _PLACE.findall(entry):
        found.setdefault(mark, []).append(int(number, 36))
    return head + "".join([f"{mark}{run}" for mark, numbers in found.items() for run in runs(numbers)])


@lru_cache(maxsize=4096)
def places(entry: str) -> dict[int, str]:
    """Read an entry without a name: of each part the mark; not to be changed."""
    if not entry:
        return {0: "."}
    found: dict[int, str] = {}
    for mark, first, last in _PLACE.findall(entry):
        found |= dict.fromkeys(range(int(first, 36), int(last or first, 36) + 1), mark)
    return found


def gaps(numbers: Iterable[int]) -> str:
    """Write numbers that never fall as their distances, parted by blanks."""
    last, found = 0, []
    for number in numbers:
        found.append(base36(number - last))
        last = number
    return " ".join(found)


def front_coded(words: Sequence[str], behind: Sequence[str] = ()) -> str:
    """Write a sorted list of words, a line each; what stands behind each comes after a blank."""
    found, last = [], ""
    for at, word in enumerate(words):
        shared, most = 0, min(len(last), len(word), 35)
        while shared < most and word[shared] == last[shared]:
            shared += 1
        found.append(f"{_DIGITS[shared]}{word[shared:]}" + (f" {behind[at]}" if behind else ""))
        last = word
    return "\n".join(found)


def unfronted(coded: str) -> Iterator[str]:
    """Read a sorted list of words that `front_coded` wrote, each with what stands behind it."""
    last = ""
    for line in coded.split("\n") if coded else ():
        last = last.partition(" ")[0][: int(line[0], 36)] + line[1:]
        yield last
