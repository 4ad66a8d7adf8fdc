"""A calculator of points worked out for the points its page starts with -> the rows that the page shows."""

from __future__ import annotations

from builder.formula import Program
from builder.formula.points.answers import PointAnswer
from builder.model.work import PointRow


def point_rows(program: Program, found: PointAnswer) -> tuple[PointRow, ...]:
    """Return each point with its deviation; none where they were refused."""
    assert program.points is not None
    return tuple(
        PointRow(
            point.name, point.sound, point.stated, point.measured, row.off, row.length, row.is_beyond,
            row.is_doubtful, row.is_first, row.alone or 0.0, row.rest or 0.0,
        )
        for point, row in zip(program.points.start, found.fitted.deviations, strict=bool(found.fitted.deviations))
    )  # fmt: skip
