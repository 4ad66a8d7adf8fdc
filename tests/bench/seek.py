"""An index on disk -> what a page opened from a folder loads, how long it answers and what it holds, in Chromium."""

from __future__ import annotations

import os
import shutil
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from playwright.sync_api import sync_playwright

from tests.formula.node import ASSETS
from tests.search.asking import SCRIPTS
from tests.tools.browser import find_chromium, launch_options

SLOWER = 4
ORDINARY_NS = 1.0
"""What one turn of the loop takes on an ordinary core that is not slowed: by it figures of a busy machine are read."""
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
  const started = performance.now();
  seambook.search.needed(index, text);
  seambook.search.find(index, text, 8);
  return performance.now() - started;
}"""
_LOOP = """() => {
  const started = performance.now();
  let sum = 0;
  for (let at = 0; at < 2e7; at += 1) sum += at * 1.1;
  return sum > 0 ? (performance.now() - started) / 20 : 0;
}"""
"""Nanoseconds of one addition, by which machines and hours compare."""


class Sought(NamedTuple):
    """What questions cost."""

    milliseconds: list[float]
    """Of each answer on a processor four times slower, its shards loaded and none of them read yet; rising."""
    heap_mb: float
    """What the page holds once all were asked, before anything is thrown away."""
    addition_ns: float
    """What one turn of a plain loop took in between, on the slower processor."""


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
        client.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
        additions, found = [], []
        for at, text in enumerate(asked):
            found.append(float(page.evaluate(_ANSWER, text)))
            if at % 20 == 0:
                additions.append(float(page.evaluate(_LOOP)))
        browser.close()
    return Sought(sorted(found), heap, sorted(additions)[len(additions) // 2])


def part(values: Sequence[float], share: float) -> float:
    """Return the value that such a share of rising values does not exceed."""
    return values[min(len(values) - 1, int(share * len(values)))]
