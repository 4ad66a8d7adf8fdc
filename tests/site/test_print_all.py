"""The whole book to print: everything is there in order, every link arrives inside, and a large book comes in parts."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise
from pathlib import Path

import pytest
from bs4 import BeautifulSoup, Tag

from builder import pipeline
from builder.model.files import Layer
from builder.model.records import KINDS
from builder.supplied import templates
from builder.view import whole
from tests.bench.generator import generate
from tests.books.laying import TINY
from tests.search.reading import read_index
from tests.site.building import CONTENT, page, seambook, tags, word
from tests.site.test_links import NAMED
from tests.sweeps import is_soak


def build(content: Path, target: Path, *, asked: bool = True, processes: int = 1) -> Path:
    layers = (Layer(content, "content"),)
    outcome = pipeline.make(pipeline.Order(layers, templates(), target, processes=processes, whole=asked))
    assert outcome.published is not None, outcome.problems
    return target


SUBJECT = CONTENT if is_soak() else TINY
SAMPLE = (
    ("procedures/renew-rocker-outer", "seams/rocker-lower", "pages/first-day", "rules/lap-is-protected")
    if is_soak() else ("procedures/weld-cover", "seams/cover-edge", "pages/reading", "rules/lap-is-protected")
)  # fmt: skip
CALCULATOR, ASKED = ("dew-point", "Air temperature") if is_soak() else ("holes", "Length of the edge")
MOST_OF = 1 if is_soak() else 10
"""How many times fewer ways and names the small book has."""


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A library with the whole of it to print in one document, however large: in a soak the supplied one."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(whole, "MOST_STEPS", 10**6)
        return build(SUBJECT, tmp_path_factory.mktemp("whole") / "site")


@pytest.fixture(scope="module")
def document(book: Path) -> BeautifulSoup:
    return page(book, "print.html")


def ids_of(soup: BeautifulSoup) -> list[str]:
    return [text for tag in tags(soup) if (text := word(tag, "id")) is not None]


def test_every_record_is_there_in_the_order_of_the_lists(book: Path, document: BeautifulSoup) -> None:
    lists = page(book, "lists.html")
    wanted = [f"{kind.name}--{Path(str(a['href'])).stem}" for kind in KINDS for a in _listed(lists, kind.name)]
    assert len(wanted) > (250 if is_soak() else 50)
    assert [str(record["id"]) for record in document.select("article.record")] == wanted
    assert [str(a["href"]) for a in document.select("#contents a")] == [f"#{name}" for name in wanted]


def _listed(lists: BeautifulSoup, kind: str) -> list[Tag]:
    """The links of a kind; those which the lists have by moment or stage of the job, by title as all others are."""
    links = lists.select(f"#{kind} a")
    is_grouped = kind in ("calculator", "procedure")
    return sorted(links, key=lambda a: (a.text.casefold(), str(a["href"]))) if is_grouped else links


def test_a_record_says_there_what_its_page_says(book: Path, document: BeautifulSoup) -> None:
    for name in SAMPLE:
        own = page(book, f"{name}.html")
        folder, _, id_ = name.partition("/")
        kind = next(kind.name for kind in KINDS if kind.folder == folder)
        record = document.find(id=f"{kind}--{id_}")
        assert record is not None
        for part in (".opening .lead", ".column"):
            said = own.select_one(f"main {part}")
            there = record.select_one(part)
            assert said is not None
            assert there is not None
            for asked in said.select(".respacing, .verdicts > [hidden]"):  # for another length, which paper cannot take
                asked.decompose()
            assert there.get_text(" ", strip=True) == said.get_text(" ", strip=True)


def test_status_is_told_with_each_procedure(document: BeautifulSoup) -> None:
    said = [note.text for note in document.select(".of-procedure > .opening > .note")]
    assert len(said) == len(list((SUBJECT / "procedures").glob("*.yaml")))
    assert all(text.startswith("Revision ") for text in said)


def test_every_id_stands_once_and_whatever_names_one_finds_it(document: BeautifulSoup) -> None:
    found = Counter(ids_of(document))
    assert [name for name, times in found.items() if times > 1] == []
    named = [name for tag in tags(document) for attribute in NAMED for name in (word(tag, attribute) or "").split()]
    assert len(named) > 50 / MOST_OF
    assert set(named) - set(found) == set()
    markup = str(document)
    hatches = {part.partition(")")[0] for part in markup.split("url(#")[1:]}
    assert hatches
    assert hatches <= set(found)


def test_every_link_stays_inside(document: BeautifulSoup) -> None:
    found = {*ids_of(document), "top"}
    hrefs = [str(a["href"]) for a in document.select("main a[href]")]
    assert len(hrefs) > 2000 / MOST_OF
    assert [href for href in hrefs if not href.startswith(("https://", "http://")) and href[1:] not in found] == []
    assert {href[0] for href in hrefs if not href.startswith("http")} == {"#"}


def test_nothing_is_left_to_fill_in_and_only_the_units_may_change(document: BeautifulSoup) -> None:
    assert document.select("form, input, select") == []
    assert [script["src"] for script in document.select("script")] == ["assets/js/units.js"]
    given = document.select(f"#calculator--{CALCULATOR} .given")
    assert ASKED in given[0].text
    assert document.select(f"#calculator--{CALCULATOR} .answers dd")


def test_headings_leave_no_step_out(document: BeautifulSoup) -> None:
    levels = [int(tag.name[1]) for tag in document.find_all(["h1", "h2", "h3", "h4", "h5", "h6"])]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert [(a, b) for a, b in pairwise(levels) if b > a + 1] == []


def test_it_is_not_found_by_the_search_and_led_to_only_where_it_is(
    book: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    index = read_index({path.name: path.read_bytes() for path in (book / "assets/search").iterdir()})
    paths = [page[0] for page in index.pages]
    assert "terms/lap.html" in paths
    assert "print.html" not in paths
    assert page(book, "terms/lap.html").select('.foot a[href="../print.html"]')
    monkeypatch.setattr(whole, "MOST_STEPS", 12)
    plain = build(TINY, tmp_path / "site", asked=False)
    assert not (plain / "print.html").exists()
    assert page(plain, "terms/lap.html").select('.foot a[href$="print.html"]') == []


def test_a_large_book_comes_in_documents_that_lead_to_each_other(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    one = build(TINY, tmp_path / "one")
    monkeypatch.setattr(whole, "MOST_STEPS", 12)
    several, again = build(TINY, tmp_path / "several"), build(TINY, tmp_path / "again", processes=2)
    paths = [str(a["href"]) for a in page(several, "print.html").select("#documents a")]
    assert len(paths) > 4
    documents = {path: page(several, path) for path in paths}
    wanted = [str(record["id"]) for record in page(one, "print.html").select("article.record")]
    assert [str(record["id"]) for soup in documents.values() for record in soup.select("article.record")] == wanted
    titles = [soup.title.text for soup in documents.values() if soup.title]
    assert len(set(titles)) == len(paths)
    ids = {path: {*ids_of(soup), "top"} for path, soup in documents.items()}
    crossing = 0
    for path, soup in documents.items():
        assert (several / path).read_bytes() == (again / path).read_bytes()
        for a in soup.select("main a[href*='#']"):
            file, _, anchor = str(a["href"]).partition("#")
            crossing += bool(file)
            assert anchor in ids[file or path], (path, a)
    assert crossing > 20


def test_old_names_lead_to_the_record_as_it_is_called_now(tmp_path: Path) -> None:
    text = "title: Lap\nmeans: See [there](term:plugg).\nsynonyms: none\nsee: [plugg]\n"
    content = tmp_path / "content"
    for name, said in {"lap": text, "plug": "title: Plug\nwas: [plugg]\nmeans: A weld.\nsynonyms: none\n"}.items():
        (content / "terms").mkdir(parents=True, exist_ok=True)
        (content / "terms" / f"{name}.yaml").write_text(said, "utf-8")
    soup = page(build(content, tmp_path / "site"), "print.html")
    ways = [str(a["href"]) for a in soup.select("#term--lap a")]
    assert ways == ["#term--plug", "#term--plug"]


@pytest.mark.soak
def test_the_command_makes_it_of_a_small_book_always_and_of_a_large_one_when_asked(tmp_path: Path) -> None:
    assert seambook("make", "--content", str(TINY), folder=tmp_path).code == 0
    assert (tmp_path / "site/print.html").is_file()
    content = generate(CONTENT, tmp_path / "large", 45)
    at_all = ("make", "--content", str(content), "--out", "large-site")
    assert seambook(*at_all, folder=tmp_path).code == 0
    assert not list((tmp_path / "large-site").glob("print*.html"))
    assert seambook(*at_all, "--print", folder=tmp_path).code == 0
    assert len(list((tmp_path / "large-site").glob("print-*.html"))) > 1
