"""What came of a build, as one value."""

from __future__ import annotations

from dataclasses import dataclass, field

from builder.model.files import Discovery, Published
from builder.model.problem import Problem


@dataclass(slots=True)
class Outcome:
    """What came of it."""

    problems: tuple[Problem, ...]
    discovery: Discovery
    records: int
    published: Published | None = None
    seconds: dict[str, float] = field(default_factory=dict)
    """By stage."""

    def failed(self, strict: bool) -> bool:
        """Whether the problems keep the book from being published."""
        return any(problem.level == "error" or strict for problem in self.problems)
