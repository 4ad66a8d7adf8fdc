"""A page view -> its passages: what the search can find on it, and where on the page each stands.

A record's own texts come from its view. What its blocks say beside them, numbers with their units above all, is
gathered here. Lists of links are left out: they would make every page match what it only leads to.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import lru_cache
from html import unescape
from typing import NamedTuple

from builder.model.calculation import Formulas
from builder.model.pictures import Pictures
from builder.model.plan_views import PlannedSegment
from builder.model.views import Block, Cards, Facts, Form, Grid, Html, Items, Page, Row, Step, Steps, Worked

_OTHER_UNITS = re.compile(r'<span data-q="([^"]*)">')
_TAG = re.compile(r"<[^>]*>")
UNSEARCHED = frozenset({"formulas", "proofs", "fixed", "also", "part_revisions", "changes", "due"})
"""Blocks that are not searched: how a figure comes about and what it is held against, whose numbers are an example's;
other words for the page, each of which is a passage by itself; and what was changed when, which is no way to work."""


class Part(NamedTuple):
    """A place on a page with its words."""

    anchor: str
    heading: str
    texts: tuple[str, ...]
    """What it says."""
    facts: tuple[str, ...] = ()
    """What its tables and labelled values say, in which a word counts for less."""
    name: str = ""
    """What else it is called."""


def parts_of(page: Page) -> list[Part]:
    """Gather a page's parts; what a block says of a place that has a passage already is added to it.

    Words asked for together count where they stand together, so several passages of one place stay apart.
    """
    found: dict[str, Part] = {}
    others: list[Part] = []
    for one in page.passages:
        part = Part(one.anchor, one.heading, (one.text,), (), one.name)
        if one.anchor in found:
            others.append(part)
        else:
            found[one.anchor] = part
    if not found:
        return []
    first = page.passages[0]
    found[first.anchor] = found[first.anchor]._replace(texts=(first.text, page.kind))
    for block in (*page.main, *page.aside):
        if block.anchor in UNSEARCHED or block.anchor.partition("_")[0] in UNSEARCHED:
            continue
        for part in _of_block(block):
            known = found.get(part.anchor)
            if known:
                part = known._replace(texts=known.texts + part.texts, facts=known.facts + part.facts)
            found[part.anchor] = part
    return [*found.values(), *others]


def _of_block(block: Block) -> Iterator[Part]:
    match block:
        case Steps():
            for phase in block.phases:
                for step in phase.steps:
                    yield Part(step.key, "", (), tuple(_of_step(step)))
        case Cards():
            for card in block.cards:
                said = (plain(card.title), plain(card.text))
                yield Part(card.anchor or block.anchor, block.title, said, tuple(_rows(card.rows)))
        case Items():
            yield Part(block.anchor, block.title, tuple(map(plain, block.items)))
        case PlannedSegment():
            # What a plan says is said on the pages of its calculators and methods, which are what is looked for.
            known = (text for fact in block.facts for text in (fact.label, plain(fact.value)))
            yield Part(block.anchor, block.title, (), tuple(known))
        case Pictures():
            texts = (text for one in block.pictures for text in (one.title, plain(one.caption), one.alt))
            yield Part(block.anchor, block.title, tuple(texts))
        case _:
            facts = tuple(_facts(block))
            if facts:
                yield Part(block.anchor, block.title, (), facts)


def _facts(block: Block) -> Iterable[str]:
    match block:
        case Facts():
            return _rows(block.rows)
        case Grid():
            return (*block.head, *(plain(cell) for row in block.rows for cell in row))
        case Worked():
            return (*_rows(block.given), *_rows(block.answers))
        case Formulas():
            return _formulas(block)
        case Form():
            return (*(ask.label for ask in block.asks), *_rows(block.answers))
    return ()


def _formulas(block: Formulas) -> Iterator[str]:
    for one in block.formulas:
        yield f"{one.readable} {one.name} {one.text}"
        for row in one.rows:
            yield f"{row.text} {plain(row.say)} {plain(row.because)}"


def _of_step(step: Step) -> Iterator[str]:
    yield from _rows(step.measures)
    yield from _rows(step.timing)
    for worked in step.worked:
        yield from _rows(worked.answers)


def _rows(rows: Iterable[Row]) -> Iterator[str]:
    for row in rows:
        yield row.label
        yield plain(row.value)


@lru_cache(maxsize=16384)
def plain(html: Html) -> str:
    """Return what a reader reads of mark-up, quantities in both systems of units."""
    if "<" not in html and "&" not in html:
        return html
    return unescape(_TAG.sub(" ", _OTHER_UNITS.sub(r" \1 ", html)))
