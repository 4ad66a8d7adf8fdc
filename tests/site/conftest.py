"""The pages of the supplied book, parsed once for all tests of this folder."""

from __future__ import annotations

from pathlib import Path

import pytest
from bs4 import BeautifulSoup


@pytest.fixture(scope="session")
def pages(site: Path) -> dict[str, BeautifulSoup]:
    """Each page by its path from the book's root."""
    return {
        path.relative_to(site).as_posix(): BeautifulSoup(path.read_bytes(), "html.parser", from_encoding="utf-8")
        for path in sorted(site.rglob("*.html"))
    }
