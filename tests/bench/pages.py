"""A built site -> how heavy its pages are."""

from __future__ import annotations

import re
from pathlib import Path

_LOADED = re.compile(r'(?:src|href)="((?:\.\./)*assets/[^"]+\.(?:js|css))"')


def ordinary(site: Path) -> Path:
    """Return the page of a procedure that half of all are lighter than."""
    pages = sorted((site / "procedures").glob("*.html"), key=lambda path: (path.stat().st_size, path.name))
    return pages[len(pages) // 2]


def loaded_by(site: Path, page: Path) -> int:
    """Return the bytes of all styles and scripts that a page names, uncompressed."""
    found = set(_LOADED.findall(page.read_text("utf-8")))
    return sum((page.parent / path).resolve().stat().st_size for path in found if (page.parent / path).resolve()
               .is_relative_to(site.resolve()))  # fmt: skip
