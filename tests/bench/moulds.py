"""The supplied library -> moulds: the text of some of its records, with the places at which they name each other.

A copy of all moulds is one car: eighteen procedures of 31 steps on average, from making safe to closing out, with the
panels, seams, cavities and openings that their steps work on.
"""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path
from typing import NamedTuple

from builder.model.files import Layer
from builder.model.records import KIND
from builder.model.reference import Ref
from builder.order import Order
from builder.passes import Way

PROCEDURES = (
    "clamp-and-check-fit", "close-out", "coat-before-closing", "dress-welds", "encapsulate-sound-rust", "final-measure",
    "finish-rocker-outer", "free-spot-welds", "make-safe", "plug-weld-a-lap", "prepare-faying-surfaces",
    "protect-heat-zone", "prove-drains-and-leaks", "prove-spot-welder", "renew-rocker-outer", "seal-to-factory-pattern",
    "support-at-ride-points", "weld-in-order",
)  # fmt: skip
SUBJECTS = ("panel", "seam", "cavity", "opening")


class Mould(NamedTuple):
    """One record's text, cut where it names a record that is copied too: between two parts comes a tail."""

    ref: Ref
    path: str
    """From the folder of content."""
    parts: tuple[str, ...]

    def with_tail(self, tail: str) -> str:
        """Return the text with every copied record named by its own name and this tail."""
        return tail.join(self.parts)


def moulds_of(content: Path) -> list[Mould]:
    """Read the library and cut the moulds."""
    way = Way(Order((Layer(content, "content"),)))
    gathered = way.gather(way.discover())
    catalogue = way.connect(gathered)
    refs = {Ref("procedure", name) for name in PROCEDURES}
    steps = [step for ref in refs for step in catalogue.summaries[ref].steps]
    refs |= {one.record for step in steps for one in step.subjects if one.kind in SUBJECTS}
    found = []
    for ref in sorted(refs):
        text = way.places.file(ref).path.read_text("utf-8")
        bare = [
            (span.line, span.end)
            for mention in catalogue.summaries[ref].mentions if mention.ref.record in refs
            for span in way.places_of(ref, mention) if _stands(text, span.line, span.column, mention.ref.id)
        ]  # fmt: skip
        found.append(Mould(ref, f"{KIND[ref.kind].folder}/{ref.id}.yaml", _parted(text, bare, refs)))
    return found


def _stands(text: str, line: int, column: int, id_: str) -> bool:
    return text.split("\n")[line - 1][column - 1:].startswith(id_)


def _parted(text: str, bare: list[tuple[int, int]], refs: set[Ref]) -> tuple[str, ...]:
    """Cut behind each bare id, and behind each that stands with its kind."""
    starts = [0]
    for line in text.split("\n"):
        starts.append(starts[-1] + len(line) + 1)
    cuts = {starts[line - 1] + end - 1 for line, end in bare}
    cuts |= {
        found.end() for found in re.finditer(r"\b([a-z]+):([a-z0-9]+(?:-[a-z0-9]+)*)", text)
        if Ref(found[1], found[2]) in refs
    }  # fmt: skip
    edges = [0, *sorted(cuts), len(text)]
    return tuple(text[start:end] for start, end in pairwise(edges))
