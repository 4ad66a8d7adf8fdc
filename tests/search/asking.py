"""An index and questions -> what its own scripts find, in Node, and what they load for it."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

from tests.formula.node import ASSETS, run_node

SCRIPTS = tuple(
    ASSETS / f"{name}.js"
    for name in ("words", "postings", "shards", "asked", "reading", "stands", "tally", "find")
)
_ANSWER = """
const fs = require("fs"), vm = require("vm"), part = seambook.shardsOfIndex;
const bring = (name) => {
    const script = fs.readFileSync(FOLDER + "/" + name + ".js", "latin1");
    vm.runInThisContext(script);
    return script.length;
};
bring("dictionary");
return ASKED.map((text) => {
    seambook.shards = {};
    const index = part.open(seambook.dictionary, seambook.shards);
    let loaded = 0;
    for (let names; (names = seambook.search.needed(index, text)).length; ) {
        names.forEach((name) => (loaded += bring(name)));
    }
    const { found, count } = seambook.search.find(index, text, MOST);
    const heads = [...new Set(found.map((one) => part.shardOfPage(index, one.page)))];
    heads.forEach((name) => (loaded += bring(name)));
    const places = found.map((one) => {
        const head = part.headOf(index, one.page), anchor = head.parts[2 * one.part];
        return head.path + (anchor && "#" + anchor);
    });
    return { places, count, loaded };
});"""


class Answered(NamedTuple):
    """What one question gave."""

    places: list[str]
    """Paths and anchors, best first."""
    pages: int
    """How many were found."""
    loaded: int
    """Bytes of all shards that were brought for it."""


def answered(folder: Path, asked: Sequence[str], most: int | None = 10) -> list[Answered]:
    """Ask an index's folder, each question with no shards but those that it says it needs; None asks for all places."""
    values = {"FOLDER": folder.as_posix(), "ASKED": list(asked), "MOST": most}
    body = "".join(f"const {name} = {json.dumps(value)};\n" for name, value in values.items()) + _ANSWER
    return [Answered(one["places"], int(one["count"]), int(one["loaded"])) for one in run_node(body, SCRIPTS)]


def written(files: Mapping[str, bytes], folder: Path) -> Path:
    """Put the scripts of an index down; return the folder they lie in."""
    for path, data in files.items():
        file = folder / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(data)
    return file.parent
