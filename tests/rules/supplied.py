"""The supplied library, with a few made-up records where it has no sheet of the kind a rule asks about -> its law."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from builder.check.law import Law, make_law
from builder.model.files import Layer
from builder.model.reference import Ref
from builder.order import Order
from builder.passes import Way

CONTENT = Path(__file__).resolve().parents[2] / "content"
MADE_UP = Path(__file__).parent / "made-up"
SUBJECTS = ("seam", "panel", "cavity", "opening")
LAYERS = (Layer(CONTENT, "content"), Layer(MADE_UP, "made-up"))


@cache
def law() -> Law:
    """Return the law of the book."""
    way = Way(Order(LAYERS, processes=1))
    gathered = way.gather(way.discover())
    found = make_law(gathered.shelf, way.connect(gathered))
    assert found.is_whole, way.outcome_problems()
    return found


def find(name: str) -> Ref:
    """Return the one record of the body with this id."""
    found = [ref for kind in SUBJECTS if (ref := Ref(kind, name)) in law().catalogue.summaries]
    assert len(found) == 1, f"{name} is {found}"
    return found[0]
