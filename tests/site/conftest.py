"""The pages of the supplied book, read once for all tests of this folder."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.site.flat import Element, all_elements


@pytest.fixture(scope="session")
def pages(site: Path) -> dict[str, list[Element]]:
    """The elements of each page by its path from the book's root."""
    return all_elements(site)
