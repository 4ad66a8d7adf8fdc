"""A program's charts and sketch -> the data by which a page redraws them."""

from __future__ import annotations

from typing import Any

from builder.formula.inputs import BARE_UNIT
from builder.formula.pairs import Pairs
from builder.formula.program import Program
from builder.formula.sketched import ORDER
from builder.formula.unit_data import unit_data
from builder.formula.units import unit
from builder.model.records.calculator import called, limit_called


def chart_data(program: Program) -> list[dict[str, Any]]:
    """Return the charts as a page holds them, their ends in base units."""
    return [
        {
            "id": f"chart_{name}", "over": chart.over, "start": chart.start, "end": chart.end,
            "show": list(chart.show), "limit": chart.limit,
            "limitSay": limit_called(program.record, chart.limit) if chart.limit else "",
        }
        for name, chart in program.charts.items()
    ]  # fmt: skip


def sketch_data(program: Program, pairs: Pairs) -> dict[str, Any] | None:
    """Return the sketch as a page holds it: of each measure the name that gives it and how it is said."""
    sketch = program.sketch
    if sketch is None:
        return None
    measures = []
    for measure, name in sketch.given_by.items():
        if measure == ORDER:
            continue
        said, pair = sketch.said[measure], pairs.get(sketch.said[measure].unit)
        digits = None if said.digits is None or pair is None else pair.places(said.digits)
        other = {"system": pair.to, "unit": unit_data(pair.other), "digits": digits} if pair is not None else None
        own = unit(said.unit) if said.unit else BARE_UNIT
        assert own is not None
        measures.append({
            "measure": measure, "name": name, "say": called(program.record, name), "unit": unit_data(own),
            "digits": said.digits, "other": other,
        })  # fmt: skip
    order = sketch.given_by.get(ORDER)
    return {
        "form": sketch.form, "measures": measures, "order": order,
        "orderSay": called(program.record, order) if order else "",
    }  # fmt: skip
