"""Groups and sizes -> `delivery.json`: how large the book is, and which files each procedure takes.

Files are told by their places in the list of hashes, counted from 0, in ranges such as `0-4,9`: procedures share most
of theirs, and those of a kind lie beside each other.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from builder.delivery.groups import Groups
from builder.model.files import Piece
from builder.model.views import Site

CONTENTS = "delivery.json"
FORMAT = "1"
BYTES = 1_000_000
"""In a megabyte, as storage is sold and told."""


def contents_of(
    site: Site, fingerprint: str, most: int | None, named: Sequence[str], listing: Mapping[str, Piece], groups: Groups
) -> bytes:
    """Return the file. `named` is every path of the list, this file's own among them, whose size is told as 0."""
    at = {path: number for number, path in enumerate(named)}
    data: dict[str, Any] = {
        "format": FORMAT,
        "book": site.book_id,
        "title": site.title,
        "fingerprint": fingerprint,
        "most": most * BYTES if most is not None else None,
        "bytes": _size(named, listing),
        "sizes": [listing[path].size if path in listing else 0 for path in named],
        "core": {"bytes": _size(groups.core, listing), "files": ranges(at[path] for path in groups.core)},
        "procedures": [
            {"id": ref.id, "title": groups.titles[ref], "bytes": _size(paths, listing),
             "files": ranges(at[path] for path in paths)}
            for ref, paths in groups.procedures.items()
        ],
    }  # fmt: skip
    return (json.dumps(data, ensure_ascii=False, separators=(",", ":")) + "\n").encode()


def _size(paths: Iterable[str], listing: Mapping[str, Piece]) -> int:
    return sum(listing[path].size for path in paths if path in listing)


def ranges(numbers: Iterable[int]) -> str:
    """Return whole numbers in order, those that follow each other as `first-last`."""
    runs: list[list[int]] = []
    for number in sorted(numbers):
        if runs and runs[-1][-1] == number - 1:
            runs[-1][1:] = [number]
        else:
            runs.append([number])
    return ",".join("-".join(map(str, run)) for run in runs)
