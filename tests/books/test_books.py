"""Tiny whole books -> their pages' main parts and search index, compared with the goldens beside them."""

import json
import os
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from builder.model.records import KINDS
from builder.model.records.law import Rule
from tests.books.laying import BOOKS, build, lay, shown
from tests.search.reading import Stand, read_index

OVERWRITE = os.environ.get("SEAMBOOK_GOLDENS") == "overwrite"
INDEX = "assets/search"
PRINTED = "print.html"
"""The same pages once more: tests/site/test_print_all.py."""
CASES = sorted(folder.name for folder in BOOKS.iterdir() if (folder / "content").is_dir())


@pytest.fixture(scope="module", params=CASES)
def built(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    """Build a copy of the case; return its site and its folder of goldens."""
    folder = tmp_path_factory.mktemp(request.param)
    outcome = build(lay(folder / "content", BOOKS / request.param / "content"), folder / "site", strict=True)
    assert shown(outcome) == ""
    assert outcome.published is not None
    return folder / "site", BOOKS / request.param / "expected"


def test_every_page_is_as_expected(built: tuple[Path, Path]) -> None:
    site, goldens = built
    paths = sorted(path for path in site.rglob("*.html") if path.name != PRINTED)
    pages = {path.relative_to(site).as_posix(): main_of(path) for path in paths}
    if OVERWRITE:
        overwrite(goldens, pages)
    expected = {path.relative_to(goldens).as_posix(): path.read_text("utf-8") for path in goldens.rglob("*.html")}
    assert sorted(pages) == sorted(expected), "pages came or went; see tests/books/README.md"
    for name, page in pages.items():
        assert page == expected[name], f"{name} changed; see tests/books/README.md"


def test_the_search_index_is_as_expected(built: tuple[Path, Path]) -> None:
    site, goldens = built
    index = readable(site / INDEX)
    golden = goldens / "search-index.json"
    if OVERWRITE:
        golden.write_text(index, "utf-8")
    assert index == golden.read_text("utf-8"), "the index changed; see tests/books/README.md"


def test_the_same_book_gives_the_same_bytes(built: tuple[Path, Path], tmp_path: Path) -> None:
    site, goldens = built
    build(lay(tmp_path / "content", goldens.parent / "content"), tmp_path / "again", strict=True)
    first = {path.relative_to(site): path.read_bytes() for path in sorted(site.rglob("*")) if path.is_file()}
    again = tmp_path / "again"
    assert {path.relative_to(again): path.read_bytes() for path in sorted(again.rglob("*")) if path.is_file()} == first
    assert sum(path.suffix == ".html" for path in first) > 40


def test_the_tiny_book_has_every_record_kind_and_every_form_of_rule() -> None:
    content = BOOKS / "tiny" / "content"
    assert {path.name for path in content.iterdir() if path.is_dir()} == {kind.folder for kind in KINDS}
    rules = "".join(path.read_text("utf-8") for path in (content / "rules").iterdir())
    forms = {"needs", "owes", "forbids", "if-both-first", "unless", "where", "heat"}
    assert {form for form in forms if f"{form}:" in rules} == forms
    assert {"needs", "owes", "forbids", "if_both_first", "unless"} <= set(Rule.__dataclass_fields__)
    assert "except:" in (content / "procedures" / "weld-cover.yaml").read_text("utf-8")


def main_of(path: Path) -> str:
    """Return a page's main part, one tag a line, so that a difference shows as a line.

    Of a drawing only its words are kept: where its lines run is for tests/render.
    """
    soup = BeautifulSoup(path.read_text("utf-8"), "html.parser")
    for line in soup.select("svg path, svg circle, svg defs"):
        line.decompose()
    for part in soup.select("svg, svg *"):
        part.attrs = {name: value for name, value in part.attrs.items() if name in ("id", "class", "role")}
    found = soup.find("main")
    return "" if found is None else str(found.prettify())


def readable(folder: Path) -> str:
    """Return what the index says as indented JSON: of each word the pages, and on each where it stands."""
    index = read_index({path.name: path.read_bytes() for path in folder.iterdir()})
    words = {
        word: [f"{index.pages[page][0]} {' '.join(_stands(stand))}".strip() for page, stand in stands.items()]
        for word, stands in index.words.items()
    }
    pages = [" | ".join(page) for page in index.pages]
    return json.dumps({"names": index.names, "pages": pages, "words": words}, ensure_ascii=False, indent=1) + "\n"


def _stands(stand: Stand) -> list[str]:
    marks = [f"title of {stand.title}"] if stand.title else []
    marks += ["alias"] if stand.alias else []
    return marks + [f"text {at}" for at in stand.texts if at] + [f"heading {at}" for at in stand.headings] + [
        f"facts {at}" for at in stand.facts
    ]


def overwrite(goldens: Path, pages: dict[str, str]) -> None:
    """Make the goldens what the builder made just now, and remove those of pages that are gone."""
    for path in goldens.rglob("*.html"):
        path.unlink()
    for name, page in pages.items():
        path = goldens / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(page, "utf-8")

