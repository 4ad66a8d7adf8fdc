"""Faults: mistakes in formulas and calculators as data, placed by field path and characters, not yet by file."""

from __future__ import annotations

from dataclasses import dataclass, replace

from builder.model.problem import Code, Level

Path = tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class Fault:
    """One mistake; the stage that knows the file turns it into a `Problem`."""

    code: Code
    message: str
    """One line, no full stop: what is wrong, in the author's own words and names."""
    do: str
    """What mends it, as an instruction."""
    start: int | None = None
    """First character of the culprit in the field's text; None where the whole field is meant."""
    end: int | None = None
    """Just past its last character."""
    path: Path = ()
    """Keys that lead to the field in the record, spelled as in YAML: ("work", "gamma"), ("warnings", 0, "if")."""
    level: Level = "error"

    def under(self, path: Path) -> Fault:
        """Return the same fault, its path lengthened at the front."""
        return replace(self, path=path + self.path)
