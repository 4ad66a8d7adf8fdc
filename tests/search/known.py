"""Pages -> questions that ask for one page each, made of what the page says, and how well an index answers them.

Copies of a record in a library made by `tests/bench` differ by the name and number of their car, and by what their
steps say more. A question for one of them must say which car is meant, as whoever has that car in the bay would; else
any copy would be as right.
"""

from __future__ import annotations

import random
import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from pathlib import Path
from typing import NamedTuple

from builder.model.views import Page
from builder.search import page_words
from tests.search.asking import answered

SORTS = ("title less a word", "rarest words and panel", "other name", "slip")
_LETTERS = "abcdefghijklmnopqrstuvwxyz"
_LOOKED_AT = 20
"""Places among which a page is looked for."""


class Known(NamedTuple):
    """A question and the page it asks for."""

    sort: str
    text: str
    path: str


class Share(NamedTuple):
    """How well questions of one sort were answered."""

    first: float
    """Of all, the share whose page stands first."""
    five: float
    """Among the first five."""
    rank: float
    """The mean of one divided by the page's place, 0 where it is not among the first (Voorhees, TREC-8, 1999)."""
    asked: int


class About(NamedTuple):
    """What a question must say beside a page's own words."""

    car: str
    """What tells the page from its copies; empty where it has none."""
    panel: str
    """What it is done on; or empty."""


def questions(
    page: Page, about: About, titles: Sequence[frozenset[str]], pages_with: Callable[[str], int], chance: random.Random
) -> Iterator[Known]:
    """Make what can be asked for a page; `titles` holds the words of all titles of the book, cars left out.

    What is left of a title must not be in another: whoever types it could mean either.
    """
    car, panel = about
    title = page.title.removesuffix(f", {car}") if car else page.title
    words = re.findall(r"[\w.-]+", title)
    shorter = [words[:at] + words[at + 1 :] for at in range(len(words)) if len(words) > 1]
    telling = [left for left in shorter if _titles_with(title_words(" ".join(left)), titles) == 1]
    if telling:
        yield Known("title less a word", _said(chance.choice(telling), car), page.path)
    own = [line.partition(" ")[0] for line in page_words(page).entries.split("\n")]
    own = [word for word in own if word.isalpha() and len(word) > 3 and word not in car.split()]
    rare = sorted((pages_with(word), word) for word in own)
    if panel and len(rare) > 1:
        yield Known("rarest words and panel", _said([rare[0][1], rare[1][1], panel], car), page.path)
    for name in chance.sample(page.aliases, min(1, len(page.aliases))):
        yield Known("other name", _said([name], car), page.path)
    long = [at for at, word in enumerate(words) if word.isalpha() and len(word) > 4]
    if long:
        at = chance.choice(long)
        yield Known("slip", _said([*words[:at], slipped(words[at], chance), *words[at + 1 :]], car), page.path)


def _titles_with(words: frozenset[str], titles: Sequence[frozenset[str]]) -> int:
    return sum(words <= one for one in titles)


def title_words(title: str) -> frozenset[str]:
    """Return the words of a title, in lower case."""
    return frozenset(re.findall(r"[\w.-]+", title.lower()))


def _said(words: Sequence[str], car: str) -> str:
    return " ".join([*words, car] if car else words)


def slipped(word: str, chance: random.Random) -> str:
    """Leave a letter out, put one in, change one, or swap two, behind the first, which is rarely mistyped."""
    at = chance.randrange(1, len(word) - 1)
    letter = chance.choice(_LETTERS)
    return chance.choice((
        word[:at] + word[at + 1 :], word[:at] + letter + word[at:], word[:at] + letter + word[at + 1 :],
        word[:at] + word[at + 1] + word[at] + word[at + 2 :],
    ))  # fmt: skip


def shares(index: Path, asked: Sequence[Known]) -> dict[str, Share]:
    """Ask an index and tell, sort by sort and for all, how well it answers."""
    ranks: dict[str, list[int]] = {}
    for one, said in zip(asked, answered(index, [f"{one.text} " for one in asked], _LOOKED_AT), strict=True):
        places = [place.partition("#")[0] for place in said.places]
        rank = places.index(one.path) + 1 if one.path in places else 0
        ranks.setdefault(one.sort, []).append(rank)
    return {sort: _share(found) for sort, found in (*sorted(ranks.items()), ("all", [*_all(ranks.values())]))}


def _all(lists: Iterable[list[int]]) -> Iterator[int]:
    for one in lists:
        yield from one


def _share(ranks: Sequence[int]) -> Share:
    return Share(
        sum(rank == 1 for rank in ranks) / len(ranks), sum(0 < rank <= 5 for rank in ranks) / len(ranks),
        sum(1 / rank for rank in ranks if rank) / len(ranks), len(ranks),
    )  # fmt: skip
