"""Change control on pages of small books: revisions, what is due, and what is not issued, in lists and the search."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from builder.view.pieces import pieces
from tests.site.building import page
from tests.site.control_books import COVER, look, published, revise, tiny
from tests.site.test_search_finds import found

DRAFT, GONE = "Look at the hatch again", "Look at the hatch by eye"


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A book of a revised, a drafted, an issued and a withdrawn procedure."""
    folder = tmp_path_factory.mktemp("control")
    content = tiny(folder)
    revise(content)
    look(content, "look-again", DRAFT, "draft", approver="none", date="2026-03-10")
    look(content, "look-by-eye", GONE, "withdrawn", more="replaced_by: look-at-hatch\n")
    look(content, "look-at-hatch", "Look at the hatch", "issued", date="2025-12-31")
    (content / "book.yaml").write_text(
        (content / "book.yaml").read_text("utf-8").replace("{issued: 12}", "{issued: 12, draft: 2}"), "utf-8"
    )
    return published(content, folder / "site")


def test_a_procedure_tells_its_revisions_and_which_steps_each_changed(book: Path) -> None:
    shown = page(book, COVER.replace(".yaml", ".html"))
    rows = shown.select("#part_revisions tbody tr")
    assert [row.select_one("[data-issue]")["data-issue"] for row in rows] == ["3", "2", "1"]  # type: ignore[index]
    steps = [(one["data-step"], one["data-revision"]) for one in shown.select("#part_revisions [data-step]")]
    assert steps == [("prime-edge", "3"), ("clean-edge", "3"), ("air-car", "2")]
    for way in shown.select("#part_revisions [data-step] a"):
        step = shown.find(id=str(way["href"]).removeprefix("#"))
        assert step is not None
        number = step.find("a", href=way["href"])
        assert number is not None
        assert f"Step {number.text}" == way.text
    assert "A step that has gone: The lid stays open." in rows[2].get_text(" ", strip=True)
    assert [row.find_all("td")[2].text for row in rows] == [
        "Ada Quill, approved by Bo Marsh", "Ada Quill, approved by Bo Marsh", "Ada Quill, alone",
    ]  # fmt: skip


def test_the_page_of_changes_has_every_revision_newest_first(book: Path) -> None:
    shown = page(book, "changes.html")
    days = [heading.text for heading in shown.select(".cards > h2")]
    assert days == ["2026-03-10", "2026-03-01", "2026-02-03", "2026-01-12", "2025-12-31"]
    cards = [card.text.split(", revision ") for card in shown.select(".card h3")]
    assert [(title.strip(), int(re.match(r"\d+", rest)[0])) for title, rest in cards] == [  # type: ignore[index]
        (DRAFT, 1), ("Weld the cover on", 3), ("Weld the cover on", 2), (GONE, 1), ("Weld the cover on", 1),
        ("Look at the hatch", 1),
    ]  # fmt: skip
    ways = [str(way["href"]) for way in shown.select("[data-step] a")]
    assert ways == [f"procedures/weld-cover.html#{key}" for key in ("prime-edge", "clean-edge", "air-car")]
    foot = {str(way["href"]) for way in page(book, "index.html").select(".foot-ways a")}
    assert {"changes.html", "due.html"} <= foot


def test_what_is_due_is_sorted_by_its_day_and_what_is_withdrawn_is_never_due(book: Path) -> None:
    rows = page(book, "due.html").select("tbody tr")
    assert [[cell.get_text(" ", strip=True) for cell in row.find_all("td")][:3] for row in rows] == [
        ["2026-05-10", DRAFT, "Draft"], ["2026-12-31", "Look at the hatch", "Issued"],
        ["2027-03-01", "Weld the cover on", "Issued"],
    ]  # fmt: skip


def test_a_book_without_review_periods_says_where_to_set_them(tmp_path: Path) -> None:
    content = tiny(tmp_path)
    settings = content / "book.yaml"
    settings.write_text(settings.read_text("utf-8").replace("review: {issued: 12}\n", ""), "utf-8")
    shown = page(published(content, tmp_path / "site"), "due.html")
    assert "review in shop.yaml" in shown.select_one("#due .none").text  # type: ignore[union-attr]
    assert not shown.select("script[src$='review.js']")


def test_what_is_not_issued_says_so_over_the_page_on_paper_and_in_every_list(book: Path) -> None:
    marks = (("look-again", "Draft, not issued", "draft, not issued"), ("look-by-eye", "Withdrawn", "withdrawn"))
    for id_, said, mark in marks:
        shown = page(book, f"procedures/{id_}.html")
        for place in (".banner.standing", ".paper-head .paper-standing"):
            assert shown.select_one(place).text.startswith(said)  # type: ignore[union-attr]
        for list_ in ("index.html", "lists.html", "a-z.html", "panels/cover.html"):
            ways = page(book, list_).select(f"a[href$='procedures/{id_}.html']")
            assert ways, list_
            assert all(mark in way.parent.text for way in ways), list_  # type: ignore[union-attr]
    issued = page(book, "procedures/look-at-hatch.html")
    assert not issued.select(".banner, .paper-standing")
    instead = page(book, "procedures/look-by-eye.html").select_one("#part_instead a")
    assert instead is not None
    assert instead["href"] == "look-at-hatch.html"


def test_a_job_is_told_what_changed_and_what_is_not_issued(book: Path) -> None:
    def told(id_: str) -> dict[str, object]:
        text = (book / f"assets/job/procedure/{id_}.js").read_text("utf-8")
        data: dict[str, object] = json.loads(text.partition(f'["{id_}"] = ')[2].rstrip().rstrip(";"))
        return data

    revision = told("weld-cover")["revision"]
    assert [(number, list(steps)) for number, steps in revision["changed"]] == [  # type: ignore[index]
        (3, ["prime-edge", "clean-edge"]), (2, ["air-car"]), (1, ["open-lid"]),
    ]  # fmt: skip
    assert told("weld-cover")["banner"] == ""
    assert str(told("look-by-eye")["banner"]).startswith("Withdrawn")


def test_the_search_puts_what_is_not_issued_behind_everything_else_and_says_what_it_is(book: Path) -> None:
    paths = ["procedures/look-again.html", "procedures/look-by-eye.html"]
    for question, places in zip((DRAFT, GONE, "hatch"), found(book, [DRAFT, GONE, "hatch"], 999), strict=True):
        pages = [place.partition("#")[0] for place in places]
        assert "procedures/look-at-hatch.html" in pages, question
        assert sorted(pages[-2:]) == paths, question
    first = found(book, [DRAFT, GONE], 999)
    assert [places[-2].partition("#")[0] for places in first] == paths, "of those behind the best comes first"
    heads = "".join(path.read_text("utf-8") for path in sorted((book / "assets/search").glob("texts-*.js")))
    assert '"Procedure, draft, not issued"' in heads
    assert '"Procedure, withdrawn"' in heads


def test_a_long_list_comes_in_parts_each_with_the_way_to_the_others() -> None:
    made = list(pieces("changes.html", range(250), 100))
    assert [(piece.path, list(some)[:1], len(some)) for piece, some in made] == [
        ("changes.html", [0], 100), ("changes-2.html", [100], 100), ("changes-3.html", [200], 50),
    ]  # fmt: skip
    assert [[link.href for ways in piece.ways for link in ways.links] for piece, _ in made] == [
        ["changes-2.html", "changes-3.html"], ["changes.html", "changes-3.html"], ["changes.html", "changes-2.html"],
    ]  # fmt: skip
    none: tuple[int, ...] = ()
    [(only, some)] = pieces("due.html", none, 100)
    assert (only.path, only.ways, len(some)) == ("due.html", (), 0)
