"""The folder of the search index -> what it says, read as builder/search/index.py describes it, without its code."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping
from itertools import accumulate
from typing import Any, NamedTuple

ENTRY = re.compile(r"([0-9a-z]+)(?:!([0-9a-z]+)(?:~([0-9a-z]+))?)?([+]?)((?:[.*:,][0-9a-z]+(?:-[0-9a-z]+)?)*)")
ASSIGNED = re.compile(
    r"(?:\(window[.]seambook=window[.]seambook\|\|[{][}]\)[.]dictionary|"
    r"\(\(window[.]seambook=window[.]seambook\|\|[{][}]\)[.]shards=window[.]seambook[.]shards\|\|[{][}]\)\[\"[a-z]+-[0-9]+\"\])"
    r"=(.*);\n"
)
RUN = re.compile(r"([.*:,])([0-9a-z]+)(?:-([0-9a-z]+))?")


class Stand(NamedTuple):
    """Where a word stands on a page."""

    title: int
    """How many different words its title has, where the word is one of them; else 0."""
    alias: bool
    texts: tuple[int, ...]
    headings: tuple[int, ...]
    facts: tuple[int, ...] = ()


class Index(NamedTuple):
    pages: list[list[str]]
    """Path, kind, title, then anchor and heading of each part."""
    words: dict[str, dict[int, Stand]]
    """For each word the pages it stands on."""
    names: list[list[str]]
    common: list[str]
    sizes: dict[str, int]
    """Bytes of each shard."""


def read_index(files: Mapping[str, bytes]) -> Index:
    """Read the scripts of an index, by their paths."""
    scripts = {path.rpartition("/")[2].removesuffix(".js"): data.decode("ascii") for path, data in files.items()}
    raw = _value(scripts.pop("dictionary"))
    shards = {name: _value(script) for name, script in scripts.items()}
    firsts, first_pages = _sums(raw["shards"]), _sums(raw["texts"])
    assert sorted(shards) == sorted(
        [f"words-{at}" for at in range(len(firsts))] + [f"texts-{at}" for at in range(len(first_pages))]
    )
    words = list(_unfronted(raw["words"]))
    pages = [page for at in range(len(first_pages)) for page in shards[f"texts-{at}"]]
    assert len(pages) == raw["pages"]
    starts = list(accumulate((len(shards[f"texts-{at}"]) for at in range(len(first_pages))), initial=0))[:-1]
    assert starts == first_pages
    postings = dict.fromkeys(range(len(words)), "")
    for at, first in enumerate(firsts):
        for offset, line in enumerate(shards[f"words-{at}"].split("\n")):
            postings[first + offset] = f"{postings[first + offset]} {line}".strip()
    return Index(
        pages, {word: dict(_entries(postings[at])) for at, word in enumerate(words)},
        [row.split("\t") for row in raw["names"].split("\n") if row], [words[at] for at in _sums(raw["common"])],
        {name: len(script) for name, script in scripts.items()},
    )  # fmt: skip


def _value(script: str) -> Any:
    """What a script assigns: to the dictionary, or to its own name among the shards."""
    found = ASSIGNED.fullmatch(script)
    assert found is not None, script[:120]
    return json.loads(found[1])


def _sums(gaps: str) -> list[int]:
    return list(accumulate(int(gap, 36) for gap in gaps.split()))


def _unfronted(lines: str) -> Iterable[str]:
    last = ""
    for line in lines.split("\n") if lines else ():
        last = last[: int(line[0], 36)] + line[1:]
        yield last


def _entries(posting: str) -> Iterable[tuple[int, Stand]]:
    page = 0
    for text in posting.split(" "):
        found = ENTRY.fullmatch(text)
        assert found is not None, text
        gap, title, _, alias, runs = found.groups()
        page += int(gap, 36)
        parts: dict[str, list[int]] = {".": [], "*": [], ":": [], ",": []}
        for mark, first, last in RUN.findall(runs):
            parts[mark] += range(int(first, 36), int(last or first, 36) + 1)
        if not (title or alias or runs):
            parts["."].append(0)
        yield page, Stand(int(title or "0", 36), bool(alias), tuple(parts["."]), tuple(parts["*"]), tuple(parts[","]))
