"""What a calculator rests on is told at the head of its page, at each value and by the command, as content says."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from tests.books.laying import build
from tests.site.building import page, seambook_here
from tests.site.made_calculators import book, calculator, table

HEAD, PRACTICE = "Out of somebody's head.", "Common practice and nothing printed."
RECORDS = {
    "calculators/guess.yaml": calculator("Guess", "from-memory", "from-memory", proof="from-memory"),
    "calculators/habit.yaml": calculator("Habit", "practice-of-the-trade", "practice-of-the-trade"),
    "calculators/both.yaml": calculator("Both", "practice-of-the-trade", "from-memory"),
    "calculators/sound.yaml": calculator("Sound", "from-memory", "bench-trial"),
    "calculators/none.yaml": calculator("None", "none", "from-memory").replace("[none]", "none"),
    "calculators/by-table.yaml": calculator("By table", "from-memory", "from-memory", table=True),
    "tables/steps.yaml": table("practice-of-the-trade"),
}
EXPECTED = {
    "guess": (["memory"], HEAD),
    "habit": (["practice"], PRACTICE),
    "both": (["practice", "memory"], PRACTICE),
    "sound": (["measured-here", "memory"], None),
    "none": (["memory"], HEAD),
    "by-table": (["practice", "memory"], PRACTICE),
}


@pytest.fixture(scope="module")
def content(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return book(tmp_path_factory.mktemp("standing") / "content", RECORDS)


@pytest.fixture(scope="module")
def site(content: Path) -> Path:
    outcome = build(content, content.parent / "site")
    assert outcome.problems == ()
    return content.parent / "site"


def calculators_page(site: Path, name: str) -> BeautifulSoup:
    return page(site, f"calculators/{name}.html")


@pytest.mark.parametrize("name", EXPECTED)
def test_the_head_of_the_page_says_it_before_the_form(site: Path, name: str) -> None:
    said = EXPECTED[name][1]
    column = calculators_page(site, name).select_one("main .column")
    assert column is not None
    notices = column.select(".notice")
    assert [one.text for one in notices] == ([said] if said else [])
    first = column.find(True, recursive=False)
    assert first is not None
    assert first.get("id") == ("rests_on" if said else None)


@pytest.mark.parametrize("name", EXPECTED)
def test_the_command_says_it_too(content: Path, name: str) -> None:
    sorts, said = EXPECTED[name]
    asked = ("calc", name, "size=2 mm", "--content", str(content))
    text, told = (seambook_here(*asked, *more, folder=content) for more in ((), ("--json",)))
    assert (text.code, told.code) == (0, 0), text.err + told.err
    assert json.loads(told.out)["rests_on"] == {"sorts": sorts, "say": said}
    lines = text.out.splitlines()
    assert (lines[1].strip() == said) if said else lines[1].strip().startswith("Result")


def test_each_value_table_and_proof_from_memory_is_marked_where_it_stands(site: Path) -> None:
    for name, fixed, proof in (("guess", 1, 1), ("sound", 0, 0), ("both", 1, 0)):
        soup = calculators_page(site, name)
        assert len(soup.select("#fixed .mark")) == fixed, name
        assert len(soup.select("#proofs .mark")) == proof, name
    assert calculators_page(site, "guess").select("#fixed .mark")[0].text == "(not looked up)"


def test_a_table_from_memory_is_marked_where_it_is_named(tmp_path: Path) -> None:
    records = {**RECORDS, "tables/steps.yaml": table("from-memory")}
    outcome = build(book(tmp_path / "content", records), tmp_path / "site")
    assert outcome.published is not None
    soup = calculators_page(tmp_path / "site", "by-table")
    assert "Steps not looked up" in " ".join(soup.select_one("aside").get_text(" ").split())  # type: ignore[union-attr]
    assert [one.text for one in soup.select(".notice")] == [HEAD]


def test_the_whole_book_on_paper_says_it(site: Path) -> None:
    whole = page(site, "print.html")
    section = whole.find(id="calculator--guess")
    assert section is not None
    assert [one.text for one in section.select(".notice")] == [HEAD]
    assert whole.select(".slip") == []
