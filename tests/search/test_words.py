"""Search words: how a text is split, the same in the builder and on the page."""

from __future__ import annotations

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.search.words import words
from tests.formula.node import ASSETS, run_node

SPLIT = [
    ("Weld-through primer", ["weld", "through", "weldthrough", "primer"]),
    ("0.8 mm, 12 spots", ["0.8", "mm", "12", "spots"]),
    ("0,8mm", ["0.8", "mm"]),
    ("16mm 3K", ["16", "mm", "3", "k"]),
    ("60 % of 40µm", ["60", "percent", "of", "40", "um"]),
    ("5 μm, 20 °C, 2 m²", ["5", "um", "20", "c", "2", "m2"]),
    ("Émail à l'eau", ["email", "a", "l", "eau"]),
    ("M8x1.25", ["m8x1.25"]),
    ("C301 and dx56d", ["c301", "and", "dx56d"]),
    ("", []),
    (f"{'a' * 100} {'b' * 61}-c", ["a" * 60, "b" * 60, "c", "b" * 60]),
]


@pytest.mark.parametrize(("text", "found"), SPLIT)
def test_words_are_split_as_a_technician_types_them(text: str, found: list[str]) -> None:
    assert words(text) == found


def test_the_page_splits_as_the_builder_does() -> None:
    texts = [text for text, _ in SPLIT] + ["a-b-1.5-c", "1,2,3", "10-12mm", "a.5", "x1,5y", "½ inch", "ﬁt", "ẞ", "-a-"]
    said = run_node(f"return {json.dumps(texts)}.map(seambook.words.wordsOf);", (ASSETS / "words.js",))
    assert said == [words(text) for text in texts]


@settings(max_examples=5)
@given(st.lists(st.text(st.sampled_from("ab09.,-%µ°é ²K"), max_size=20), min_size=200, max_size=200))
def test_the_page_splits_made_up_texts_as_the_builder_does(texts: list[str]) -> None:
    said = run_node(f"return {json.dumps(texts)}.map(seambook.words.wordsOf);", (ASSETS / "words.js",))
    assert said == [words(text) for text in texts]


@given(st.text(max_size=200))
def test_words_are_lower_case_letters_and_digits(text: str) -> None:
    assert all(word and word == word.lower() and word.isascii() for word in words(text))
