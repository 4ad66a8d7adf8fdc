"""Where panels come to lie: on both sides when they are handed, on one when not, and the same said in words."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from tests.books.laying import TINY, build, lay

COVER = "drawn:\n  - {view: near, outline: 100 20; 300 20; 300 180; 100 180}\n"


@pytest.fixture
def content(tmp_path: Path) -> Path:
    return lay(tmp_path / "content", TINY)


def home(content: Path) -> BeautifulSoup:
    site = content.parent / "site"
    outcome = build(content, site)
    assert outcome.published is not None, outcome.problems
    return BeautifulSoup((site / "index.html").read_text("utf-8"), "html.parser")


def views(page: BeautifulSoup) -> dict[str, list[str]]:
    return {
        str(view["aria-label"]): [title.text for title in view.select("a > title")]
        for view in page.select("svg.shell-view")
    }


def outline(page: BeautifulSoup, view: str, title: str) -> str:
    links = page.select(f'svg[aria-label="{view}"] a')
    return next(str(link.select("path")[1]["d"]) for link in links if link.title and link.title.text == title)


def test_a_handed_panel_is_on_both_sides_in_mirror_image(content: Path) -> None:
    page = home(content)
    assert views(page) == {"Near side": ["Cover", "Box"], "Top": ["Box"], "Far side": ["Cover", "Box"]}
    assert outline(page, "Near side", "Cover") == "M100 20L300 20L300 180L100 180Z"
    assert outline(page, "Far side", "Cover") == "M300 20L100 20L100 180L300 180Z"
    top = outline(page, "Top", "Box")
    assert top.count("M") == 2, "on a view with a middle, once a hand"


def test_an_unhanded_panel_is_where_it_is_drawn(content: Path) -> None:
    for name in ("box", "cover"):
        path = content / f"panels/{name}.yaml"
        path.write_text(path.read_text("utf-8").replace("handed: yes", "handed: no"), "utf-8")
    for path in (content / "procedures").glob("*.yaml"):
        path.write_text(path.read_text("utf-8").replace("other:", ""), "utf-8")
    shutil.rmtree(content / "jobs")  # a job that chooses a side of it would be a mistake now
    page = home(content)
    assert views(page) == {"Near side": ["Cover", "Box"], "Top": ["Box"], "Far side": []}
    groups = [group.h3.text.strip() for group in page.select("#in-words .group") if group.h3]
    assert groups == ["Near side alone", "Top"]


def test_a_panel_that_is_not_drawn_is_named_in_words(content: Path) -> None:
    cover = content / "panels/cover.yaml"
    cover.write_text(cover.read_text("utf-8").replace(COVER, ""), "utf-8")
    page = home(content)
    group = page.select("#in-words .group")[-1]
    assert group.h3 is not None
    assert (group.h3.text.strip(), [link.text for link in group.select("a")]) == ("Not on the drawing", ["Cover"])


def test_a_book_without_a_shell_lists_its_panels(content: Path) -> None:
    (content / "shells/crate.yaml").unlink()
    for name in ("box", "cover"):
        path = content / f"panels/{name}.yaml"
        path.write_text(path.read_text("utf-8").partition("drawn:")[0], "utf-8")
    page = home(content)
    assert page.select("svg") == []
    assert [link.text for link in page.select("#in-words a")] == ["Box", "Cover"]


def test_every_panel_of_the_drawing_is_in_the_words(content: Path) -> None:
    page = home(content)
    drawn = {link["href"] for link in page.select("svg a")}
    assert drawn == {link["href"] for link in page.select("#in-words a")}
