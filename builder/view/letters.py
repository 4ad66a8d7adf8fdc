"""The catalogue -> the list from A to Z, other names included; it stands in for the search where no script runs.

A book of many records has a page for each letter, so that none grows heavy on a phone.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator

from builder.model.records import KIND
from builder.model.reference import Ref
from builder.model.views import Block, Group, Groups, Html, Link, Links, Page
from builder.view.here import Book, Here
from builder.view.lists import AZ, plain_page

MOST_ON_ONE_PAGE = 2000
OTHER = "0-9"
"""Where a name goes that begins with no letter."""
_ARTICLE = re.compile(r"^(?:a|an|the) ")
"""What a list is not sorted by."""
TITLE = "Everything from A to Z"


def letter_pages(book: Book) -> Iterator[Page]:
    """Make the list: one page, or one that leads to a page for each letter."""
    here = Here(book, AZ)
    by_letter: dict[str, list[Link]] = {}
    for name, link in sorted(_names(here), key=lambda one: (_sorting(one[0]), one[1].href)):
        by_letter.setdefault(_letter(name), []).append(link)
    letters = sorted(by_letter, key=lambda letter: (letter == OTHER, letter))
    if sum(map(len, by_letter.values())) <= MOST_ON_ONE_PAGE:
        jumps = tuple(Link(letter, f"#{_anchor(letter)}") for letter in letters)
        parts = (_block(letter, by_letter) for letter in letters)
        blocks = (Links("Letters", jumps, anchor="letters", in_a_row=True), *parts)
        yield plain_page(here, Ref("page", "a-z"), TITLE, Html(""), blocks)
        return
    ways = tuple(Link(letter, _path(letter)) for letter in letters)
    letters_alone = Links("Letters", ways, anchor="letters", in_a_row=True)
    yield plain_page(here, Ref("page", "a-z"), TITLE, Html(""), (letters_alone,))
    for letter in letters:
        ref = Ref("page", _path(letter).removesuffix(".html"))
        yield plain_page(Here(book, _path(letter)), ref, f"{TITLE}: {letter}", Html(""), (_block(letter, by_letter),))


def _names(here: Here) -> Iterator[tuple[str, Link]]:
    """Every title and every other name, with where it leads."""
    for ref, summary in here.book.catalogue.summaries.items():
        own = here.link_to(ref)
        kind = KIND[ref.kind].type.__name__.lower()
        yield own.text, Link(own.text, own.href, ", ".join(filter(None, (kind, own.note))))
        for name in summary.aliases:
            yield name, Link(name, own.href, f"see {own.text}")


def _block(letter: str, by_letter: dict[str, list[Link]]) -> Block:
    return Groups(letter, (Group("", tuple(by_letter[letter])),), _anchor(letter))


def _sorting(name: str) -> tuple[str, str]:
    folded = unicodedata.normalize("NFKD", _ARTICLE.sub("", name.casefold()))
    return "".join(c for c in folded if not unicodedata.combining(c)), name


def _letter(name: str) -> str:
    first = _sorting(name)[0][:1].upper()
    return first if first.isalpha() else OTHER


def _anchor(letter: str) -> str:
    return f"letter_{letter.lower()}"


def _path(letter: str) -> str:
    return f"a-z-{letter.lower()}.html"
