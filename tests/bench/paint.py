"""A page of a built site -> how soon a phone shows it, how soon it can be worked with, and whether it stays in place.

From disk, on a processor throttled to a quarter: the best of a few times, since other work on the machine only adds.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright

from tests.bench.figure import Figure
from tests.tools.browser import find_chromium, launch_options

SIZES = ((360, 740), (1280, 800))
SLOWER, TRIES = 4, 3
MOST_MOVED, FIRST, READY = 0.033, 1.0, 1.5
"""A third of what web.dev calls a good layout shift (0.1, from memory); seconds to the first paint, and until it is
ready."""
WATCH = """
  window.shifts = [];
  new PerformanceObserver((list) => {
    for (const one of list.getEntries()) window.shifts.push(one.value);
  }).observe({ type: "layout-shift", buffered: true });
"""
PAINTED = "performance.getEntriesByName('first-contentful-paint').map((one) => one.startTime)[0] || null"
LOADED = "performance.getEntriesByType('navigation')[0].loadEventEnd"
"""When every script has run: pages have no work of their own that begins later."""


def painted(page: Path, name: str) -> Iterator[Figure]:
    """Measure one page at both sizes."""
    os.environ.setdefault("SEAMBOOK_CHROMIUM", str(find_chromium(os.environ)))
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(**launch_options())
        for size in SIZES:
            tries = [_opened(browser, page, size) for _ in range(TRIES)]
            at = f"{name}, {size[0]} px"
            yield Figure(f"{at}: first paint", min(one[0] for one in tries) / 1e3, "s", FIRST)
            yield Figure(f"{at}: ready", min(one[1] for one in tries) / 1e3, "s", READY)
            yield Figure(f"{at}: moved as it opens", max(one[2] for one in tries), "", MOST_MOVED)
        browser.close()


def _opened(browser: Browser, file: Path, size: tuple[int, int]) -> tuple[float, float, float]:
    context = browser.new_context(viewport={"width": size[0], "height": size[1]})
    page = context.new_page()
    page.add_init_script(WATCH)
    context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    page.goto(file.as_uri(), wait_until="load")
    page.wait_for_function(f"({PAINTED}) !== null && {LOADED} > 0")
    page.wait_for_timeout(500)
    found = page.evaluate(PAINTED), page.evaluate(LOADED), sum(page.evaluate("window.shifts"))
    context.close()
    return found
