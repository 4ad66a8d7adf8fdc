"""A step -> what a job plans it by: how long it may take, where it is done, and what it keeps away from it.

All of it is said by the layers' `planning.yaml`; a book without one plans by the minutes and waits of its steps alone.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from builder.model.records.law import Act
from builder.model.records.planning import Planning, Trait
from builder.model.records.procedure import Step
from builder.model.reference import Ref
from builder.view.here import Book


def planned(book: Book, step: Step) -> dict[str, Any]:
    """Return what planning says of a step."""
    planning = book.planning
    if planning is None:
        return {}
    low, high = spread(planning, step)
    return {
        "low": low, "high": high, "rusty": step.act in planning.rusty, "place": place_of(planning, step),
        "traits": list(_traits(book, planning, step.act)),
        "watch": step.act in planning.watch, "cures": _cures(planning, step),
        "needs_two": step.hands > 1 and step.act in planning.lone_hand.never,
    }  # fmt: skip


def spread(planning: Planning, step: Step) -> tuple[int, int]:
    """Return the minutes a step takes if all goes well, and if it turns out bad."""
    minutes = step.minutes or 0
    if step.spread is not None:
        return round(step.spread.low), round(step.spread.high)
    row = next((row for row in planning.spread if step.act in row.acts), planning.usual_spread)
    return round(minutes * row.low), round(minutes * row.high)


def place_of(planning: Planning, step: Step) -> str:
    """Return the id of the place a step needs: its own, else that of a tool it uses, else that of its act."""
    if step.needs_place:
        asked = step.needs_place
        return next((id_ for id_, one in planning.places.items() if asked in (id_, one.say)), "")
    by_tool = (planning.place_of_tool[tool] for tool in step.tools if tool in planning.place_of_tool)
    return next(by_tool, planning.place_of.get(step.act, ""))


def _cures(planning: Planning, step: Step) -> bool:
    return step.wait is not None and step.wait.at is not None and step.act in planning.curing.acts


def _traits(book: Book, planning: Planning, act: str) -> tuple[str, ...]:
    traits = planning.traits.items()
    return book.known_traits.get(act, lambda: tuple(id_ for id_, trait in traits if _has(book, trait, act)))


def _has(book: Book, trait: Trait, act: str) -> bool:
    record = book.shelf.get(Ref("act", act))
    if act in trait.acts:
        return True
    return isinstance(record, Act) and any(_gives_off(trait, record))


def _gives_off(trait: Trait, act: Act) -> Iterator[bool]:
    yield trait.of == "heat" and bool(act.heat)
    yield trait.of == "vapour" and act.vapour
