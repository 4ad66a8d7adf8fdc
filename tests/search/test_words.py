"""Search words, and the index that search.js reads."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.model.reference import Ref
from builder.model.views import Html, Page, Passage
from builder.search import index_script, page_words
from builder.search.words import words


@pytest.mark.parametrize(("text", "found"), [
    ("Weld-through primer", ["weld", "through", "weldthrough", "primer"]),
    ("0.8 mm, 12 spots", ["0.8", "mm", "12", "spots"]),
    ("Émail à l'eau", ["email", "a", "l", "eau"]),
    ("M8x1.25", ["m8x1.25"]),
    ("", []),
])  # fmt: skip
def test_words_are_split_as_a_technician_types_them(text: str, found: list[str]) -> None:
    assert words(text) == found


@given(st.text(max_size=200))
def test_words_are_lower_case_letters_and_digits(text: str) -> None:
    assert all(word and word == word.lower() and word.isascii() for word in words(text))


def _page(name: str, *passages: Passage, aliases: tuple[str, ...] = ()) -> Page:
    return Page(
        ref=Ref("seam", name), path=f"seams/{name}.html", root="../", title=name, kind="Seam", lead=Html(""), banner="",
        main=(), aside=(), scripts=(), aliases=aliases, passages=passages,
    )  # fmt: skip


def _read(script: bytes) -> dict[str, dict[int, bool]]:
    """Read the index as its own description says, independently of the writer: word -> passage -> strong."""
    index = json.loads(script.decode().split("window.seambook.index=", 1)[1].rstrip().rstrip(";"))
    found: dict[str, dict[int, bool]] = {}
    for word, posting in zip(index["words"].split("\n"), index["postings"].split("\n"), strict=True):
        at, places = 0, {}
        for part in posting.split(" "):
            at += int(part.rstrip("*"), 36)
            places[at] = part.endswith("*")
        found[word] = places
    return found


def test_the_index_leads_every_word_to_its_passages() -> None:
    pages = [
        _page("b", Passage("", "Lower flange", "the standing flange"), Passage("prime", "Prime", "brush the primer")),
        _page("a", Passage("", "Upper flange", "under the door"), aliases=("sill",)),
    ]
    read = _read(index_script(page_words(page) for page in pages))
    assert read["flange"] == {0: True, 1: True}
    assert read["the"] == {0: False, 1: False, 2: False}
    assert read["sill"] == {0: True}
    assert read["primer"] == {2: False}
    assert read["prime"] == {2: True}


@given(st.lists(st.lists(st.text(st.sampled_from("abc -"), max_size=12), min_size=1, max_size=5), max_size=8))
def test_the_index_loses_no_word(texts: list[list[str]]) -> None:
    pages = [
        _page(f"p{at}", *(Passage(f"s{n}", "", text) for n, text in enumerate(parts))) for at, parts in enumerate(texts)
    ]
    script = index_script(page_words(page) for page in pages)
    read = _read(script) if any(words(text) for parts in texts for text in parts) else {}
    number = 0
    for _, parts in sorted((f"p{at}", parts) for at, parts in enumerate(texts)):
        for text in parts:
            for word in words(text):
                assert number in read[word]
            number += 1


def test_the_order_pages_come_in_changes_nothing() -> None:
    pages = [page_words(_page(name, Passage("", name, "x y z"))) for name in ("c", "a", "b")]
    assert index_script(pages) == index_script(reversed(pages))
