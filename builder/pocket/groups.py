"""Paths of a published book in, groups of files that are packed together out.

A page is opened by unpacking its group, so a group is small; what is alike packs well, so what one record's page, job
and bay need lie in one. The first group holds what every page needs and the first page itself.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

MOST = {"procedures": 700_000, "calculators": 1_000_000, "assets/js": 450_000, "assets/search": 600_000}
OTHERWISE = 2_500_000
"""Bytes after which a group is full, by what is in it: a phone unpacks 100 kB of what is packed in a part of a second,
and pages of one kind pack into a fortieth."""
HOME = "index.html"
_OF_RECORD = re.compile(
    r"assets/(?:job/|training/)?(procedure|bay|seam|strip|calc|method|lesson)/(?:drawing/)?([a-z0-9-]+)\.js"
)
_PAGE = re.compile(r"([a-z-]+)/([a-z0-9-]+)\.html")
_PLACES = {
    "procedure": "procedures", "bay": "procedures", "seam": "seams", "strip": "seams", "strips": "seams",
    "calc": "calculators", "lesson": "lessons",
}  # fmt: skip
_ALIKE = {"assets/training": "assets/job"}
"""What packs well beside what stands in another folder: both tell of the whole book."""
_FIRST = ("procedures", "seams", "calculators")
_PRINTED = re.compile(r"print(?:-[a-z0-9-]+)?\.html")


def held(paths: Sequence[str]) -> list[str]:
    """Return which of a book's files a copy holds: its pages and what they load, and nothing that prints it whole."""
    return [
        path for path in paths
        if (path.endswith(".html") and not _PRINTED.fullmatch(path))
        or (path.startswith("assets/") and path.endswith((".js", ".css", ".svg", ".png", ".jpg", ".webp")))
    ]  # fmt: skip


def grouped(sizes: Mapping[str, int], common: Sequence[str]) -> list[list[str]]:
    """Return the paths in groups; `common` is what the first page loads."""
    first = [HOME, *common]
    rest = sorted(sizes.keys() - set(first), key=_place)
    groups: list[list[str]] = [first]
    full, folder = OTHERWISE, ""
    for path in rest:
        _, here, _, _ = _place(path)
        most = MOST.get(here, OTHERWISE)
        if full >= most or (here != folder and (here in MOST or folder in MOST)):
            groups.append([])
            full = 0
        groups[-1].append(path)
        full, folder = full + sizes[path], here
    return groups


def _place(path: str) -> tuple[int, str, str, str]:
    """Return where a path stands in the order: what is used together side by side."""
    of_record = _OF_RECORD.fullmatch(path)
    page = _PAGE.fullmatch(path)
    if of_record:
        folder, id_ = _PLACES.get(of_record[1], of_record[1]), of_record[2]
    elif page:
        folder, id_ = _PLACES.get(page[1], page[1]), page[2]
    else:
        folder, id_ = path.rpartition("/")[0], ""
        folder = _ALIKE.get(folder, folder)
    is_asset = path.startswith("assets/") and folder not in _PLACES.values()
    rank = _FIRST.index(folder) if folder in _FIRST else len(_FIRST) + is_asset
    return rank, folder, id_, path
