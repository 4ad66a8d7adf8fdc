"""A number -> the search index of a library of so many procedures, made of words alone, and questions to ask of it."""

from __future__ import annotations

import random
import re
import time
from pathlib import Path
from typing import NamedTuple

from builder.model.reference import Ref
from builder.model.views import Page
from builder.search import IndexWriter, page_words
from tests.bench.copies import SHORT, Kit, cars_of, pages_of
from tests.bench.library import name_of, tail_of
from tests.search.known import About, Known, questions, title_words

ASKED_FOR = frozenset({"procedure", "panel", "seam", "term", "calculator", "supply", "tool"})
"""Kinds of records that questions are made for."""
_PANEL = re.compile(r"panel:([a-z0-9-]+)")


class Indexed(NamedTuple):
    """An index and what it cost."""

    files: dict[str, bytes]
    procedures: int
    seconds_own: float
    """The processor's own time to gather the words of the procedures' pages, as each process that draws does."""
    seconds_put: float
    """The same to put those words into the index, as one process does for all."""
    supplied: list[Known]
    """Questions for supplied records."""
    copies: list[Known]
    """Questions for records of the cars; none in the supplied library."""


def indexed(kit: Kit, content: Path, procedures: int, asked: int, seed: int = 1) -> Indexed:
    """Make the index of a library with questions for so many supplied records, and for as many of the cars'."""
    writer, count, own, put = IndexWriter(), 0, 0.0, 0.0
    targets = _targets(kit, procedures, asked, seed)
    kept: list[Page] = []
    for page in pages_of(kit, procedures, seed):
        started = time.process_time()
        found = page_words(page)
        gathered = time.process_time()
        writer.add(found)
        if page.ref.kind == "procedure":
            count += 1
            own += gathered - started
            put += time.process_time() - gathered
        if page.path in targets:
            kept.append(page)
    files = writer.files(kit.supplied.names, kit.supplied.quiet)
    titles = [title_words(page.title) for page in kit.supplied.records.values()]
    made: dict[bool, list[Known]] = {False: [], True: []}
    for page in kept:
        about = About(targets[page.path], _panel(kit, content, page))
        chance = random.Random(f"{seed} {page.path}")
        made[bool(about.car)] += questions(page, about, titles, writer.pages_with, chance)
    return Indexed(files, count, own, put, made[False], made[True])


def _targets(kit: Kit, procedures: int, asked: int, seed: int) -> dict[str, str]:
    """Choose pages to ask for: of each its path, and what tells it from its copies.

    Of the supplied records only those that have none: what copies say too would be as right.
    """
    chance = random.Random(f"{seed} asked")
    copied = {page.path.replace(tail_of(SHORT), "") for page, _ in kit.cars}
    own = sorted(page.path for ref, page in kit.supplied.records.items() if ref.kind in ASKED_FOR and not page.standing)
    alone = [path for path in own if path not in copied]
    found = dict.fromkeys(chance.sample(alone, min(asked, len(alone))), "")
    for _ in range(asked if procedures else 0):
        page, _ = chance.choice(kit.cars)
        car = chance.randint(1, cars_of(procedures))
        found[page.path.replace(tail_of(SHORT), tail_of(car))] = name_of(car)
    return found


def _panel(kit: Kit, content: Path, page: Page) -> str:
    """Return the title of what a page is about: its own panel, or the first that a procedure works on."""
    id_ = page.path.rpartition("/")[2].removesuffix(".html")
    id_ = re.sub(r"-k[0-9]+$", "", id_)
    ref = Ref("panel", id_)
    if page.ref.kind == "procedure":
        found = _PANEL.search((content / "procedures" / f"{id_}.yaml").read_text("utf-8"))
        ref = Ref("panel", found[1] if found else "")
    known = kit.supplied.records.get(ref)
    return known.title if known is not None else ""
