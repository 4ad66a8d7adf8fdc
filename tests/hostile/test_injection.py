"""Sixty ways to make a page run somebody's script: in every free text of a book, in its links and in files of jobs.

Whatever stands in a record is text. The payloads are of the common sorts, written down from memory.
"""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from urllib.parse import quote

import pytest
from bs4 import BeautifulSoup
from playwright.sync_api import Browser

from tests.books.laying import TINY, build
from tests.browser.watched import DESK, Watched, every_path
from tests.hostile.spoiled import ALL, PAYLOADS, REFUSED, spoil
from tests.sweeps import is_soak, share

CAUGHT = "window.caught"
ACTIVE = ("iframe", "object", "embed", "base", "applet", "frame", "marquee", "animate", "set", "template", "audio",
          "video", "style", "foreignObject")  # fmt: skip
"""What no page of a book holds."""
ROUNDS = len(PAYLOADS) if is_soak() else 2
"""How often the book is spoiled, each time with each text's next payload."""
PAGES_WITH_STATE = ("jobs.html", "bay.html", "training.html", "labels.html", "breakdown.html", "index.html",
                    "calculators/holes.html", "seams/cover-edge.html", "procedures/weld-cover.html")  # fmt: skip


def spoiled_book(folder: Path, first: int) -> Path:
    content = folder / f"content-{first}"
    shutil.copytree(TINY, content)
    texts = spoil(content, first)
    assert texts > 250
    outcome = build(content, folder / f"site-{first}")
    assert outcome.published is not None, outcome.problems[:3]
    return folder / f"site-{first}"


@pytest.fixture(scope="module")
def spoiled(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A book with a payload in every free text."""
    return spoiled_book(tmp_path_factory.mktemp("spoiled"), 0)


def active(soup: BeautifulSoup) -> list[str]:
    """What of a page could act or fetch beside the book's own scripts, styles and pictures."""
    found = [str(tag)[:120] for tag in soup.find_all(ACTIVE)]
    for tag in soup.find_all(True):
        for name, value in tag.attrs.items():
            said = " ".join(value) if isinstance(value, list) else str(value)
            folded = said.strip().lower()
            is_way = name in ("href", "src", "action", "formaction", "data", "xlink:href", "srcset", "poster")
            leads_to_script = is_way and folded.startswith(("javascript:", "vbscript:", "data:", "//"))
            if name.startswith("on") or name in ("style", "srcdoc") or leads_to_script:
                found.append(f"{name}={said[:80]}")
            elif name == "src" and (tag.name not in ("script", "img") or "://" in said):
                found.append(f"{tag.name} src={said[:80]}")
    found += [str(tag)[:120] for tag in soup.find_all("script") if tag.get_text().strip() or not tag.get("src")]
    found += [str(tag)[:120] for tag in soup.find_all("meta") if tag.get("http-equiv", "").lower() == "refresh"]  # type: ignore[union-attr]
    found += [str(tag)[:120] for tag in soup.find_all("link") if "elsewhere" in str(tag)]
    return found


@pytest.mark.slow
@pytest.mark.parametrize("first", range(ROUNDS))
def test_no_text_of_a_record_becomes_mark_up(tmp_path: Path, first: int) -> None:
    site = spoiled_book(tmp_path, first * 7)
    pages = 0
    for path in every_path(site):
        data = (site / path).read_text("utf-8")
        assert active(BeautifulSoup(data, "html.parser")) == [], path
        pages += "caught" in data
    assert pages > 40


@pytest.mark.parametrize("payload", REFUSED)
def test_a_way_to_a_script_is_refused_where_it_stands(tmp_path: Path, payload: str) -> None:
    content = tmp_path / "content"
    shutil.copytree(TINY, content)
    path = content / "terms" / "lap.yaml"
    path.write_text(path.read_text("utf-8").replace("means: Two ", f"means: Two {payload} "), "utf-8")
    [problem] = build(content).problems
    assert (problem.code.id, problem.span.file, problem.span.line) == ("S207", "content/terms/lap.yaml", 2)


@pytest.mark.slow
def test_none_runs_in_a_browser_and_none_breaks_a_page(chromium: Browser, spoiled: Path) -> None:
    watched = Watched(chromium, spoiled)
    page = watched.blank(DESK)
    for path in dict.fromkeys((*PAGES_WITH_STATE, *share(every_path(spoiled), 12))):
        page.goto(watched.url(path))
        assert page.evaluate(CAUGHT) is None, path
        assert page.locator("main").count() == 1, path
        last = "main > article#scale--heat" if path == "print.html" else "footer, .foot"
        assert page.locator(last).count() >= 1, path  # what comes last is still there
    assert watched.troubles == []
    watched.close()


@pytest.mark.slow
def test_none_runs_from_a_search(chromium: Browser, spoiled: Path) -> None:
    watched = Watched(chromium, spoiled)
    page = watched.open("index.html", DESK)
    box = page.locator("#page_search-words")
    for payload in share(ALL, 6):
        box.fill(payload)
        page.wait_for_timeout(60)
        assert page.evaluate(CAUGHT) is None, payload
    box.fill("caught")
    page.locator("#page_search-found li").first.wait_for()
    assert page.evaluate(CAUGHT) is None
    assert page.locator("#page_search-found :is(script, iframe, object, embed, svg, style, base)").count() == 0
    assert watched.troubles == []
    watched.close()


@pytest.mark.slow
def test_none_runs_from_the_address(chromium: Browser, spoiled: Path) -> None:
    watched = Watched(chromium, spoiled)
    page = watched.blank(DESK)
    frames = ("#{}", "#in=length:{}", "#procedure={}", "#job={}", "?q={}", "#{}@left", "#length={}")
    for at, payload in enumerate(share(ALL, 16)):
        for path in share(PAGES_WITH_STATE, 3, at):
            for form in share(frames, 4, at):
                page.goto(watched.url(path) + form.format(quote(payload, safe="")))
                assert page.evaluate(CAUGHT) is None, (path, form, payload)
                assert page.locator("main").count() == 1
    assert [one for one in watched.troubles if "net::ERR_FILE_NOT_FOUND" not in one] == []
    watched.close()


@pytest.mark.slow
def test_none_runs_from_a_jobs_file(chromium: Browser, spoiled: Path, tmp_path: Path) -> None:
    """The example job of the spoiled book, with more payloads in its texts."""
    watched = Watched(chromium, spoiled)
    page = watched.open("jobs.html", DESK)
    script = next((spoiled / "assets/job/example").glob("*.js")).read_text("utf-8")
    data = json.loads(script[script.index("] = ") + 4:].rstrip().rstrip(";"))
    for first in share(range(0, len(PAYLOADS), 9), 3):
        file = tmp_path / f"job-{first}.json"
        file.write_text(json.dumps(_filled(data.get("file", data), first)), "utf-8")
        page.goto(watched.url("jobs.html"))
        page.locator("input[type=file]").first.set_input_files(file)
        page.wait_for_timeout(400)
        assert page.evaluate(CAUGHT) is None
        assert page.locator("main :is(iframe, object, embed, base, style, marquee)").count() == 0
        assert page.locator("main [onerror], main [onload], main [onclick], main [onmouseover]").count() == 0
    assert watched.troubles == []
    watched.close()


def _filled(node: object, at: int) -> object:
    """Put payloads behind the free texts of a job: what holds a blank, and is no date."""
    if isinstance(node, dict):
        return {key: _filled(one, at + place) for place, (key, one) in enumerate(node.items())}
    if isinstance(node, list):
        return [_filled(one, at + place) for place, one in enumerate(node)]
    return f"{node} {PAYLOADS[at % len(PAYLOADS)]}" if isinstance(node, str) and " " in node else node


def test_the_measure_finds_what_is_wrong() -> None:
    for bad in ("<script>x</script>", "<img src=x onerror=y>", "<a href='javascript:x'>x</a>", "<iframe></iframe>",
                "<p style='x'>x</p>", "<meta http-equiv=Refresh content=0>", "<base href=x>", "<svg><animate/></svg>"):
        assert active(BeautifulSoup(bad, "html.parser")), bad
    assert len(ALL) >= 60
