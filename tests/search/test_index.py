"""The search index: every word leads to the pages and parts it stands in, at any size; shards keep their bounds."""

from __future__ import annotations

import json
from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.model.reference import Ref
from builder.model.views import Block, Card, Cards, Facts, Html, Items, Page, Passage, Row
from builder.search import IndexWriter, page_words
from builder.search.packing import base36, front_coded, gaps, runs
from builder.search.scripts import MOST_OF_POSTINGS
from builder.search.words import words
from tests.formula.node import ASSETS, run_node
from tests.search.reading import Index, Stand, read_index


def a_page(name: str, *passages: Passage, aliases: tuple[str, ...] = (), main: tuple[Block, ...] = ()) -> Page:
    return Page(
        ref=Ref("seam", name), path=f"seams/{name}.html", root="../", title=f"Seam {name}", kind="Seam", lead=Html(""),
        banner="", main=main, aside=(), scripts=(), aliases=aliases, passages=passages,
    )  # fmt: skip


def files_of(pages: Sequence[Page], *names: tuple[str, ...]) -> dict[str, bytes]:
    writer = IndexWriter()
    for page in pages:
        writer.add(page_words(page))
    return writer.files(names)


def indexed(*pages: Page) -> Index:
    return read_index(files_of(pages))


def test_every_word_leads_to_where_it_stands() -> None:
    read = indexed(
        a_page("a", Passage("", "Seam a", "under the door"), aliases=("sill",)),
        a_page("b", Passage("", "Seam b", "the flange"), Passage("prime", "Prime it", "brush the flange"),
               Passage("weld", "Weld", "prime before"), Passage("dress", "Dress", "the flange")),
    )  # fmt: skip
    assert read.words["seam"] == {0: Stand(2, False, (), ()), 1: Stand(2, False, (), ())}
    assert read.words["sill"] == {0: Stand(0, True, (), ())}
    assert read.words["the"] == {0: Stand(0, False, (0,), ()), 1: Stand(0, False, (0, 1, 3), ())}
    assert read.words["prime"] == {1: Stand(0, False, (2,), (1,))}
    assert read.pages[1] == ["seams/b.html", "Seam", "Seam b", "", "Seam b", "prime", "Prime it", "weld", "Weld",
                             "dress", "Dress"]  # fmt: skip


def test_what_blocks_say_is_found_where_they_stand() -> None:
    blocks = (
        Facts("Facts", (Row("Flange", Html("16&nbsp;<b>mm</b>")),), "facts"),
        Cards("Codes", (Card(Html("C301 state missing"), text=Html("<p>A step</p>"), anchor="code_c301"),), "codes"),
        Items("Drains", (Html("One <a href='x'>slot</a>"),), anchor=""),
    )
    read = indexed(a_page("a", Passage("", "Seam a", "text"), main=blocks))
    assert read.pages[0][3:] == ["", "Seam a", "facts", "Facts", "code_c301", "Codes"]
    assert read.words["16"] == read.words["mm"] == read.words["16mm"] == {0: Stand(0, False, (), (), (1,))}
    assert read.words["c301"] == {0: Stand(0, False, (2,), ())}
    assert read.words["slot"] == {0: Stand(0, False, (0,), ())}
    assert "href" not in read.words
    assert "b" not in read.words


def test_a_quantity_is_found_in_both_systems_of_units() -> None:
    row = Row("Flange", Html('<span data-q="0.63\u00a0in">16\u00a0mm</span>'))
    read = indexed(a_page("a", Passage("", "Seam a", "text"), main=(Facts("Facts", (row,), "facts"),)))
    for word in ("16mm", "16", "0.63in", "0.63"):
        assert read.words[word] == {0: Stand(0, False, (), (), (1,))}, word


def test_a_page_without_passages_is_not_found() -> None:
    read = indexed(a_page("list", main=(Items("All", (Html("everything"),)),)), a_page("a", Passage("", "Seam a", "x")))
    assert [page[0] for page in read.pages] == ["seams/a.html"]
    assert "everything" not in read.words


@given(st.lists(st.lists(st.text(st.sampled_from("abc -"), max_size=12), min_size=1, max_size=5), max_size=8))
def test_the_index_loses_no_word(texts: list[list[str]]) -> None:
    pages = [
        a_page(f"p{at}", *(Passage(f"s{n}", "", text) for n, text in enumerate(parts)))
        for at, parts in enumerate(texts)
    ]
    read = indexed(*pages)
    for number, parts in enumerate(texts):
        for part, text in enumerate(parts):
            for word in words(text):
                stand = read.words[word][number]
                assert part in stand.texts or (part == 0 and stand.title)


def many(count: int, text: str) -> list[Page]:
    return [a_page(f"p{at:04}", Passage("", "", f"{text} only{at}"), Passage("s", "", text)) for at in range(count)]


def test_a_long_posting_fills_shards_of_its_own() -> None:
    read = indexed(*many(4000, "weld abc"))
    stand = Stand(0, False, (0, 1), ())
    assert read.words["weld"] == dict.fromkeys(range(4000), stand)
    assert read.words["seam"] == dict.fromkeys(range(4000), Stand(2, False, (), ()))
    assert read.words["only3999"] == {3999: Stand(0, False, (0,), ())}
    assert all(size <= MOST_OF_POSTINGS + 200 for name, size in read.sizes.items() if name.startswith("words"))
    assert {"weld", "seam", "abc"} == set(read.common)


def test_in_a_small_book_no_word_is_common() -> None:
    assert indexed(*many(40, "weld")).common == []


def test_a_long_page_has_a_shard_of_texts_of_its_own() -> None:
    long = a_page("b", *(Passage(f"step-{at}", f"Brush the primer onto flange number {at}", "") for at in range(60)))
    read = indexed(a_page("a", Passage("", "A", "x")), long, a_page("c", Passage("", "C", "x")))
    assert {name for name in read.sizes if name.startswith("texts")} == {"texts-0", "texts-1", "texts-2"}


def test_a_long_heading_is_cut_between_words() -> None:
    heading = "Brush weld-through primer on every mating face of the flange and let it flash as its data sheet says"
    (page,) = indexed(a_page("a", Passage("", heading, ""))).pages
    assert page[4] == "Brush weld-through primer on every mating face of the flange and let it flash …"


def test_names_are_kept_as_their_words() -> None:
    files = files_of([a_page("a", Passage("", "A", "x"))], ("Outer rocker", "Sill"), ("Trunk", "Boot"))
    assert read_index(files).names == [["outer rocker", "sill"], ["boot", "trunk"]]


@given(st.lists(st.integers(0, 5000), unique=True).map(sorted))
def test_runs_and_gaps_say_all_numbers(numbers: list[int]) -> None:
    read: list[int] = []
    for run in runs(numbers):
        first, _, last = run.partition("-")
        read += range(int(first, 36), int(last or first, 36) + 1)
    assert read == numbers
    total, summed = 0, []
    for gap in gaps(numbers).split():
        total += int(gap, 36)
        summed.append(total)
    assert summed == numbers


@pytest.mark.parametrize(("numbers", "said"), [((1,), ["1"]), ((1, 2), ["1", "2"]), ((1, 2, 3), ["1-3"]),
                                               ((0, 35, 36, 37), ["0", "z-11"]), ((), [])])  # fmt: skip
def test_runs_of_three_are_joined(numbers: tuple[int, ...], said: list[str]) -> None:
    assert list(runs(numbers)) == said


@given(st.integers(0, 10**9))
def test_numbers_are_in_base_36(number: int) -> None:
    assert int(base36(number), 36) == number


@given(st.lists(st.text(st.sampled_from("ab"), min_size=1, max_size=80), unique=True).map(sorted))
def test_words_are_read_back_from_what_they_share(given_words: list[str]) -> None:
    last, read = "", []
    for line in front_coded(given_words).split("\n") if given_words else ():
        last = last[: int(line[0], 36)] + line[1:]
        read.append(last)
    assert read == given_words


def test_the_page_reads_what_the_builder_writes() -> None:
    """shards.js, beside the reader of these tests, on a book large enough to have shards of every sort."""
    pages = [*many(2500, "weld abc"), a_page("z", Passage("", "Z", "weld"), Passage("s", "Weld on", "abc"))]
    files = files_of(pages, ("Seam", "Joint"))
    read = read_index(files)
    asked = ["weld", "abc", "only7", "on", "seam", "z"]
    body = f"""const part = seambook.shardsOfIndex, index = part.open(seambook.dictionary, seambook.shards);
    const stands = (word) => {{
        const {{ at, named }} = part.wholeOf(index, word), {{ WEIGHTS, standOn }} = seambook.postings;
        const marks = Object.fromEntries(Object.entries(WEIGHTS).map(([mark, weight]) => [weight, mark]));
        return [...new Set([...named.at, ...at])].sort((a, b) => a - b).map((page) => {{
            const nth = named.at.indexOf(page), stand = standOn(part.wholeOf(index, word), page);
            const parts = stand ? stand.parts.map((one, at) => [one, marks[stand.weights[at]]]) : [];
            return [page, nth < 0 ? 0 : named.lengths[nth], nth < 0 ? parts : [[0, "*"], ...parts]];
        }});
    }};
    const heads = [0, 1, 1234, 2500].map((page) => part.headOf(index, page));
    return {{stands: {json.dumps(asked)}.map(stands), heads, names: index.names.get("joint"),
        words: part.lettered(index), common: [...index.common]}};"""
    scripts = "\n".join(data.decode() for data in files.values())
    said = run_node(body, [ASSETS / "words.js", ASSETS / "postings.js", ASSETS / "shards.js"], scripts)
    for word, stands in zip(asked, said["stands"], strict=True):
        assert {page: (title, sorted(map(tuple, parts))) for page, title, parts in stands} == {
            page: (stand.title, sorted(shown(stand))) for page, stand in read.words[word].items()
        }, word
    heads = [[one["path"], one["kind"], one["title"], *one["parts"]] for one in said["heads"]]
    assert heads == [read.pages[page] for page in (0, 1, 1234, 2500)]
    assert (said["names"], said["common"]) == ([["joint"], ["seam"]], read.common)
    assert said["words"] == [word for word in read.words if word >= "a"]


def shown(stand: Stand) -> list[tuple[int, str]]:
    """As shards.js gives it: a title or another name of the page as a heading of its first part."""
    parts = [(at, "*") for at in stand.headings] + [(at, ".") for at in stand.texts] + [(at, ",") for at in stand.facts]
    return [(0, "*"), *parts] if stand.title or stand.alias else parts
