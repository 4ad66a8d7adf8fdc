"""A subject -> whose state is meant, seen from it: over the seams, panels, cavities and openings it has to do with."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from functools import cached_property

from builder.check.names import ref_today
from builder.model.ledger import Remembered
from builder.model.links import Catalogue
from builder.model.reference import BODY, WELDER, Ref

OVER_PANELS = {"openings": "bounds", "neighbours": "neighbours"}
"""What is reached over a subject's panels, by which of their relations."""
LONE = {"body": Ref(BODY, BODY), "welder": Ref(WELDER, WELDER)}


class Relations:
    """The relations of one book; what was asked once is kept."""

    def __init__(self, catalogue: Catalogue) -> None:
        self.catalogue = catalogue
        self._known = Remembered[tuple[Ref, str], tuple[Ref, ...]](catalogue.ledger)

    def related(self, subject: Ref, whose: str) -> tuple[Ref, ...]:
        """Return whose state is meant, seen from one subject; `seams` is the caller's, who knows the step."""
        return self._known.get((subject, whose), lambda: tuple(dict.fromkeys(self._relate(subject, whose))))

    def _relate(self, subject: Ref, whose: str) -> list[Ref]:
        if whose in LONE:
            return [LONE[whose]]
        if whose == "same" or (whose == "panels" and subject.kind == "panel"):
            return [subject]
        if whose == "openings" and self._says_openings(subject):
            return self._relation(subject, whose, subject)
        if whose in OVER_PANELS:
            panels = self.related(subject, "panels")
            return [ref for panel in panels for ref in self._relation(panel, OVER_PANELS[whose], subject)]
        if whose == "panels" and subject.kind == "opening":
            return self._backward("bounds", subject, subject)
        if whose == "joints":
            return [subject] if subject.kind == "seam" else self._joints(subject)
        return self._relation(subject, whose, subject)

    def _joints(self, subject: Ref) -> list[Ref]:
        if subject.kind == "opening":
            panels = self.related(subject, "panels")
            near = [seam for panel in panels for seam in self._backward("panels", panel, subject)]
            told = self._backward("openings", subject, subject)
            return [*(seam for seam in near if not self._says_openings(seam)), *told]
        return self._backward({"panel": "panels", "cavity": "closes"}.get(subject.kind, ""), subject, subject)

    def _says_openings(self, subject: Ref) -> bool:
        """Whether a seam itself says at which openings it is."""
        summary = self.catalogue.find(subject) if subject.kind == "seam" else None
        return summary is not None and "openings" in summary.relations

    def _relation(self, near: Ref, name: str, subject: Ref) -> list[Ref]:
        """Relations of what is near the subject; on its side, also where the way leads over the middle of the car."""
        summary = self.catalogue.find(near)
        refs = summary.relations.get(name, ()) if summary is not None else ()
        return [self._on_side(ref_today(ref, self.catalogue.moved), subject) for ref in refs]

    def _backward(self, name: str, near: Ref, subject: Ref) -> list[Ref]:
        """What has this relation to what is near the subject; on the subject's side."""
        self.catalogue.ledger.note("back", (name, near.record))
        return [self._on_side(ref, subject) for ref in self.backwards.get((name, near.record), ())]

    @cached_property
    def backwards(self) -> dict[tuple[str, Ref], list[Ref]]:
        """Of each relation and each record that has it: whose relation it is."""
        found: dict[tuple[str, Ref], list[Ref]] = defaultdict(list)
        for ref, name, other in self._forwards():
            found[(name, other)].append(ref)
        return found

    def _forwards(self) -> Iterator[tuple[Ref, str, Ref]]:
        whole = self.catalogue.whole or self.catalogue
        for ref in sorted(whole.summaries):
            if ref.kind in ("seam", "panel"):
                for name, others in whole.summaries[ref].relations.items():
                    for other in others:
                        yield ref, name, ref_today(other, whole.moved)

    def _on_side(self, ref: Ref, subject: Ref) -> Ref:
        """What belongs to the other side's seam is on the other side too, where the car has two of it."""
        return ref._replace(side=subject.side) if ref in self.catalogue.handed else ref
