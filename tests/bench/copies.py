"""A number -> what the pages of a library of so many procedures say, as `library` makes them, with none read or drawn.

Two cars are copied, read and viewed beside the supplied library: one with seams as short as they get, one with the
longest, and a mark wherever a step can say more. Every other car's pages lie between these two. Left out are the rules
that come to every twenty cars.
"""

from __future__ import annotations

import random
import re
import shutil
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import NamedTuple

from builder.model.calculation import Formulas
from builder.model.pictures import Pictures
from builder.model.plan_views import PlannedSegment
from builder.model.reference import Ref
from builder.model.views import Cards, Facts, Form, Grid, Items, Page, Steps, Worked
from tests.bench.between import Between, Blank, between
from tests.bench.library import LEAST_LONG, Words, copied, more, name_of, tail_of, vocabulary
from tests.bench.moulds import PROCEDURES, moulds_of
from tests.bench.views import Views, views_of

SHORT, LONG = 1, 2
"""The two cars that are read."""
_MORE = " Zqzqzq"
_MARKS = {"tail": "\ue000", "name": "\ue001", "more": "\ue002"}
_MARKED = re.compile(
    rf"(?P<tail>(?:{tail_of(SHORT)}|{tail_of(LONG)})\b)|(?P<name>(?:{name_of(SHORT)}|{name_of(LONG)})\b)|(?P<more>{_MORE}[.]?)"
)
_SEARCHED = (Steps, Cards, Items, PlannedSegment, Pictures, Facts, Grid, Worked, Formulas, Form)
"""Blocks in which the search looks; others are left out, which saves making them."""


class Kit(NamedTuple):
    """All that libraries of any size are made of."""

    supplied: Views
    cars: tuple[tuple[Page, Between], ...]
    """Of each record of a car its page, with marks, and what makes others of it."""
    words: Words


def kit_of(content: Path, seed: int = 1) -> Kit:
    """Read and view the library, and two cars beside it."""
    moulds = moulds_of(content)
    with tempfile.TemporaryDirectory(prefix="seambook-bench-") as folder:
        made = Path(folder) / "content"
        shutil.copytree(content, made)
        for car, share in ((SHORT, LEAST_LONG), (LONG, 1.0)):
            say = partial(str, f"{_MORE}.")
            for path, text in copied(moulds, tail_of(car), name_of(car), partial(float, share), say):
                (made / path).write_text(text, "utf-8")
        views = views_of(made)
    pages = views.records
    short, long = (
        {(one.ref.kind, one.ref.id): pages[Ref(one.ref.kind, f"{one.ref.id}{tail_of(car)}")] for one in moulds}
        for car in (SHORT, LONG)
    )
    cars = tuple(_varied(_slim(short[key]), _slim(long[key])) for key in short)
    tails = (tail_of(SHORT), tail_of(LONG))
    own = {ref: page for ref, page in pages.items() if not ref.id.endswith(tails)}
    return Kit(views._replace(records=own), cars, vocabulary(content, seed))


def pages_of(kit: Kit, procedures: int, seed: int = 1) -> Iterator[Page]:
    """Yield the pages of the library, in the order in which the index numbers them."""
    makers: list[tuple[str, Callable[[], Page]]] = [
        (page.path, partial(_itself, page)) for page in kit.supplied.records.values()
    ]
    for car in range(1, cars_of(procedures) + 1):
        for page, make in kit.cars:
            path = page.path.replace(tail_of(SHORT), tail_of(car))
            makers.append((path, _maker(make, kit.words, car, random.Random(f"{seed} {path}"))))
    for _, made in sorted(makers, key=lambda pair: pair[0]):
        yield made()
    yield from kit.supplied.others


def cars_of(procedures: int) -> int:
    """Return how many cars hold at least so many procedures."""
    return -(-procedures // len(PROCEDURES))


def _itself(page: Page) -> Page:
    return page


def _maker(make: Between, words: Words, car: int, chance: random.Random) -> Callable[[], Page]:
    said = {_MARKS["tail"]: tail_of(car), _MARKS["name"]: name_of(car)}

    def fill(text: str) -> str:
        for mark, value in said.items():
            text = text.replace(mark, value)
        first, *rest = text.split(_MARKS["more"])
        return first + "".join([more(words, chance, str) + one for one in rest]) if rest else first

    return lambda: make(Blank(fill, chance.random()))


def _slim(page: Page) -> Page:
    blocks = (block for block in (*page.main, *page.aside) if isinstance(block, _SEARCHED))
    return replace(page, main=tuple(blocks), aside=(), scripts=())


def _varied(short: Page, long: Page) -> tuple[Page, Between]:
    make = between(short, long, lambda text: _MARKED.sub(lambda found: _MARKS[str(found.lastgroup)], text))
    assert make is not None
    return short, make
