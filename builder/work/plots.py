"""A calculator at the values that fill its page at first -> what its charts and its sketch are drawn from."""

from __future__ import annotations

from builder.formula import Program, run
from builder.formula.measured import measured
from builder.formula.run import Given
from builder.formula.series import series
from builder.model.plots import Measured, Series
from builder.work.workings import starting_values


def plotted(program: Program, given: Given | None = None) -> tuple[dict[str, Series], Measured | None]:
    """Sample the charts and measure the sketch; of what fills the page at first, unless something else is given."""
    if not program.charts and program.sketch is None:
        return {}, None
    answer = run(program, given if given is not None else starting_values(program))
    charts = {name: series(program, chart, answer.values) for name, chart in program.charts.items()}
    return charts, measured(program.sketch, answer) if program.sketch is not None else None
