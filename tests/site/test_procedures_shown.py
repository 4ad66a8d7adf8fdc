"""What a procedure's page says of its dangers and of the procedures before and after it, held against the records."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml
from bs4 import BeautifulSoup, Tag

from builder.view import used
from tests.books.laying import TINY, build, lay
from tests.search.reading import read_index
from tests.site.building import CONTENT, page
from tests.sweeps import share

PROCEDURES = ("hang-quarter-outer", "prove-spot-welder", "wax-after-bake")
GRAVEST = "danger"


read = cache(page)
"""A page of the supplied book, read once for all that look at it and change nothing."""


@cache
def record(path: str) -> dict[str, Any]:
    found: dict[str, Any] = yaml.load((CONTENT / f"{path}.yaml").read_text("utf-8"), yaml.CSafeLoader)
    return found


def steps_of(procedure: dict[str, Any]) -> list[dict[str, Any]]:
    return [step for phase in procedure["phases"] for step in phase["steps"]]


def names(value: str | list[str] | None) -> list[str]:
    return [value] if isinstance(value, str) else value or []


@pytest.mark.parametrize("name", PROCEDURES)
def test_a_danger_is_in_full_where_it_first_arises_and_what_kills_each_time(site: Path, name: str) -> None:
    shown = read(site, f"procedures/{name}.html")
    told: set[str] = set()
    for step in steps_of(record(f"procedures/{name}")):
        article = shown.find(id=step["key"])
        assert isinstance(article, Tag)
        for id_ in names(step.get("hazards")):
            is_full = id_ not in told or record(f"hazards/{id_}")["signal"] == GRAVEST
            boxes = article.select(".warning" if is_full else ".brief")
            assert sum(f"hazards/{id_}.html" in str(box) for box in boxes) == 1, (step["key"], id_)
            told.add(id_)
        assert len(article.select(".warning, .brief")) == len(names(step.get("hazards")))
        before = article.select(".warning ~ .do, .brief ~ .do") or not step.get("hazards")
        assert before, "what is to be done stands below its dangers"
    assert told


@pytest.mark.parametrize("name", PROCEDURES)
def test_the_head_gathers_each_danger_once(site: Path, name: str) -> None:
    procedure = record(f"procedures/{name}")
    all_ = {id_ for one in (procedure, *steps_of(procedure)) for id_ in names(one.get("hazards"))}
    boxes = read(site, f"procedures/{name}.html").select("#part_dangers .warning, #part_dangers .brief")
    assert sorted(Path(str(box.select("a[href*=hazards]")[0]["href"])).stem for box in boxes) == sorted(all_)


def test_each_leads_to_what_is_done_before_it_and_to_what_goes_on_from_it(site: Path) -> None:
    relied = {path.stem: names(record(f"procedures/{path.stem}").get("relies_on"))
              for path in (CONTENT / "procedures").glob("*.yaml")}  # fmt: skip
    assert sum(map(bool, relied.values())) > 20
    for name, before in share(sorted(relied.items()), 10):
        shown = page(site, f"procedures/{name}.html")
        assert stems(shown, "#part_before a") == set(before)
        assert stems(shown, "#part_onward a") == {other for other, needed in relied.items() if name in needed}


def test_what_goes_on_from_one_alone_is_listed_behind_it(site: Path) -> None:
    for path in ("index.html", "lists.html"):
        for group in page(site, path).select("#procedure .group"):
            entries = group.select("li")
            listed = [Path(str(entry.select("a")[0]["href"])).stem for entry in entries]
            for at, name in enumerate(listed):
                before = names(record(f"procedures/{name}").get("relies_on"))
                goes_on = len(before) == 1 and before[0] in listed
                assert ("goes on from the one above" in entries[at].get_text()) == goes_on, name
                assert not goes_on or listed.index(before[0]) < at


def test_of_many_that_go_on_the_first_are_named_and_the_way_to_all(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(used, "MOST", 2)
    content = lay(tmp_path / "content", TINY)
    text = (content / "procedures/weld-cover.yaml").read_text("utf-8")
    for at in range(3):
        goes_on = text.replace("title: Weld the cover on", f"title: Another cover, {at}\nrelies_on: weld-cover", 1)
        (content / f"procedures/weld-cover-{at}.yaml").write_text(goes_on, "utf-8")
    outcome = build(content, tmp_path / "site")
    assert outcome.published is not None, outcome.problems
    onward = page(tmp_path / "site", "procedures/weld-cover.html").select("#part_onward a")
    assert [link.text for link in onward] == ["Another cover, 0", "Another cover, 1", "All 3 procedures"]
    path, _, anchor = str(onward[-1]["href"]).removeprefix("../").partition("#")
    assert len(page(tmp_path / "site", path).select(f"#{anchor} li a")) == 3


def test_a_status_is_named_where_it_is_not_issued(tmp_path: Path) -> None:
    content = lay(tmp_path / "content", TINY)
    file = content / "procedures/weld-cover.yaml"
    text = file.read_text("utf-8")
    assert "status: issued" in text
    for status, said in (("issued", ""), ("proven", "proven on a car, not issued"), ("withdrawn", "withdrawn")):
        file.write_text(text.replace("status: issued", f"status: {status}"), "utf-8")
        outcome = build(content, tmp_path / status)
        assert outcome.published is not None, outcome.problems
        [entry] = page(tmp_path / status, "index.html").select("#procedure li")
        assert entry.get_text(" ", strip=True).removeprefix("Weld the cover on").strip() == said


def test_what_is_searched_holds_no_marks_of_links(site: Path) -> None:
    folder = site / "assets/search"
    pages = read_index({path.name: path.read_bytes() for path in folder.iterdir()}).pages
    heads = [text for texts in pages for text in texts]
    assert len(heads) > 5000
    assert [text for text in heads if "](" in text] == []


def stems(shown: BeautifulSoup, selector: str) -> set[str]:
    return {Path(str(link["href"])).stem for link in shown.select(selector)}
