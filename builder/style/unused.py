"""The catalogue -> records that nobody refers to, though records of their kind are there to be referred to."""

from __future__ import annotations

from collections.abc import Iterator

from builder.formula import Fault
from builder.model.links import Catalogue
from builder.model.records.style import HouseStyle
from builder.model.reference import Ref
from builder.style import codes

Path = tuple[str | int, ...]


def unused(style: HouseStyle, catalogue: Catalogue) -> Iterator[tuple[Ref, Fault]]:
    """Yield each with its fault; a record that refers to itself alone is unused."""
    for ref in sorted(catalogue.summaries):
        if ref.kind in style.used and not any(user != ref for user in catalogue.uses.get(ref, ())):
            message = f"no record refers to this {ref.kind}"
            do = "refer to it where it is needed, or take it away"
            yield ref, Fault(codes.UNUSED_RECORD, message, do, path=("title",), level="warning")


def unknown(style: HouseStyle, catalogue: Catalogue) -> Iterator[Fault]:
    """Yield a fault, by its place in the file, for each act and hazard that is named and not in the book."""
    places: list[tuple[str, Path, str]] = [("act", ("takes_away", at), id_) for at, id_ in enumerate(style.takes_away)]
    for at, verb in enumerate(style.verbs):
        places += [("act", ("verbs", at, "acts"), id_) for id_ in verb.acts]
    for at, danger in enumerate(style.dangers):
        places += [("act", ("dangers", at, "acts"), id_) for id_ in danger.acts]
        places += [("hazard", ("dangers", at, "hazard"), id_) for id_ in danger.hazard]
    if style.measured is not None:
        places += [("act", ("measured", "acts"), id_) for id_ in style.measured.acts]
    for kind, path, id_ in places:
        if catalogue.find(Ref(kind, id_)) is None:
            message = f"there is no {kind} {id_}"
            yield Fault(codes.UNKNOWN_IN_STYLE, message, "name one that the book has, or take it out", path=path)
