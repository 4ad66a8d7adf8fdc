"""What the index says -> its scripts, and back: `index` tells their form."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Sequence
from typing import Any, NamedTuple

from builder.search.packing import base36, front_coded, gaps, unfronted
from builder.search.page_words import Numbered
from builder.search.words import words

FOLDER = "assets/search"
DICTIONARY = f"{FOLDER}/dictionary.js"
MOST_OF_POSTINGS = 12_000
"""Bytes of a shard of postings; half of it is enough to end one at the next word that may."""
LONGEST_BESIDE = 3_000
"""Bytes of a posting that lies beside others; what a longer one has beside titles is loaded where there is room."""
_SHARED = "(window.seambook=window.seambook||{})"


class Shards(NamedTuple):
    """Where shards begin."""

    lists: Sequence[str]
    words: Sequence[str]
    texts: Sequence[tuple[int, int]]
    """From which page on they hold how many pages each."""


def path_of(name: str) -> str:
    """Return the path of a shard."""
    return f"{FOLDER}/{name}.js"


def shard(name: str, value: str) -> bytes:
    """Return the script that gives a shard; its value is JSON."""
    return f'({_SHARED}.shards=window.seambook.shards||{{}})["{name}"]={value};\n'.encode("ascii")


def value_in(script: bytes) -> Any:
    """Return the value that a script of a shard, or of the dictionary, gives."""
    text = script.decode("ascii")
    named = text.find('"]=')
    return json.loads(text[(named + 3 if text.startswith("((") else text.index("=", len(_SHARED)) + 1) : -2])


def list_shard(words: Sequence[str]) -> bytes:
    """Return the script of a shard of words."""
    return shard(f"list-{words[0]}", json.dumps(front_coded(words)))


def words_shard(words: Sequence[str], lines: Sequence[str]) -> bytes:
    """Return the script of a shard of postings."""
    return shard(f"words-{words[0]}", json.dumps(front_coded(words, lines)))


def size_of(word: str, line: str) -> int:
    """Return what a word with its line adds to a shard of postings."""
    return len(line) + len(word) + 3


def dictionary(
    shards: Shards, pages: Sequence[Numbered], common: Iterable[str], names: Iterable[tuple[str, ...]],
    quiet: Iterable[str],
) -> bytes:  # fmt: skip
    """Return the script that every search loads."""
    priors = [(at, page.prior) for at, page in enumerate(pages) if not at or pages[at - 1].prior != page.prior]
    said = {
        "lists": front_coded(shards.lists), "shards": front_coded(shards.words), "texts": _paired(shards.texts),
        "pages": len(pages), "common": " ".join(common),
        "names": "\n".join("\t".join(sorted({" ".join(words(name)) for name in one})) for one in sorted(names)),
        "quiet": " ".join(sorted({part for word in quiet for part in words(word)})),
        "priors": _paired(priors), "behind": gaps(at for at, page in enumerate(pages) if page.is_behind),
    }  # fmt: skip
    written = json.dumps(said, ensure_ascii=True, sort_keys=True, separators=(",", ":"))
    return f"{_SHARED}.dictionary={written};\n".encode("ascii")


class Line(NamedTuple):
    """What the index says of one word."""

    text: str
    """What stands in its shard."""
    pieces: tuple[str, ...] = ()
    """Shards of what is too long for that."""

    def scripts(self, word: str) -> Iterator[tuple[str, bytes]]:
        """Yield the scripts of the pieces by their paths."""
        for at, piece in enumerate(self.pieces):
            yield path_of(name := f"rest-{word}-{at}"), shard(name, json.dumps(piece))


def line_of(named: str, parts: str, pages: int) -> Line:
    """Return the line of a word that stands on so many pages."""
    if len(named) + len(parts) <= LONGEST_BESIDE:
        return Line(f"{named};{parts}" if named else parts)
    is_alone = len(named) > LONGEST_BESIDE
    pieces = tuple(_pieces(f"{named};{parts}" if is_alone else parts))
    beside = f">{base36(pages)} {base36(len(pieces))}"
    return Line(beside if is_alone or not named else f"{named};{beside}", pieces)


def read_lines(value: str) -> dict[str, str]:
    """Return the words of a shard of postings with their lines."""
    return {word: line for word, _, line in (one.partition(" ") for one in unfronted(value))}


def _pieces(posting: str) -> Iterator[str]:
    """Cut a posting that fills more than a shard between two entries."""
    while len(posting) >= MOST_OF_POSTINGS:
        cut = posting.rindex(" ", 0, MOST_OF_POSTINGS)
        yield posting[:cut]
        posting = posting[cut + 1 :]
    yield posting


def _paired(pairs: Sequence[tuple[int, int]]) -> str:
    """Write pairs of a number that rises and another."""
    steps = gaps(first for first, _ in pairs).split()
    return " ".join(f"{gap} {base36(other)}" for gap, (_, other) in zip(steps, pairs, strict=True))
