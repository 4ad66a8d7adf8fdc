"""Groups and sizes -> `delivery.json`: how large the book is, and which files each procedure takes.

Files are told by their places in the list of hashes, counted from 0, in ranges such as `0-4,9`: procedures share most
of theirs, and those of a kind lie beside each other.
"""

from __future__ import annotations

import json
from collections.abc import Collection, Iterable, Mapping, Sequence
from itertools import pairwise
from typing import Any, NamedTuple

from builder.delivery.stretches import Ranked, Telling
from builder.model.views import Site

CONTENTS = "delivery.json"
FORMAT = "1"
BYTES = 1_000_000
"""In a megabyte, as storage is sold and told."""


class Taken(NamedTuple):
    """What a procedure takes beside what every phone keeps."""

    id: str
    title: str
    stretches: bytes
    """Of the files of records."""


def contents_of(
    site: Site, fingerprint: str, most: int | None, named: Sequence[str], sizes: Mapping[str, int],
    core: Collection[str], ranked: Ranked, taken: Iterable[Taken],
) -> bytes:  # fmt: skip
    """Return the file. `named` is every path of the list, this file's own among them, whose size is told as 0."""
    at = {path: number for number, path in enumerate(named)}
    in_order = [sizes.get(path, 0) for path in named]
    telling = Telling(ranked, named, sizes)
    data: dict[str, Any] = {
        "format": FORMAT,
        "book": site.book_id,
        "title": site.title,
        "fingerprint": fingerprint,
        "most": most * BYTES if most is not None else None,
        "bytes": sum(in_order),
        "sizes": in_order,
        "core": _told(sorted(at[path] for path in core), in_order),
        "procedures": [{"id": one.id, "title": one.title, **telling.told(one.stretches)} for one in taken],
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
