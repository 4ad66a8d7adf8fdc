"""What a question is taken to ask for, and in which order pages answer it, on small books made for each case."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from builder.model.reference import Ref
from builder.model.views import Html, Page, Passage
from builder.search import IndexWriter, page_words
from tests.search.asking import answered, written

FILLER = "about the shop and its tools"
QUIET = ("how", "do", "i", "the", "in")


def a_page(title: str, *texts: str, kind: str = "panel") -> Page:
    passages = [Passage("", title, FILLER), *(Passage(f"s{at}", "", text) for at, text in enumerate(texts, 1))]
    return Page(
        ref=Ref(kind, "x"), path=f"{title.lower().replace(' ', '-')}.html", root="", title=title, kind="",
        lead=Html(""), banner="", main=(), aside=(), scripts=(), aliases=(), passages=tuple(passages),
    )  # fmt: skip


def found(pages: Sequence[Page], text: str, *names: tuple[str, ...]) -> list[str]:
    """The places that answer, best first, with the shards alone that the question says it needs."""
    writer = IndexWriter()
    for page in pages:
        writer.add(page_words(page))
    with TemporaryDirectory() as folder:
        index = written(writer.files(names, QUIET), Path(folder))
        return answered(index, [text], None)[0].places


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("the airbag fires", "air bag"), ("dew point", "dewpoint "), ("the drains run", "drain "),
        ("a drain", "drains "),
        ("primed faces", "priming "), ("a flange is dressed", "dress a flange "), ("0.8 mm", "0,8mm "),
        ("100 µm", "100 um "), ("60 %", "60 percent "), ("weld-through primer", "weldthrough "),
        ("weld-through primer", "weld through "), ("joggled", "jogg"), ("flanges", "flnages "), ("flanges", "flange"),
    ],
)  # fmt: skip
def test_another_spelling_finds_it(text: str, asked: str) -> None:
    assert found([a_page("Other", "nothing of the kind"), a_page("Wanted", text)], asked) == ["wanted.html#s1"]


@pytest.mark.parametrize("asked", ["zzyzx", "", "0.9 mm ", "jogg ", "xx", "flxxge "])
def test_what_the_book_has_not_is_not_found(asked: str) -> None:
    assert found([a_page("Wanted", "0.8 of a joggled flange")], asked) == []


def test_a_thing_is_found_by_its_other_names() -> None:
    pages = [a_page("Outer rocker", "along the door"), a_page("Trunk", "a boot lid"), a_page("Door", "x")]
    assert found(pages, "sill ", ("Outer rocker", "Sill")) == ["outer-rocker.html"]
    # Beside another word too, and the name asked for before the other.
    assert found(pages, "trunk ", ("Trunk", "Boot"))[0] == "trunk.html"
    assert found([*pages, a_page("Boot", "x")], "boot ", ("Trunk", "Boot"))[0] == "boot.html"


def test_a_number_with_its_unit_is_one_thing() -> None:
    pages = [a_page("Apart", "0.8 welds and 5 mm"), a_page("Together", "a sheet of 0.8 mm")]
    assert found(pages, "0.8 mm ")[0] == "together.html#s1"
    assert found(pages, "0.8 millimetres ", ("mm", "millimetres"))[0] == "together.html#s1"


def test_a_page_named_as_asked_comes_first() -> None:
    pages = [a_page("A note", "dew point", "dew point"), a_page("Dew point and margin", "x"), a_page("Dew point", "x")]
    assert found(pages, "dew point ")[:2] == ["dew-point.html", "dew-point-and-margin.html"]


def test_what_holds_all_comes_before_what_holds_some() -> None:
    pages = [a_page("One", "wax wax wax"), a_page("Two", "spray wax into the box"), a_page("Three", "box")]
    assert found(pages, "wax box ")[0] == "two.html#s1"


def test_it_lands_where_most_of_the_question_stands() -> None:
    page = a_page("Renew a rocker", "measure the opening", "prime the flange", "flange")
    assert found([page, a_page("Other", "prime")], "prime flange ")[0] == "renew-a-rocker.html#s2"
    assert found([page, a_page("Other", "prime")], "rocker flange ")[0].startswith("renew-a-rocker.html#s")


def test_quiet_words_do_not_lead_away() -> None:
    pages = [a_page("Talk", "how do i do the"), a_page("Prime", "brush primer")]
    assert found(pages, "how do i do the primer ")[0] == "prime.html#s1"
    # By themselves they still find what holds them.
    assert found(pages, "how ") == ["talk.html#s1"]


def test_a_kind_that_is_asked_for_less_comes_after() -> None:
    pages = [a_page("Zinc primer a", "x", kind="source"), a_page("Zinc primer b", "x", kind="supply")]
    assert found(pages, "zinc primer ")[0] == "zinc-primer-b.html"


def test_a_word_of_most_pages_is_left_out_of_a_large_book() -> None:
    pages = [a_page(f"P{at}", "weld it") for at in range(1100)] + [a_page("Lap", "a rare joggle")]
    assert found(pages, "weld joggle ") == ["lap.html#s1"]
    assert len(found(pages, "weld ")) == 1100


def test_a_title_of_a_large_book_is_typed_with_its_common_words() -> None:
    filler = [a_page(f"P{at}", "the one to the other") for at in range(1100)]
    pages = [*filler, a_page("Floor rail box", "x"), a_page("Floor rail", "x"), a_page("Floor to the rail", "x")]
    assert found(pages, "floor to the rail ")[0] == "floor-to-the-rail.html"
    assert found(pages, "floor rail ")[0] == "floor-rail.html"
    assert found(pages, "floor rail box ")[0] == "floor-rail-box.html"


def test_a_passage_that_answers_by_itself_is_found_as_a_page() -> None:
    page = a_page("Asked in the bay", kind="page")
    alone = Passage("how-many", "How many welds?", "as the factory put in", is_alone=True)
    pages = [replace(page, passages=(*page.passages, alone)), a_page("Weld", "how it is done"), a_page("Welds", "x")]
    assert found(pages, "how many welds ")[0] == "asked-in-the-bay.html#how-many"
    # What it says leads there alone, and not to the page round it.
    assert found(pages, "factory ") == ["asked-in-the-bay.html#how-many"]
