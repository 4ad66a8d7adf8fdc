"""A page of a built site -> how soon a phone shows it, how soon it can be worked with, and whether it stays in place.

From disk, on a processor throttled to a quarter: the best of a few times, since other work on the machine only adds.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from playwright.sync_api import Browser, sync_playwright

from tests.bench.figure import Figure
from tests.tools.browser import find_chromium, launch_options

SIZES = ((360, 740), (1280, 800))
SLOWER, TRIES = 4, 3
STEADY, FIRST, READY = 0.033, 1.0, 1.5
"""The bound of a steady page is ours: a third of the 0.1 that web.dev's page on cumulative layout shift calls good (the
0.1 from memory). Seconds to the first paint, and until it is ready, are ours too."""
WATCH = """
  window.shifts = [];
  new PerformanceObserver((list) => {
    for (const one of list.getEntries()) window.shifts.push(one.value);
  }).observe({ type: "layout-shift", buffered: true });
"""
PAINTED = "performance.getEntriesByName('first-contentful-paint').map((one) => one.startTime)[0] || null"
LOADED = "performance.getEntriesByType('navigation')[0].loadEventEnd"
"""When every script has run: pages have no work of their own that begins later."""


class Opened(NamedTuple):
    """What came of opening a page once."""

    first: float
    """Milliseconds to the first paint with something in it."""
    ready: float
    moved: float
    """The layout shifts of half a second, summed."""


def painted(page: Path, name: str) -> Iterator[Figure]:
    """Measure one page at both sizes."""
    os.environ.setdefault("SEAMBOOK_CHROMIUM", str(find_chromium(os.environ)))
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(**launch_options())
        for size in SIZES:
            tries = [opened(browser, page, size) for _ in range(TRIES)]
            at = f"{name}, {size[0]} px"
            yield Figure(f"{at}: first paint", min(one.first for one in tries) / 1e3, "s", FIRST)
            yield Figure(f"{at}: ready", min(one.ready for one in tries) / 1e3, "s", READY)
            yield Figure(f"{at}: moved as it opens", max(one.moved for one in tries), "", STEADY)
        browser.close()


def opened(browser: Browser, file: Path, size: tuple[int, int]) -> Opened:
    """Open a page in a profile of its own, and wait for half a second."""
    context = browser.new_context(viewport={"width": size[0], "height": size[1]})
    try:
        page = context.new_page()
        page.add_init_script(WATCH)
        context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
        page.goto(file.as_uri(), wait_until="load")
        page.wait_for_function(f"({PAINTED}) !== null && {LOADED} > 0")
        page.wait_for_timeout(500)
        return Opened(page.evaluate(PAINTED), page.evaluate(LOADED), sum(page.evaluate("window.shifts")))
    finally:
        context.close()
