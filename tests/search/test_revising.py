"""An index that is made of the one before says, byte for byte, what one made from nothing says."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from random import Random

import pytest

from builder.model.reference import Ref
from builder.model.views import Html, Page, Passage
from builder.search import IndexWriter, Pages, PageWords, Published, numbered, page_words, revised
from tests.sweeps import examples

WORDS = ["the", "flange", "seam", "weld", "prime", "0.8", "mm", "door", "sill", "a", "b", "c", "zinc", "x1", "x2", "aa"]
PATHS = [f"{folder}/{name}" for folder in ("acts", "seams") for name in "abcdefghijklmnopqrs"]
Told = tuple[str, str, tuple[str, ...], str]
"""Of a page its path, title, texts and other name."""
BOOKS, SIZES = 40, (0, 1, 3, 5, 9, 20, 30)
NAMES, QUIET = (("door", "sill"),), ("the",)


def a_page(path: str, title: str, texts: Sequence[str], alias: str) -> PageWords:
    return page_words(Page(
        ref=Ref("seam", path), path=f"{path}.html", root="../", title=title, kind="Seam", lead=Html(""),
        banner="draft" if path.endswith("c") else "", main=(), aside=(), scripts=(), aliases=(alias,) if alias else (),
        passages=tuple(Passage(f"p{at}", f"Part {at}", text) for at, text in enumerate(texts)),
    ))  # fmt: skip


def in_order(book: Sequence[Told]) -> list[PageWords]:
    return [a_page(*page) for page in sorted(book)]


def from_nothing(pages: Sequence[PageWords]) -> dict[str, bytes]:
    writer = IndexWriter()
    for page in pages:
        writer.add(page)
    return writer.files(NAMES, QUIET)


def of(pages: Sequence[PageWords]) -> Pages:
    return Pages([numbered(page) for page in pages], pages.__getitem__)


def from_before(before: Sequence[PageWords], today: Sequence[PageWords]) -> Mapping[str, bytes] | None:
    there = from_nothing(before)
    found = revised(Published(frozenset(there), there.__getitem__), of(before), of(today), NAMES, QUIET)
    if found is None:
        return None
    assert not found.files.keys() & found.kept
    return {**found.files, **{path: there[path] for path in found.kept}}


SMALL = {
    "scripts.MOST_OF_POSTINGS": 40, "index.MOST_OF_POSTINGS": 40, "revising.MOST_OF_POSTINGS": 40,
    "scripts.LONGEST_BESIDE": 12, "index.MOST_OF_WORDS": 12, "revising.MOST_OF_WORDS": 12,
    "index.ENOUGH_OF_TEXTS": 200, "index.LARGE": 4, "revising.LARGE": 4,
}  # fmt: skip
"""Bounds by which a few pages have what else thousands have: many shards, words with shards of their own, common words.
"""


def text(chance: Random) -> str:
    return " ".join(chance.choices(WORDS, range(len(WORDS), 0, -1), k=chance.randint(1, 6)))


def told(chance: Random, path: str) -> Told:
    """Many pages say what others say, as in a large book."""
    like = Random(chance.randint(0, 3) if chance.random() < 0.6 else chance.random())
    texts = tuple(text(like) for _ in range(like.choice((1, 2, 4, 14))))
    return path, text(like), texts, like.choice(("", "", "sill", "the door"))


def edited(chance: Random, book: Mapping[str, Told]) -> dict[str, Told]:
    """Change, take out or add up to three pages."""
    found = dict(book)
    for _ in range(chance.randint(0, 3)):
        path = chance.choice([*found, *PATHS])
        if chance.random() < 0.3:
            found.pop(path, None)
        else:
            found[path] = told(chance, path)
    return found


@pytest.mark.parametrize("bounds", [SMALL, {}], ids=["small", "as they are"])
@pytest.mark.parametrize("size", SIZES)
def test_any_pages_may_change_come_or_go(
    bounds: Mapping[str, int], size: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name, value in bounds.items():
        monkeypatch.setattr(f"builder.search.{name}", value)
    made = 0
    for seed in range(examples(BOOKS * 20, 20)):
        chance = Random(f"{size} {seed}")
        book = {path: told(chance, path) for path in chance.sample(PATHS, size)}
        today = edited(chance, book)
        pages = in_order([*today.values()])
        found = from_before(in_order([*book.values()]), pages)
        assert found is None or found == from_nothing(pages), (size, seed)
        made += found is not None
    assert made > (BOOKS / 2 if not bounds or size > 9 else 4)
