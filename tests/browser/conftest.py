"""The supplied book opened in the system's Chromium; whatever a page complains of fails its test."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.browser.watched import PHONE, Watched


@pytest.fixture
def book(chromium: Browser, site: Path) -> Iterator[Watched]:
    watched = Watched(chromium, site)
    yield watched
    watched.close()
    assert watched.troubles == []


@pytest.fixture(scope="module")
def kept(chromium: Browser, site: Path) -> Iterator[Watched]:
    """One profile for a whole file of tests that leave nothing on the device."""
    watched = Watched(chromium, site)
    watched.blank(PHONE)
    yield watched
    watched.close()
