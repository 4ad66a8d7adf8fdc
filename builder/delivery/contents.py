"""Groups and sizes -> `delivery.json`: how large the book is, and which files each procedure takes.

Files are told by their places in the list of hashes, counted from 0, in ranges such as `0-4,9`: procedures share most
of theirs, and those of a kind lie beside each other.
"""

from __future__ import annotations

import json
from collections.abc import Collection, Mapping, Sequence
from itertools import pairwise
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
    sizes = [listing[path].size if path in listing else 0 for path in named]
    core = sorted(at[path] for path in groups.core)
    own = {ref: [at[path] for path in paths] for ref, paths in groups.own.items()}
    data: dict[str, Any] = {
        "format": FORMAT,
        "book": site.book_id,
        "title": site.title,
        "fingerprint": fingerprint,
        "most": most * BYTES if most is not None else None,
        "bytes": sum(sizes),
        "sizes": sizes,
        "core": _told(core, sizes),
        "procedures": [
            {"id": ref.id, "title": groups.titles[ref],
             **_told(sorted({number for one in led if one in own for number in own[one]}), sizes)}
            for ref, led in groups.procedures.items()
        ],
    }  # fmt: skip
    return (json.dumps(data, ensure_ascii=False, separators=(",", ":")) + "\n").encode()


def _told(numbers: Sequence[int], sizes: Sequence[int]) -> dict[str, Any]:
    return {"bytes": sum(sizes[number] for number in numbers), "files": ranges(numbers)}


def ranges(numbers: Collection[int]) -> str:
    """Return whole numbers in order, those that follow each other as `first-last`; each is given once."""
    if not numbers:
        return ""
    ordered = sorted(numbers)
    gaps = [(before, one) for before, one in pairwise(ordered) if one != before + 1]
    firsts, lasts = [ordered[0], *(one for _, one in gaps)], [*(before for before, _ in gaps), ordered[-1]]
    return ",".join(str(first) if first == last else f"{first}-{last}"
                    for first, last in zip(firsts, lasts, strict=True))  # fmt: skip
