"""The folder of the search index -> what it says, read as builder/search/index.py describes it, without its code."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping
from itertools import accumulate, pairwise
from typing import Any, NamedTuple

ENTRY = re.compile(r"([0-9a-z]+)(=?)((?:[.*:,][0-9a-z]+(?:-[0-9a-z]+)?)*)(?:(\^)([0-9a-z]*))?")
NAMED = re.compile(r"([0-9a-z]+)(?:!([0-9a-z]+)(?:~[0-9a-z]+)?|([+]))?(?:(\^)([0-9a-z]*))?")
ASSIGNED = re.compile(
    r"(?:\(window[.]seambook=window[.]seambook\|\|[{][}]\)[.]dictionary|"
    r"\(\(window[.]seambook=window[.]seambook\|\|[{][}]\)[.]shards=window[.]seambook[.]shards\|\|[{][}]\)"
    r"\[\"(?:list|words|rest|texts)-[0-9a-z.]+(?:-[0-9]+)?\"\])=(.*);\n"
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
    """Read the scripts of an index, by their paths, and hold that each is named as the dictionary says."""
    scripts = {path.rpartition("/")[2].removesuffix(".js"): data.decode("ascii") for path, data in files.items()}
    raw = _value(scripts.pop("dictionary"))
    shards = {name: _value(script) for name, script in scripts.items()}
    pages = [page for name in _names_of_texts(raw) for page in shards[name]]
    assert len(pages) == raw["pages"]
    lists = [list(_unfronted(shards[f"list-{first}"])) for first in _unfronted(raw["lists"])]
    assert [one[0] for one in lists] == list(_unfronted(raw["lists"]))
    lines = dict(_lines(raw, shards))
    assert list(lines) == [word for one in lists for word in one] == sorted(lines)
    found = {word: _stands(word, line, shards) for word, line in lines.items()}
    rests = {f"rest-{word}-{at}" for word, line in lines.items() for at in range(_rests(line)[1])}
    assert shards.keys() == {
        *_names_of_texts(raw), *(f"list-{one[0]}" for one in lists), *rests,
        *(f"words-{first}" for first in _unfronted(raw["shards"])),
    }  # fmt: skip
    return Index(
        pages, found, [row.split("\t") for row in raw["names"].split("\n") if row], raw["common"].split(),
        {name: len(script) for name, script in scripts.items()},
    )  # fmt: skip


def _value(script: str) -> Any:
    """What a script assigns: to the dictionary, or to its own name among the shards."""
    found = ASSIGNED.fullmatch(script)
    assert found is not None, script[:120]
    return json.loads(found[1])


def _names_of_texts(raw: Mapping[str, Any]) -> list[str]:
    values = [int(value, 36) for value in raw["texts"].split()]
    firsts = [*accumulate(values[::2]), raw["pages"]]
    return [
        f"texts-{at}" for count, (first, end) in zip(values[1::2], pairwise(firsts), strict=True)
        for at in range(first, end, count)
    ]  # fmt: skip


def _unfronted(lines: str) -> Iterable[str]:
    last = ""
    for line in lines.split("\n") if lines else ():
        last = last[: int(line[0], 36)] + line[1:]
        yield last


def _lines(raw: Mapping[str, Any], shards: Mapping[str, str]) -> Iterable[tuple[str, str]]:
    for first in _unfronted(raw["shards"]):
        last = ""
        lines = shards[f"words-{first}"].split("\n")
        assert lines[0].startswith(f"0{first} ")
        for line in lines:
            word, _, said = line.partition(" ")
            last = last[: int(word[0], 36)] + word[1:]
            yield last, said


def _rests(line: str) -> tuple[int, int]:
    """On how many pages a word of shards of its own stands, and how many shards; none of one that has none."""
    found = re.search(r">([0-9a-z]+) ([0-9a-z]+)$", line)
    return (int(found[1], 36), int(found[2], 36)) if found else (0, 0)


def _stands(word: str, line: str, shards: Mapping[str, str]) -> dict[int, Stand]:
    pages, count = _rests(line)
    if count:
        rest = " ".join(shards[f"rest-{word}-{at}"] for at in range(count))
        line = rest if ";" in rest else f"{line.partition('>')[0]}{rest}"
    named, _, said = line.rpartition(";")
    titles, parts = dict(_named(named)), dict(_parts(said))
    assert not count or pages == len(titles.keys() | parts.keys())
    return {page: _stand(titles.get(page), parts.get(page, {})) for page in sorted(titles.keys() | parts.keys())}


def _stand(title: int | None, parts: Mapping[int, str]) -> Stand:
    of = {mark: tuple(sorted(part for part, own in parts.items() if own == mark)) for mark in ".*:,"}
    return Stand(title or 0, title == 0, of["."], of["*"], of[","])


def _named(entries: str) -> Iterable[tuple[int, int]]:
    page, title = 0, 0
    for text in entries.split(" ") if entries else ():
        found = NAMED.fullmatch(text)
        assert found is not None, text
        gap, length, alias, is_run, run = found.groups()
        assert bool(length or alias) != bool(is_run), text
        title = title if is_run else int(length or "0", 36)
        page += int(gap, 36)
        for _ in range(int(run or "1", 36)):
            yield page, title
            page += 1
        page -= 1


def _parts(entries: str) -> Iterable[tuple[int, dict[int, str]]]:
    page, full = 0, dict[int, str]()
    for text in entries.split(" ") if entries else ():
        found = ENTRY.fullmatch(text)
        assert found is not None, text
        gap, is_beside, runs, is_run, run = found.groups()
        own: dict[int, str] = {}
        for mark, first, last in RUN.findall(runs):
            own |= dict.fromkeys(range(int(first, 36), int(last or first, 36) + 1), mark)
        if is_beside:
            parts = full | own
        else:
            parts = full = full if is_run else own or {0: "."}
        page += int(gap, 36)
        for _ in range(int(run or "1", 36)):
            yield page, parts
            page += 1
        page -= 1
