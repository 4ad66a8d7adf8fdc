"""Every way from one page of the supplied book to another: it is relative, it ends at a file, it finds its anchor."""

from __future__ import annotations

import json
import posixpath
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple
from urllib.parse import unquote, urlsplit

import pytest

from tests.search.reading import read_index
from tests.site.flat import Element

Pages = dict[str, list[Element]]
ADDRESSES = ("href", "src", "srcset", "poster", "data", "action", "formaction", "cite", "background", "manifest",
             "xlink:href")  # fmt: skip
INPUTS = "in="  # a calculator's page opens with the inputs that follow
EXAMPLE = "example="  # the page of jobs, or the bay, opens the job that follows
PROCEDURE = "procedure="  # the bay, or a breakdown sheet, opens the procedure that follows
NAMED = {"for", "aria-labelledby", "aria-describedby", "aria-controls", "aria-owns", "aria-details", "headers", "list"}


LOADED_BY_JOBS = {
    "assets/job/procedure": "job.js", "assets/job/example": "job.js", "assets/strip": "jobs.js",
    "assets/bay": "bay.js",
}  # fmt: skip
"""What the page of jobs and the bay load once a job needs it, and the script that asks for it."""
LOADED_BY_SEARCH = "assets/js/finding.js"
"""What the search asks for when its box is first used."""


class Address(NamedTuple):
    page: str
    tag: str
    attribute: str
    text: str


@pytest.fixture(scope="module")
def addresses(pages: Pages) -> list[Address]:
    return [
        Address(page, tag.name, attribute, text)
        for page, elements in pages.items()
        for tag in elements
        for attribute, text in tag.attrs.items()
        if attribute in ADDRESSES
    ]


@pytest.fixture(scope="module")
def ids(pages: Pages) -> dict[str, list[str]]:
    return {page: [tag.attrs["id"] for tag in elements if "id" in tag.attrs] for page, elements in pages.items()}


def inner(addresses: list[Address]) -> Iterator[tuple[Address, str, str]]:
    """The addresses inside the book, each with the file and the fragment it means."""
    for one in addresses:
        parts = urlsplit(one.text)
        if parts.scheme or parts.netloc:
            continue
        here = posixpath.dirname(one.page)
        file = posixpath.normpath(posixpath.join(here, unquote(parts.path))) if parts.path else one.page
        yield one, file, unquote(parts.fragment)


def test_the_book_is_there(pages: Pages, addresses: list[Address]) -> None:
    # Against a test that passes because it saw nothing: the supplied library has more pages and links than this.
    assert len(pages) > 200
    assert len(addresses) > 20 * len(pages)
    some = {"index.html", "lists.html", "procedures/renew-rocker-outer.html", "calculators/dew-point.html"}
    assert some <= set(pages)


def test_each_inner_address_ends_at_a_file(site: Path, addresses: list[Address]) -> None:
    lost = [one for one, file, _ in inner(addresses) if file.startswith("..") or not (site / file).is_file()]
    assert lost == []


def test_each_fragment_is_an_id_of_its_page(addresses: list[Address], ids: dict[str, list[str]]) -> None:
    known = {page: set(found) for page, found in ids.items()}
    lost = [
        one for one, file, fragment in inner(addresses) if fragment and fragment not in known.get(file, set())
        and fragment != "top"  # the top of the document, by the HTML standard, needs no id
        and not fragment.startswith((INPUTS, EXAMPLE, PROCEDURE))
    ]  # fmt: skip
    assert lost == []


def test_the_bay_opens_what_there_is(site: Path, addresses: list[Address]) -> None:
    asked = [(file, fragment) for _, file, fragment in inner(addresses) if fragment.startswith((EXAMPLE, PROCEDURE))]
    assert len({fragment for file, fragment in asked if file == "bay.html"}) > 50
    assert {file for file, _ in asked} == {"bay.html", "breakdown.html", "jobs.html"}
    folders = {EXAMPLE: "assets/job/example", PROCEDURE: "assets/bay"}
    lost = [
        fragment
        for _, fragment in asked
        for key, folder in folders.items()
        if fragment.startswith(key) and not (site / folder / f"{fragment.removeprefix(key)}.js").is_file()
    ]
    assert lost == []


def test_inputs_go_to_a_calculator_that_asks_for_them(addresses: list[Address], ids: dict[str, list[str]]) -> None:
    handed = [(one, file, fragment) for one, file, fragment in inner(addresses) if fragment.startswith(INPUTS)]
    assert handed
    lost = [
        (one, name)
        for one, file, fragment in handed
        for name in (part.partition(":")[0] for part in fragment.removeprefix(INPUTS).split(","))
        if not file.startswith("calculators/") or f"ask_{name}" not in ids[file]
    ]
    assert lost == []


def test_each_page_is_named_in_full(addresses: list[Address]) -> None:
    # A link to a folder opens a listing when the book is read from disk; a figure leads to its picture alone.
    named = (".html", ".svg", ".jpg", ".png")
    vague = [one for one, file, _ in inner(addresses) if one.tag == "a" and not file.endswith(named)]
    assert vague == []


def test_no_address_leaves_the_folder_unless_somebody_follows_it(addresses: list[Address]) -> None:
    absolute = [one for one in addresses if one.text.startswith(("/", "\\", "file:"))]
    assert absolute == []
    loaded = [one for one in addresses if urlsplit(one.text).scheme and one.tag != "a"]
    assert loaded == []
    odd = [one for one in addresses if urlsplit(one.text).scheme not in ("", "https", "http", "mailto", "tel")]
    assert odd == []


def test_no_address_is_empty(addresses: list[Address]) -> None:
    assert [one for one in addresses if not one.text.strip() or one.text == "#"] == []


def test_each_id_stands_once_on_its_page(ids: dict[str, list[str]]) -> None:
    twice = {
        page: again
        for page, found in ids.items()
        if (again := [one for one, times in Counter(found).items() if times > 1])
    }
    assert twice == {}


def test_ids_can_be_written_in_a_link(ids: dict[str, list[str]]) -> None:
    odd = [(page, one) for page, found in ids.items() for one in found if not one or one != one.strip() or " " in one]
    assert odd == []


def test_what_names_an_id_finds_it(pages: Pages, ids: dict[str, list[str]]) -> None:
    lost = [
        (page, attribute, name)
        for page, elements in pages.items()
        for tag in elements
        for attribute in tag.attrs.keys() & NAMED
        for name in tag.attrs[attribute].split()
        if name not in ids[page]
    ]
    assert lost == []


def test_each_page_is_reached_from_the_first(pages: Pages, addresses: list[Address]) -> None:
    ways: dict[str, set[str]] = {}
    for one, file, _ in inner(addresses):
        if one.tag == "a":
            ways.setdefault(one.page, set()).add(file)
    reached, ahead = set[str](), ["index.html"]
    while ahead:
        page = ahead.pop()
        if page not in reached:
            reached.add(page)
            ahead += ways.get(page, ())
    assert set(pages) - reached == set()


def test_each_asset_is_used(site: Path, pages: Pages, addresses: list[Address]) -> None:
    used = {file for _, file, _ in inner(addresses)}
    shards = set((site / "assets/search").iterdir())  # search.js asks for each as a search needs it
    by_job = {path for folder in LOADED_BY_JOBS for path in (site / folder).iterdir()}
    icons = {site / icon["src"] for icon in json.loads((site / "seambook.webmanifest").read_bytes())["icons"]}
    loaded_later = shards | by_job | {site / LOADED_BY_SEARCH} | icons
    files = {path for path in (site / "assets").rglob("*") if path.is_file()}
    # Where the whole book is made to print, which for one as large is when asked.
    in_some_books = {"assets/css/whole.css"}
    assert {path.relative_to(site).as_posix() for path in files - loaded_later} - used == in_some_books
    # That no shard is there beside those the dictionary counts is said by its reader, which refuses any other.
    assert len(read_index({path.name: path.read_bytes() for path in shards}).pages) > 250
    for folder, script in LOADED_BY_JOBS.items():
        assert f"{folder}/" in (site / "assets/js" / script).read_text("utf-8")
    search = (site / "assets/js/searching.js").read_text("utf-8")
    assert '"assets/search/"' in search
    assert f'"{LOADED_BY_SEARCH}"' in search
