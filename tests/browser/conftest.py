"""The system's Chromium, and the supplied book opened in it; whatever a page complains of fails its test."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, sync_playwright

from tests.browser.watched import PHONE, Watched
from tests.site.building import build
from tests.tools.browser import find_chromium, launch_options


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The supplied library, built where the browser can read it."""
    folder = tmp_path_factory.mktemp("opened") / "book"
    build(folder)
    return folder


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    if "SEAMBOOK_CHROMIUM" not in os.environ:  # pytest alone; make test says which
        found = find_chromium(os.environ)
        assert found is not None, "make test brings Chromium"
        os.environ["SEAMBOOK_CHROMIUM"] = str(found)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(**launch_options())
        yield browser
        browser.close()


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
