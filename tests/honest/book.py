"""The supplied library with the honest procedures laid over it -> its law, and all that a check has to say of it."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from builder import pipeline
from builder.check.law import Law, make_law
from builder.model.files import Layer
from builder.model.reference import Ref
from builder.model.summary import Summary
from builder.order import Order
from builder.passes import Way
from builder.supplied import WORD, layer, templates

FOLDER = Path(__file__).parent / "content"
LABEL = "honest"
"""Stands before the files of these procedures in problems."""
LAYERS = (layer(WORD, Path()), Layer(FOLDER, LABEL))


@cache
def checked() -> pipeline.Outcome:
    """Send both layers the whole way through, as `check` does."""
    return pipeline.make(Order(LAYERS, templates(), processes=1))


@cache
def law(has_rules: bool = True) -> Law:
    """Return the law with the book it is applied to; to see what its rules are worth, without them."""
    way = Way(Order(LAYERS, processes=1))
    gathered = way.gather(way.discover())
    shelf = {ref: record for ref, record in gathered.shelf.items() if has_rules or ref.kind != "rule"}
    found = make_law(shelf, way.connect(gathered))
    assert found.is_whole, way.outcome_problems()
    return found


def names() -> list[str]:
    """Return the honest procedures."""
    return sorted(path.stem for path in (FOLDER / "procedures").glob("*.yaml"))


def honest() -> dict[str, Summary]:
    """Return the honest procedures, ready to be judged."""
    return {name: law().catalogue.summaries[Ref("procedure", name)] for name in names()}


def issued() -> dict[str, Summary]:
    """Return the issued procedures of the supplied library."""
    found = law().catalogue.summaries.items()
    own = set(names())
    return {ref.id: one for ref, one in sorted(found)
            if ref.kind == "procedure" and one.status == "issued" and ref.id not in own}  # fmt: skip
