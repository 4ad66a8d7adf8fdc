"""An index on disk -> what a page opened from a folder loads, how long it answers and what it holds, in Chromium."""

from __future__ import annotations

import os
import shutil
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from playwright.sync_api import CDPSession, Page, sync_playwright

from tests.formula.node import ASSETS
from tests.search.asking import SCRIPTS
from tests.tools.browser import find_chromium, launch_options

SLOWER = 4
_PAGE = """<!DOCTYPE html><meta charset="utf-8"><title>seek</title><body data-root="">{scripts}"""
_BEGIN = """async () => {
  await seambook.folder.bring("assets/search/dictionary.js");
  seambook.shards = {};
  window.index = seambook.shardsOfIndex.open(seambook.dictionary, seambook.shards);
}"""
_LOAD = """async (text) => {
  const { folder, search, shardsOfIndex } = seambook;
  const load = (all) => Promise.all(all.map((name) => folder.bring(`assets/search/${name}.js`)));
  for (let all; (all = search.needed(index, text)).length; ) await load(all);
  const found = search.find(index, text, 8).found;
  await load([...new Set(found.map((one) => shardsOfIndex.shardOfPage(index, one.page)))]);
  return found.length;
}"""
_ANSWER = """(text) => {
  index.postings.clear(); index.words.clear(); index.held = 0; index.asked = null;
  seambook.search.needed(index, text);
  seambook.search.find(index, text, 8);
}"""
class Sought(NamedTuple):
    """What questions cost."""

    slowed: list[float]
    """Milliseconds of each answer on a processor four times slower, its shards loaded and none read yet; rising. It is
    the time of the page's thread, with what the browser takes to hand the question over."""
    plain: list[float]
    """The same on the processor as it is: a busy machine slows the slowing itself."""
    heap_mb: float
    """What the page holds once all were asked, before anything is thrown away: it says when the browser cleans up."""
    held_mb: float
    """What it holds when all has been answered and everything that can go is gone."""


def sought(folder: Path, asked: Sequence[str]) -> Sought:
    """Ask one page all questions, one after the other; `folder` is above the index's own."""
    page_file = folder / "seek.html"
    js = folder / "assets" / "js"
    js.mkdir(parents=True, exist_ok=True)
    names = [ASSETS / "folder.js", *SCRIPTS]
    for script in names:
        shutil.copyfile(script, js / script.name)
    scripts = "".join(f'<script src="assets/js/{script.name}"></script>' for script in names)
    page_file.write_text(_PAGE.format(scripts=scripts), "utf-8")
    os.environ.setdefault("SEAMBOOK_CHROMIUM", str(find_chromium(os.environ)))
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(**launch_options())
        page = browser.new_page()
        page.goto(page_file.as_uri())
        page.evaluate(_BEGIN)
        client = page.context.new_cdp_session(page)
        for text in asked:
            page.evaluate(_LOAD, text)
        heap = client.send("Runtime.getHeapUsage")["usedSize"] / 1e6
        client.send("Performance.setTimeDomain", {"timeDomain": "threadTicks"})
        client.send("Performance.enable")
        plain = [_milliseconds(page, client, text) for text in asked]
        client.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
        slowed = [_milliseconds(page, client, text) for text in asked]
        client.send("HeapProfiler.collectGarbage")
        held = client.send("Runtime.getHeapUsage")["usedSize"] / 1e6
        browser.close()
    return Sought(sorted(slowed), sorted(plain), heap, held)


def _milliseconds(page: Page, client: CDPSession, text: str) -> float:
    before = _task_seconds(client)
    page.evaluate(_ANSWER, text)
    return 1000 * (_task_seconds(client) - before)


def _task_seconds(client: CDPSession) -> float:
    """What the page's own thread has worked so far, whatever else the machine did meanwhile."""
    told = client.send("Performance.getMetrics")["metrics"]
    return float(next(one["value"] for one in told if one["name"] == "TaskDuration"))


def part(values: Sequence[float], share: float) -> float:
    """Return the value that such a share of rising values does not exceed."""
    return values[min(len(values) - 1, int(share * len(values)))]
