"""Calculators stand by the moment of the job: on the first page, in the lists, on the command line, on each page."""

from __future__ import annotations

from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from builder.view import parts
from tests.books.laying import build
from tests.site.building import page, seambook_here
from tests.site.made_calculators import book, calculator

MOMENTS = "title: Moments\nsummary: When.\nwords:\n  first: {say: To begin}\n  cut: {say: In the middle}\n" \
          "  never: {say: Never}\n  last: {say: To end}\n"  # fmt: skip
WANTED = {"zeal": "first", "amber": "last", "birch": "last", "cedar": "", "dune": "first"}
RECORDS = {
    "scales/moment.yaml": MOMENTS,
    **{f"calculators/{name}.yaml": calculator(name.title(), "bench-trial", "bench-trial", moment=moment)
       for name, moment in WANTED.items()},
}  # fmt: skip
GROUPS = [("To begin", ["dune", "zeal"]), ("In the middle", ["holes"]), ("To end", ["amber", "birch"]),
          ("At any moment", ["cedar"])]  # fmt: skip


@pytest.fixture(scope="module")
def content(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return book(tmp_path_factory.mktemp("moments") / "content", RECORDS)


@pytest.fixture(scope="module")
def site(content: Path) -> Path:
    assert build(content, content.parent / "site").problems == ()
    return content.parent / "site"


def groups(soup: BeautifulSoup) -> list[tuple[str, list[str]]]:
    return [
        (group.h3.text if group.h3 else "", [str(a["href"]).split("/")[-1].removesuffix(".html") for a in group("a")])
        for group in soup.select("#calculator .group")
    ]


@pytest.mark.parametrize("path", ["index.html", "lists.html"])
def test_groups_come_in_the_order_of_the_scale_and_none_is_empty(site: Path, path: str) -> None:
    assert groups(page(site, path)) == GROUPS


def test_the_command_lists_them_in_the_same_groups(content: Path) -> None:
    said = seambook_here("calc", "--list", "--content", str(content), folder=content)
    assert said.code == 0
    found: list[tuple[str, list[str]]] = []
    for line in said.out.splitlines():
        if line.startswith("  "):
            found[-1][1].append(line.split()[0])
        elif line:
            found.append((line, []))
    assert found == GROUPS


def test_each_page_says_its_moment_and_leads_to_the_others(site: Path) -> None:
    aside = page(site, "calculators/amber.html").select_one("#moment")
    assert aside is not None
    assert "To end" in aside.h2.text  # type: ignore[union-attr]
    assert [a["href"] for a in aside("a")] == ["birch.html"]
    alone = page(site, "calculators/holes.html").select_one("#moment")
    assert alone is not None
    assert not alone("a")
    assert page(site, "calculators/cedar.html").select_one("#moment") is None


def test_too_many_for_one_page_come_in_parts_of_each_moment(
    content: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(parts, "MOST_ON_ONE_PAGE", 1)
    assert build(content, tmp_path / "site").published is not None
    heads = page(tmp_path / "site", "lists.html").select("#calculator .group")
    assert [(group.h3.text, len(group("a"))) for group in heads if group.h3] == [
        (say, len(names)) for say, names in GROUPS
    ]  # fmt: skip
    assert [group["id"] for group in heads] == ["moment_first", "moment_cut", "moment_last", "moment_"]
    found = []
    for group in heads:
        for a in group("a"):
            found += groups(page(tmp_path / "site", str(a["href"])))
    assert found == [(say, [name]) for say, names in GROUPS for name in names]


def test_the_first_page_keeps_to_a_few_of_each_moment(tmp_path: Path) -> None:
    many = {f"calculators/more-{at:02}.yaml": calculator(f"More {at:02}", "bench-trial", "bench-trial", moment="last")
            for at in range(50)}  # fmt: skip
    assert build(book(tmp_path / "content", {**RECORDS, **many}), tmp_path / "site").problems == ()
    found = dict(groups(page(tmp_path / "site", "index.html")))
    assert list(found) == [say for say, _ in GROUPS]
    assert found["To begin"] == ["dune", "zeal"]
    assert found["To end"][:2] == ["amber", "birch"]
    assert found["To end"][-1] == "lists.html#moment_last"
    assert sum(map(len, found.values())) <= 40
    lists = page(tmp_path / "site", "lists.html")
    assert lists.find(id="moment_last") is not None
    aside = page(tmp_path / "site", "calculators/amber.html").select_one("#moment")
    assert aside is not None
    assert str(aside("a")[-1]["href"]) == "../lists.html#moment_last"
    assert len(aside("a")) == 13


def test_a_book_that_names_no_moment_has_one_list_without_a_heading(tmp_path: Path) -> None:
    content = book(tmp_path / "content", {})
    holes = content / "calculators/holes.yaml"
    holes.write_text(holes.read_text("utf-8").replace("moment: cut\n", ""), "utf-8")
    assert build(content, tmp_path / "site").published is not None
    assert groups(page(tmp_path / "site", "lists.html")) == [("", ["holes"])]
