"""One page with the planner for a whole file of tests."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser

from tests.browser.planner.asked import Planner


@pytest.fixture(scope="module")
def planner(chromium: Browser) -> Iterator[Planner]:
    planner = Planner(chromium)
    yield planner
    planner.page.context.close()
    assert planner.troubles == []
