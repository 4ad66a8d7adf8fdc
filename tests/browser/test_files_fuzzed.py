"""Files of jobs and of training, spoiled by chance: read whole, or refused in words with the place; never an error.

What is read is opened on its page, too: a few of the files that were taken, each of which may be as odd as its form
lets it be. `make soak` spoils for some minutes.
"""

from __future__ import annotations

import json
import random
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.test_training import KEPT, LESSON, TRAINING, pass_the_lesson, practise_as
from tests.browser.watched import PHONE, Watched
from tests.hostile.fuzzing.mutating import json_changed
from tests.sweeps import is_soak

pytestmark = pytest.mark.slow
BATCH, BATCHES = 100, 400 if is_soak() else 3
OPENED = 60 if is_soak() else 3
SLOWEST = 2_000
"""Milliseconds for one file."""
ASK = """([texts, sort]) => {
  const read = sort === "job"
    ? (text) => seambook.jobFile.read(text, seambook.jobBook, "job-1")
    : (text) => seambook.trainFile.read(text, seambook.training, "person-1");
  const write = sort === "job"
    ? (found) => seambook.jobFile.write(found.job, seambook.jobBook)
    : (found) => seambook.trainFile.write(found.person, seambook.training);
  return texts.map((text) => {
    const began = performance.now();
    try {
      const found = read(text);
      if (found.fault !== undefined && found.fault !== "") return {fault: found.fault, took: performance.now() - began};
      const again = write(found);
      const twice = read(again);
      return {again, twice: twice.fault ? twice.fault : write(twice), took: performance.now() - began};
    } catch (error) {
      return {raised: String(error && error.stack || error)};
    }
  });
}"""
CLEAN = "() => Object.keys(Object.prototype).length === 0 && ({}).polluted === undefined"


def opened(watched_tiny: Watched, sort: str) -> tuple[Page, list[str]]:
    """The page that reads such files, and valid ones to spoil."""
    if sort == "job":
        page = watched_tiny.open("jobs.html", PHONE)
        return page, [json.dumps(page.evaluate("() => seambook.jobLibrary.example('dented-cover')"))]
    page = watched_tiny.open(LESSON, PHONE)
    practise_as(page, "Ida")
    pass_the_lesson(page)
    seeds = list(page.evaluate(KEPT).values())
    page.goto(watched_tiny.url(TRAINING))
    return page, seeds


def spoiled(seeds: list[str], chance: random.Random) -> str:
    return json_changed(chance.choice(seeds).encode(), chance).decode(errors="replace")


@pytest.mark.timeout(1800)
@pytest.mark.parametrize("sort", ["job", "training"])
def test_a_spoiled_file_is_read_or_refused_and_never_an_error(watched_tiny: Watched, sort: str) -> None:
    page, seeds = opened(watched_tiny, sort)
    chance = random.Random(20261127)
    taken = refused = 0
    assert "raised" not in page.evaluate(ASK, [seeds, sort])[0]
    for _ in range(BATCHES):
        texts = [spoiled(seeds, chance) for _ in range(BATCH)]
        for text, found in zip(texts, page.evaluate(ASK, [texts, sort]), strict=True):
            assert "raised" not in found, (found, text)
            assert found["took"] < SLOWEST, text
            if "fault" in found:
                refused += 1
                assert len(found["fault"]) > 20, (found, text)
            else:
                taken += 1
                assert found["twice"] == found["again"], text
                if len(seeds) < 60:
                    seeds.append(text)
        assert page.evaluate(CLEAN)
    assert taken > BATCHES
    assert refused > BATCHES * 10


@pytest.mark.timeout(1800)
def test_what_was_taken_is_shown_in_every_view(watched_tiny: Watched, tmp_path: Path) -> None:
    page, seeds = opened(watched_tiny, "job")
    chance = random.Random(5)
    shown = 0
    while shown < OPENED:
        text = spoiled(seeds[:1], chance)
        found: dict[str, Any] = page.evaluate(ASK, [[text], "job"])[0]
        if "fault" in found or json.loads(text)["job"] == json.loads(seeds[0])["job"]:
            continue
        shown += 1
        file = tmp_path / f"{shown}.json"
        file.write_text(text, "utf-8")
        page = watched_tiny.blank(PHONE)
        page.goto(watched_tiny.url("jobs.html"))
        page.locator("#job_file").set_input_files(file)
        expect(page.locator("#job_place").or_(page.locator("[id^=job_notice-]")).first).to_be_visible()
        views = {str(one.get_attribute("href")) for one in page.locator("#job_desk a[href*='view=']").all()}
        assert len(views) > 3, text
        for view in sorted(views):
            page.goto(watched_tiny.url(f"jobs.html#{view.partition('#')[2]}"))
            expect(page.locator("main h1, main h2").first).to_be_visible()
        assert watched_tiny.troubles == [], text
        page.context.close()
        page = watched_tiny.open("jobs.html", PHONE)
