"""Records of the body -> what an act on one of them reaches, apart from the checks it is held against."""

from __future__ import annotations

from collections.abc import Mapping

from builder.model.reference import LONE_SUBJECTS, Ref
from builder.model.summary import StepSummary, Summary

Steps = tuple[StepSummary, ...]


class Body:
    """One book's panels, seams, cavities and openings."""

    def __init__(self, summaries: Mapping[Ref, Summary], handed: frozenset[Ref]) -> None:
        self.summaries = summaries
        self.handed = handed
        kinds = ("seam", "panel", "cavity", "opening")
        self._near: dict[tuple[Ref, str], list[Ref]] = {}
        self._felt: dict[tuple[Ref, Ref], bool] = {}
        self.alike = {kind: sorted(ref for ref in summaries if ref.kind == kind) for kind in kinds}

    def near(self, ref: Ref, relation: str) -> list[Ref]:
        """What one subject says it closes, is made of, bounds."""
        key = (ref, relation)
        if key not in self._near:
            found = self.summaries[ref.record].relations.get(relation, ()) if ref.record in self.summaries else ()
            self._near[key] = [other._replace(side=ref.side) if other in self.handed else other for other in found]
        return self._near[key]

    def panels(self, ref: Ref) -> list[Ref]:
        """The panel itself, or the sheets of a seam."""
        return [ref] if ref.kind == "panel" else self.near(ref, "panels")

    def openings(self, ref: Ref) -> list[Ref]:
        """The opening itself, or those that a seam says it is at, or that a panel or the sheets of a seam bound."""
        if ref.kind == "opening":
            return [ref]
        if "openings" in self.summaries[ref.record].relations:
            return self.near(ref, "openings")
        return list(dict.fromkeys(opening for panel in self.panels(ref) for opening in self.near(panel, "bounds")))

    def cavities(self, ref: Ref) -> list[Ref]:
        """The cavity itself, or those that a seam closes."""
        return [ref] if ref.kind == "cavity" else self.near(ref, "closes")

    def reaches(self, subject: Ref, target: Ref) -> bool:
        """Whether an act on one subject is felt at another."""
        if (subject, target) not in self._felt:
            self._felt[subject, target] = self._is_felt(subject, target)
        return self._felt[subject, target]

    def _is_felt(self, subject: Ref, target: Ref) -> bool:
        return (
            subject == target or subject.kind in LONE_SUBJECTS or target.kind in LONE_SUBJECTS
            or target in self.openings(subject) or target in self.cavities(subject)
            or (target.kind == "seam" and subject in self.panels(target))
            or (target.kind == "panel" and target in self.panels(subject))
            or (target.kind == "cavity" and self._is_wall(subject, target))
        )  # fmt: skip

    def _is_wall(self, panel: Ref, cavity: Ref) -> bool:
        return panel.kind == "panel" and any(cavity in self.cavities(seam) for seam in self.seams_at(panel))

    def says(self, ref: Ref, fact: str) -> list[object]:
        """One fact of a subject; of a seam, of each of its segments."""
        facts = self.summaries[ref.record].facts if ref.record in self.summaries else ()
        return [part.get(fact) for part in facts]

    def across(self, ref: Ref) -> Ref | None:
        """The same on the other side of the car, where it has two."""
        if ref.record not in self.handed:
            return None
        return ref._replace(side="this" if ref.side == "other" else "other")

    def seams_at(self, panel: Ref) -> list[Ref]:
        """The seams that a panel is a sheet of."""
        on_side = [seam._replace(side=panel.side) if seam in self.handed else seam for seam in self.alike["seam"]]
        return [seam for seam in on_side if panel in self.panels(seam)]
