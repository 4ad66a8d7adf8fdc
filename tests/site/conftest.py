"""The supplied book, built once for all tests of this folder, and its pages parsed."""

from __future__ import annotations

from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from tests.site.building import build


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("book") / "site"
    build(folder)
    return folder


@pytest.fixture(scope="session")
def pages(site: Path) -> dict[str, BeautifulSoup]:
    """Each page by its path from the book's root."""
    return {
        path.relative_to(site).as_posix(): BeautifulSoup(path.read_bytes(), "html.parser", from_encoding="utf-8")
        for path in sorted(site.rglob("*.html"))
    }
