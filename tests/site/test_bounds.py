"""A book of many copies: lists and where-used lists come in parts, lose nothing, and leave each page as light."""

from __future__ import annotations

import posixpath
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from builder.view import parts, used
from tests.bench.generator import PROCEDURE, SEAM, generate
from tests.site.building import CONTENT, build, page

pytestmark = pytest.mark.soak
FEW, MANY, SIZE = 30, 45, 25
PANEL = "panels/rocker-outer.html"


@pytest.fixture(scope="module")
def books(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    """The library with some copies of a procedure and its seam, and with more; parts are small, so that there are."""
    folder = tmp_path_factory.mktemp("bounds")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(parts, "MOST_ON_ONE_PAGE", SIZE)
        for copies in (FEW, MANY):
            build(folder / f"site-{copies}", str(generate(CONTENT, folder / f"content-{copies}", copies)))
    return folder / f"site-{FEW}", folder / f"site-{MANY}"


def ways(soup: BeautifulSoup, selector: str, path: str) -> list[str]:
    """The links of a part of a page, as paths from the book's root without their anchors."""
    hrefs = (str(a["href"]).partition("#")[0] for a in soup.select(f"{selector} a"))
    return [posixpath.normpath(posixpath.join(posixpath.dirname(path), href)) for href in hrefs]


def every(book: Path, path: str, selector: str) -> list[str]:
    """What a list leads to, by way of its parts where it has any."""
    found = ways(page(book, path), selector, path)
    inside = [way for way in found if way.startswith(("lists-", "used/"))]
    return [way for way in found if way not in inside] + [end for way in inside for end in every(book, way, selector)]


def test_the_list_of_a_kind_comes_in_parts_and_loses_nothing(books: tuple[Path, Path]) -> None:
    for book in books:
        listed = every(book, "lists.html", "#procedure")
        listed = [way for way in listed if way != "lists.html"]
        assert sorted(listed) == sorted(f"procedures/{path.name}" for path in (book / "procedures").glob("*.html"))
        heads = ways(page(book, "lists.html"), "#procedure", "lists.html")
        assert len(heads) == -(-len(listed) // SIZE)
        assert max(len(page(book, way).select("#procedure a")) for way in heads) == SIZE


def test_a_kind_of_few_records_stands_in_the_list_itself(books: tuple[Path, Path]) -> None:
    few = ways(page(books[0], "lists.html"), "#lesson", "lists.html")
    assert few
    assert all(way.startswith("lessons/") for way in few)


def test_where_a_record_is_used_is_told_to_a_bound_and_in_full_a_link_away(books: tuple[Path, Path]) -> None:
    for book, copies in zip(books, (FEW, MANY), strict=True):
        groups = page(book, PANEL).select("#used-by .group")
        assert max(len(group.select("a")) for group in groups) == used.MOST + 1
        for kind, folder, name in (("procedure", "procedures", PROCEDURE), ("seam", "seams", SEAM)):
            full = every(book, f"used/panel-{Path(PANEL).stem}.html", f"#{kind}")
            assert sum(way.startswith(f"{folder}/{name}-0") for way in full) == copies
            assert len(set(full)) == len(full)
            told = [a.text for a in page(book, PANEL).select("#used-by a") if a.text.startswith("All ")]
            assert f"All {len(full)} {folder}" in told


def test_pages_do_not_grow_with_the_book(books: tuple[Path, Path]) -> None:
    few, many = books
    for path in (PANEL, "sources/common-practice.html", "tools/mag-welder.html", "cavities/rocker-cavity.html"):
        assert abs((few / path).stat().st_size - (many / path).stat().st_size) < 200, path


def test_every_link_of_the_parts_ends_at_a_page(books: tuple[Path, Path]) -> None:
    seen = 0
    for path in [*books[1].glob("lists*.html"), *books[1].glob("used/*.html")]:
        own = path.relative_to(books[1]).as_posix()
        for way in ways(page(books[1], own), "main", own):
            assert (books[1] / way).is_file() or way == ".", (own, way)
            seen += 1
    assert seen > 500


def test_a_record_of_few_users_has_no_page_beside_it(books: tuple[Path, Path]) -> None:
    assert not (books[0] / "used/lesson-first-plug-weld.html").exists()
    assert len(list((books[0] / "used").glob("*.html"))) > 10
