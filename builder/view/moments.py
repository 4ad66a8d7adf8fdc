"""Calculators by the moment of the job -> the groups of the first page and of the lists, and the others of a moment."""

from __future__ import annotations

from collections.abc import Iterable

from builder.model.moments import Moment, by_moment
from builder.model.records import Record
from builder.model.records.calculator import Calculator
from builder.model.reference import Ref
from builder.model.shelf import of_kind
from builder.model.views import Block, Group, Link, Links
from builder.view import parts
from builder.view.here import Here
from builder.view.prose import plain_text

MOST_OTHERS = 12
"""Others of the same moment in the margin of a calculator; the rest are a word away."""
CALCULATOR = "calculator"


def asked(record: Record | None) -> str:
    """Return the question a calculator answers, as plain text."""
    return plain_text(record.asks) if isinstance(record, Calculator) else ""


def links_by_moment(here: Here, refs: Iterable[Ref]) -> list[tuple[Moment, list[Link]]]:
    """Return of each moment its calculators by title, each with its question."""
    shelf = here.book.shelf
    return [
        (moment, parts.by_title([here.link_to(ref, asked(shelf.get(ref))) for ref in moment.calculators]))
        for moment in by_moment(refs, shelf)
    ]  # fmt: skip


def anchor_of(moment: Moment) -> str:
    """The place of a moment on the page of lists."""
    return f"moment_{moment.id}" if moment.say else ""


def groups_of(here: Here, refs: Iterable[Ref], lists: str, most: int | None = None) -> tuple[Group, ...]:
    """Head each moment's calculators with its words; of many the first, and the way to the rest."""
    found = links_by_moment(here, refs)
    count = sum(len(links) for _, links in found)
    is_short = most is None or count <= most
    each = max(1, (most or 0) // max(1, len(found)))
    return tuple(
        Group(moment.say, tuple(links) if is_short else _first(moment, links, each, lists),
              anchor=anchor_of(moment) if most is None else "")
        for moment, links in found
    )  # fmt: skip


def _first(moment: Moment, links: list[Link], most: int, lists: str) -> tuple[Link, ...]:
    if len(links) <= most:
        return tuple(links)
    anchor = anchor_of(moment) or CALCULATOR
    return (*links[:most], Link(f"All {len(links)}", f"{lists}#{anchor}", moment.say))


def at_its_moment(here: Here, ref: Ref, calculator: Calculator, lists: str) -> tuple[Block, ...]:
    """Say when a calculator is wanted, and what else is then."""
    refs = (other for other, _ in of_kind(here.book.shelf, CALCULATOR, Calculator))
    moment = next((one for one in by_moment(refs, here.book.shelf) if ref in one.calculators), None)
    if moment is None or not calculator.moment or not moment.id:
        return ()
    others = parts.by_title([here.link_to(other) for other in moment.calculators if other != ref])
    more = (Link(f"All {len(others) + 1}", f"{here.root}{lists}#{anchor_of(moment)}", moment.say),)
    links = tuple(others) if len(others) <= MOST_OTHERS else (*others[:MOST_OTHERS], *more)
    return (Links(f"At this moment: {moment.say}", links, "Nothing else is worked out.", "moment"),)
