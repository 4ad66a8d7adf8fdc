"""Decisions as the built book shows them: where they stand, in which order, what outranks them, and their way on."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest
from bs4 import BeautifulSoup, Tag

from tests.site.building import page
from tests.site.flat import Element

Blocks = list[tuple[str, Tag]]
BLOCK = re.compile(r'<([a-z]+)[^<>]* class=(?:"(?:[^"]* )?choosing(?: [^"]*)?"|choosing[ >])')
FOLDERS = ("seams", "panels", "procedures")


def words(tag: Tag) -> str:
    return " ".join(tag.get_text(" ").split())


def cut(html: str) -> Iterator[str]:
    """The mark-up of each block, which is a hundredth of its page's."""
    for begun in BLOCK.finditer(html):
        depth = 0
        for mark in re.compile(rf"<(/?){begun[1]}[ >]").finditer(html, begun.start()):
            depth += -1 if mark[1] else 1
            if depth == 0:
                yield html[begun.start():mark.end()]
                break


@pytest.fixture(scope="module")
def blocks(site: Path) -> Blocks:
    found = [(path.relative_to(site).as_posix(), next(BeautifulSoup(text, "html.parser").children))
             for folder in FOLDERS for path in sorted((site / folder).glob("*.html"))
             for text in cut(path.read_text("utf-8"))]  # fmt: skip
    assert len(found) > 20
    return [(path, block) for path, block in found if isinstance(block, Tag)]


def test_all_of_them_are_looked_at(blocks: Blocks, pages: dict[str, list[Element]]) -> None:
    there = [path for folder in FOLDERS for path, found in pages.items() if path.startswith(f"{folder}/")
             for one in found if "choosing" in one.attrs.get("class", "").split()]  # fmt: skip
    assert [path for path, _ in blocks] == there


def test_each_seam_and_panel_is_decided_and_each_step_that_frees_welds(
    site: Path, blocks: Blocks, pages: dict[str, list[Element]]
) -> None:
    sections = [path for path, block in blocks if block.name == "section"]
    asked = 0
    for path, found in pages.items():
        mark = {"seams": "segments", "panels": "service-part"}.get(path.partition("/")[0])
        if mark is not None and any(one.attrs.get("id") == mark for one in found):
            asked += 1
            assert sections.count(path) == 1, path
    assert asked > 20
    rocker = page(site, "procedures/renew-rocker-outer.html")
    assert {str(step["id"]) for step in rocker.select(".step:has(.choosing)")} == {"free-flanges", "free-quarter"}


def test_every_decision_says_what_outranks_it_and_where_it_comes_from(blocks: Blocks) -> None:
    for path, block in blocks:
        outranks = block.select(".outranks")
        assert len(outranks) == 1, path
        assert "vehicle maker" in words(outranks[0])
        hrefs = [str(a["href"]) for a in outranks[0].select("a")]
        assert ["decisions/" in hrefs[0], "sources/" in hrefs[1]] == [True, True]


def test_each_answer_has_its_reason_and_all_but_the_last_a_condition(blocks: Blocks) -> None:
    lists = [(path, one) for path, block in blocks for one in block.select(".ways")]
    assert lists
    for path, one in lists:
        rows = one.find_all("li", recursive=False)
        assert len(rows) > 1, "one answer alone is no list"
        for at, row in enumerate(rows):
            assert words(row.select(".say")[0]), path
            assert words(row.select(".note")[0]), path
            is_last = at == len(rows) - 1
            assert words(row.select(".if")[0]).startswith("Otherwise" if is_last else "If "), path


def test_a_settled_answer_stands_open_and_what_remains_is_folded_where_it_is_long(blocks: Blocks) -> None:
    for path, block in blocks:
        for spots in block.select(".spots"):
            folded = spots.select("details.remaining")
            if not folded:
                assert spots.select(":scope > .say"), path
                continue
            count = int(words(folded[0].select("summary")[0]).split()[0])
            assert count == len(folded[0].find("ol", class_="ways").find_all("li", recursive=False))  # type: ignore[union-attr]
            assert folded[0].has_attr("open") is (count < 4 and not path.startswith("procedures/"))


def test_the_way_on_opens_the_calculator_with_what_is_known(site: Path, blocks: Blocks) -> None:
    @cache
    def inputs_of(path: str) -> dict[str, Tag]:
        return {str(one["data-input"]): one for one in page(site, path).select("[data-input]")}

    for path, block in blocks:
        links = [str(a["href"]) for a in block.select(".rework a")]
        assert links
        for link in links:
            target, _, fragment = link.partition("#")
            inputs = inputs_of(target.replace("../", ""))
            assert fragment.startswith("in="), path
            for part in fragment.removeprefix("in=").split(","):
                name, _, value = part.partition(":")
                options = [str(option["value"]) for option in inputs[name].select("select[name] option")]
                assert value in options or not options, (path, part)


def test_a_decision_has_a_page_that_says_what_is_told_and_what_is_open(site: Path) -> None:
    made = page(site, "decisions/how-to-free.html")
    assert words(made.select("h1")[0]) == "How to free these welds"
    assert "kept_place" in words(made.select("#told")[0])
    opened = words(made.select("#open")[0])
    assert "rusted" in opened
    assert "only where kept_skin != \"yes\"" in opened
    assert any("acts/free-welds.html" in str(a["href"]) for a in made.select("#decision a"))
