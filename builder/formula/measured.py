"""Running once: from a sketch and one answer the measures it is drawn from."""

from __future__ import annotations

from builder.formula.answer import Answer
from builder.formula.no_answer import NoAnswer
from builder.formula.sketched import ORDER, Sketched
from builder.model.plots import Measured


def measured(sketch: Sketched, answer: Answer) -> Measured:
    """Take the measures of a sketch from an answer."""
    values: dict[str, float | None] = {}
    why: dict[str, str] = {}
    for measure, name in sketch.given_by.items():
        if measure == ORDER:
            continue
        value = answer.values[name]
        values[measure] = value if isinstance(value, float) else None
        if isinstance(value, NoAnswer):
            why[measure] = value.why
    order = answer.outputs[sketch.given_by[ORDER]].text if ORDER in sketch.given_by else ""
    return Measured(values, why, sketch.said, order)
