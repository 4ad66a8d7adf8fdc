"""The supplied book opened in the system's Chromium; whatever a page complains of fails its test."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from builder import pipeline
from builder.model.files import Layer
from builder.model.records.settings import ShopSettings
from builder.supplied import templates
from tests.books.laying import LABEL, TINY
from tests.browser.copied import Copies
from tests.browser.watched import PHONE, Watched, watching
from tests.conftest import made_in
from tests.site import shared

BASE = "https://book.example.org/crate"


@pytest.fixture
def book(chromium: Browser, site: Path) -> Iterator[Watched]:
    with watching(chromium, site) as watched:
        yield watched


@pytest.fixture(scope="module")
def kept(chromium: Browser, site: Path) -> Iterator[Watched]:
    """One profile for a whole file of tests that leave nothing on the device."""
    watched = Watched(chromium, site)
    watched.blank(PHONE)
    yield watched
    watched.close()


@pytest.fixture(scope="session")
def tiny_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The tiny book, built."""
    return shared.tiny_site(made_in(tmp_path_factory))


@pytest.fixture(scope="module")
def watched_tiny(chromium: Browser, tiny_site: Path) -> Iterator[Watched]:
    """The tiny book, opened once for a whole file of tests."""
    with watching(chromium, tiny_site) as watched:
        yield watched


@pytest.fixture(scope="session")
def copies(tmp_path_factory: pytest.TempPathFactory) -> Copies:
    """The supplied library, and one procedure of it, each in one file."""
    return shared.copies(made_in(tmp_path_factory))


@pytest.fixture(scope="session")
def on_server(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The tiny book of a shop that has put it on a server and prints on Letter."""
    target = tmp_path_factory.mktemp("on_server") / "book"
    shop = ShopSettings(format="1", layers=(LABEL,), base_address=f"{BASE}/", paper="Letter")
    order = pipeline.Order((Layer(TINY, LABEL),), templates(), target, processes=1, shop=shop)
    outcome = pipeline.make(order)
    assert outcome.published is not None, outcome.problems
    return target


@pytest.fixture
def served(chromium: Browser, on_server: Path) -> Iterator[Watched]:
    """That book, opened; from disk, as the tests have no network."""
    with watching(chromium, on_server) as watched:
        yield watched


@pytest.fixture(scope="session")
def editions(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    """The tiny book before and after revision 3 of its procedure; both keep what they know under the book's own id."""
    return shared.editions(made_in(tmp_path_factory))
