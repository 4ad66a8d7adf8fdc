"""What was sampled and measured of a calculator -> its chart and sketch blocks, in the units a page shows first."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from builder.formula import Pair, Unit, unit
from builder.formula.numbers import fixed, plain
from builder.model.plots import Chart, Limit, Measure, Measured, Sample, Series, Sketch, Trace
from builder.model.records.calculator import Calculator, called, limit_called
from builder.model.records.calculator import Chart as ChartRecord
from builder.model.signs import sign, with_sign
from builder.model.views import Plotted
from builder.model.work import Worked
from builder.view.quantities import Units
from builder.view.shared import shared
from builder.view.turns import turns_of

GIVEN_FIGURES, EDGE_FIGURES = 5, 4
"""Significant figures of what was given, and of where an answer begins or ends."""
NO_ANSWER = "no answer"


class Way(NamedTuple):
    """How numbers of one sort are said."""

    unit: Unit | None
    digits: int | None
    """Decimal places; None says what was given in its own figures."""

    def number(self, base: float) -> float:
        """Return a number in the unit shown."""
        return self.unit.from_base(base) if self.unit is not None else base

    def text(self, base: float) -> str:
        """Say it with its unit."""
        return with_sign(self.alone(base), self.name)

    def alone(self, base: float) -> str:
        """Say it without its unit, which stands elsewhere."""
        number = self.number(base)
        return figures(number, GIVEN_FIGURES) if self.digits is None else fixed(number, self.digits)

    @property
    def name(self) -> str:
        """The unit's name, empty for a bare number."""
        return self.unit.name if self.unit is not None else ""


def figures(number: float, count: int) -> str:
    """Say a number with so many significant figures."""
    return plain(float(f"{number:.{count}g}"))


def way(units: Units, name: str | None, digits: int | None) -> Way:
    """Return how numbers in a record's unit are said in the units a page shows first."""
    pair = units.pairs.get(name or "")
    if isinstance(pair, Pair) and pair.to == units.first:
        return Way(pair.other, None if digits is None else pair.places(digits))
    return Way(unit(name) if name else None, digits)


def plots(units: Units, calculator: Calculator, worked: Worked) -> Iterator[Plotted]:
    """Make a block of the sketch and of each chart."""
    if calculator.sketch is not None and worked.measured is not None:
        yield _sketch(units, calculator, worked.measured)
    for name, chart in calculator.charts.items():
        if name in worked.charts:
            yield _chart(units, calculator, name, chart, worked.charts[name])


def _chart(units: Units, calculator: Calculator, name: str, chart: ChartRecord, found: Series) -> Plotted:
    ask = calculator.inputs[chart.over]
    outputs = [calculator.outputs[each] for each in chart.show]
    across = way(units, ask.unit, None)
    up = [way(units, output.unit, output.digits) for output in outputs]
    drawn = Chart(
        id=f"chart_{name}",
        foot=_with_unit(ask.ask, across),
        unit=sign(up[0].name),
        start=across.number(found.samples[0].x),
        end=across.number(found.samples[-1].x),
        traces=tuple(
            _trace(at, output.say, found, across, up[at]) for at, output in enumerate(outputs)
        ),
        stepped=found.stepped,
        limit=_limit(calculator, chart, found, up),
        here=across.number(found.given) if found.here is not None else None,
        here_said=across.text(found.given),
    )  # fmt: skip
    head = (drawn.foot, *(_with_unit(output.say, each) for output, each in zip(outputs, up, strict=True)))
    rows = tuple(_row(sample, across, up) for sample in found.rows)
    notes = tuple(_notes(drawn, found, across))
    return Plotted(chart.say, drawn, chart_words(drawn, rows), notes, head, rows, drawn.id)


def _with_unit(text: str, each: Way) -> str:
    return f"{text}, {sign(each.name)}" if each.name else text


def _trace(at: int, say: str, found: Series, across: Way, up: Way) -> Trace:
    points = tuple(
        (across.number(sample.x), None if (y := sample.ys[at]) is None else up.number(y)) for sample in found.samples
    )
    here = found.here.ys[at] if found.here is not None else None
    return Trace(say, points, None if here is None else up.number(here), "" if here is None else up.text(here))


def _limit(calculator: Calculator, chart: ChartRecord, found: Series, up: Sequence[Way]) -> Limit | None:
    if chart.limit is None or found.limit is None:
        return None
    return Limit(limit_called(calculator, chart.limit), up[0].number(found.limit), up[0].text(found.limit))


def _row(sample: Sample, across: Way, up: Sequence[Way]) -> tuple[str, ...]:
    cells = (NO_ANSWER if y is None else each.alone(y) for y, each in zip(sample.ys, up, strict=True))
    return (across.alone(sample.x), *cells)


def chart_words(chart: Chart, rows: Sequence[Sequence[str]]) -> str:
    """Say in words what a chart shows; plots.js has the twin."""
    lines = ", ".join(trace.label for trace in chart.traces)
    parts = [f"{lines}, over: {chart.foot}."]
    if rows:
        parts[0] = f"{lines}, over: {chart.foot}, from {rows[0][0]} to {rows[-1][0]}."
    parts += [f"At {chart.here_said}: {trace.label} {trace.value}." for trace in chart.traces if trace.value]
    if chart.limit is not None:
        parts.append(f"{chart.limit.label}: {chart.limit.value}.")
    return " ".join(parts)


def _notes(chart: Chart, found: Series, across: Way) -> Iterator[str]:
    """What the drawing cannot show: where there is no answer and why, and a value beyond its ends."""
    if chart.here is None:
        yield f"{chart.here_said} lies outside the chart."
    for trace, why in zip(chart.traces, found.why, strict=True):
        for start, end in gaps(trace):
            what = f"{trace.label}: no answer" if len(chart.traces) > 1 else "No answer"
            ends = [with_sign(figures(x, EDGE_FIGURES), across.name) for x in (start, end)]
            where = f"from {ends[0]} to {ends[1]}" if ends[0] != ends[1] else f"at {ends[0]}"
            yield f"{what} {where}: {why}."


def gaps(trace: Trace) -> list[tuple[float, float]]:
    """Return where a line has no answer: the first and the last value of each such stretch."""
    found: list[tuple[float, float]] = []
    is_on = False
    for x, y in trace.points:
        if y is None:
            found = [*found[:-1], (found[-1][0], x)] if is_on else [*found, (x, x)]
        is_on = y is None
    return found


def _sketch(units: Units, calculator: Calculator, found: Measured) -> Plotted:
    assert calculator.sketch is not None
    sketch = calculator.sketch
    measures = {
        measure: _measure(called(calculator, name), way(units, *found.said[measure]),
                          found.values[measure], found.why.get(measure, ""))
        for measure, name in sketch.with_.items() if measure in found.values
    }  # fmt: skip
    drawn = Sketch("sketch", sketch.form, measures, turns_of(found.order))
    rows = tuple((one.name, one.text) for one in measures.values())
    order = [(called(calculator, sketch.with_["order"]), found.order)] if found.order else []
    return Plotted(sketch.say, drawn, sketch_words(measures), tuple(sketch_notes(measures)), ("Measure", "Value"),
                   (*rows, *order), "sketch")  # fmt: skip


def _measure(name: str, said: Way, value: float | None, why: str) -> Measure:
    return Measure(name, value, said.text(value) if value is not None else f"{NO_ANSWER}: {why}")


def sketch_words(measures: Mapping[str, Measure]) -> str:
    """Say in words what a sketch shows; plots.js has the twin."""
    return "; ".join(f"{one.name}: {one.text}" for one in measures.values()) + "."


def sketch_notes(measures: Mapping[str, Measure]) -> Iterator[str]:
    """Say which measures could not be drawn."""
    for one in measures.values():
        if one.value is None:
            yield f"{one.name}: {one.text}."


def scripts(calculator: Calculator) -> tuple[str, ...]:
    """Return what redraws the charts and the sketch of this calculator."""
    if not calculator.charts and calculator.sketch is None:
        return ()
    sketch = ("measure", calculator.sketch.form, "turns") if calculator.sketch is not None else ()
    return shared("charted", *sketch)
