"""Decisions as the built book shows them: where they stand, in which order, what outranks them, and their way on."""

from __future__ import annotations

from pathlib import Path

from bs4 import BeautifulSoup, Tag

from tests.site.building import page

Pages = dict[str, BeautifulSoup]


def words(tag: Tag) -> str:
    return " ".join(tag.get_text(" ").split())


def blocks(pages: Pages) -> list[tuple[str, Tag]]:
    found = [(path, one) for path, soup in pages.items() if path.partition("/")[0] in ("seams", "panels", "procedures")
             for one in soup.select(".choosing")]  # fmt: skip
    assert len(found) > 20
    return found


def test_each_seam_and_panel_is_decided_and_each_step_that_frees_welds(pages: Pages) -> None:
    for path, soup in pages.items():
        folder = path.partition("/")[0]
        if folder == "seams" and soup.select("#segments"):
            assert len(soup.select("section.choosing")) == 1, path
        if folder == "panels" and soup.select("#service-part"):
            assert len(soup.select("section.choosing")) == 1, path
    steps = {str(step["id"]) for step in pages["procedures/renew-rocker-outer.html"].select(".step:has(.choosing)")}
    assert steps == {"free-flanges", "free-quarter"}


def test_every_decision_says_what_outranks_it_and_where_it_comes_from(pages: Pages) -> None:
    for path, block in blocks(pages):
        outranks = block.select(".outranks")
        assert len(outranks) == 1, path
        assert "vehicle maker" in words(outranks[0])
        hrefs = [str(a["href"]) for a in outranks[0].select("a")]
        assert ["decisions/" in hrefs[0], "sources/" in hrefs[1]] == [True, True]


def test_each_answer_has_its_reason_and_all_but_the_last_a_condition(pages: Pages) -> None:
    lists = [(path, one) for path, block in blocks(pages) for one in block.select(".ways")]
    assert lists
    for path, one in lists:
        rows = one.find_all("li", recursive=False)
        assert len(rows) > 1, "one answer alone is no list"
        for at, row in enumerate(rows):
            assert words(row.select(".say")[0]), path
            assert words(row.select(".note")[0]), path
            is_last = at == len(rows) - 1
            assert words(row.select(".if")[0]).startswith("Otherwise" if is_last else "If "), path


def test_a_settled_answer_stands_open_and_what_remains_is_folded_where_it_is_long(pages: Pages) -> None:
    for path, block in blocks(pages):
        for spots in block.select(".spots"):
            folded = spots.select("details.remaining")
            if not folded:
                assert spots.select(":scope > .say"), path
                continue
            count = int(words(folded[0].select("summary")[0]).split()[0])
            assert count == len(folded[0].find("ol", class_="ways").find_all("li", recursive=False))  # type: ignore[union-attr]
            assert folded[0].has_attr("open") is (count < 4 and not path.startswith("procedures/"))


def test_the_way_on_opens_the_calculator_with_what_is_known(pages: Pages) -> None:
    for path, block in blocks(pages):
        links = [str(a["href"]) for a in block.select(".rework a")]
        assert links
        for link in links:
            target, _, fragment = link.partition("#")
            asked = pages[target.replace("../", "")].select("[data-input]")
            inputs = {str(one["data-input"]): one for one in asked}
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
