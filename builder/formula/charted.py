"""Charts: from the charts of a record what can be drawn; those that fit no input or output are faults."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from builder.formula.codes import BAD_CHART
from builder.formula.fault import Fault, Path
from builder.formula.inputs import Question, read_quantity
from builder.formula.kinds import Kind, NumberKind, describe
from builder.formula.outputs import Shown
from builder.model.near import offer
from builder.model.records.calculator import Calculator, Chart

MOST_LINES = 4
"""Lines that dashes alone still tell apart."""


class Charted(NamedTuple):
    """One chart, ready to be drawn."""

    say: str
    over: str
    start: float
    """In base units."""
    end: float
    show: tuple[str, ...]
    limit: str | None


def check_charts(
    record: Calculator, questions: Mapping[str, Question], kinds: Mapping[str, Kind | None],
    outputs: Mapping[str, Shown],
) -> tuple[dict[str, Charted], tuple[Fault, ...]]:  # fmt: skip
    """Return the charts that can be drawn and the faults of the others."""
    charted: dict[str, Charted] = {}
    faults: list[Fault] = []
    for name, chart in record.charts.items():
        if _rests_on_a_fault(chart, record, questions, outputs):
            continue
        found = [*_over_faults(chart, questions), *_show_faults(chart, outputs)]
        found += _limit_faults(chart, kinds, outputs) if not found else []
        faults += [fault.under(("charts", name)) for fault in found]
        if not found:
            start, end = (_base(text, questions[chart.over]) for text in (chart.from_, chart.to))
            charted[name] = Charted(chart.say, chart.over, start, end, chart.show, chart.limit)
    return charted, tuple(faults)


def _rests_on_a_fault(
    chart: Chart, record: Calculator, questions: Mapping[str, Question], outputs: Mapping[str, Shown]
) -> bool:
    """What is at fault where it is written is no second mistake where it is drawn."""
    if chart.over in record.inputs and chart.over not in questions:
        return True
    return any(name in record.outputs and name not in outputs for name in chart.show)


def _over_faults(chart: Chart, questions: Mapping[str, Question]) -> Iterator[Fault]:
    question = questions.get(chart.over)
    if question is None:
        do = offer(chart.over, questions, "name an input")
        yield Fault(BAD_CHART, f'there is no input "{chart.over}"', do, path=("over",))
        return
    if not isinstance(question.kind, NumberKind) or question.one_of:
        message = f"{chart.over} is a choice and has nothing between its values"
        yield Fault(BAD_CHART, message, "name an input that is any number", path=("over",))
        return
    ends: list[float] = []
    for path, text in (("from", chart.from_), ("to", chart.to)):
        found = _end(text, question)
        if isinstance(found, Fault):
            yield found.under((path,))
        else:
            ends.append(found)
    if len(ends) == 2 and not ends[0] < ends[1]:
        yield Fault(BAD_CHART, f"from {chart.from_} is not below to {chart.to}", "swap them", path=("from",))


def _end(text: str, question: Question) -> float | Fault:
    reading = read_quantity(text, question.unit)
    if isinstance(reading, str):
        return Fault(BAD_CHART, f'"{text}" cannot be used: {reading}', "write " + question.admits)
    too_low = question.low is not None and reading.base < question.low
    if too_low or (question.high is not None and reading.base > question.high):
        message = f"{text} is not admitted by {question.id}"
        return Fault(BAD_CHART, message, "write " + question.admits)
    return reading.base


def _base(text: str, question: Question) -> float:
    reading = read_quantity(text, question.unit)
    assert not isinstance(reading, str)
    return reading.base


def _show_faults(chart: Chart, outputs: Mapping[str, Shown]) -> Iterator[Fault]:
    first: Shown | None = None
    for at, name in enumerate(chart.show):
        path: Path = ("show", at)
        shown = outputs.get(name)
        if shown is None:
            do = offer(name, outputs, "name an output")
            yield Fault(BAD_CHART, f'there is no output "{name}"', do, path=path)
        elif not isinstance(shown.kind, NumberKind):
            yield Fault(BAD_CHART, f"{name} is {describe(shown.kind)}, no number", "take it out", path=path)
        elif first is not None and shown.unit.name != first.unit.name:
            message = f"{name} is shown in {_named(shown)}, {chart.show[0]} in {_named(first)}"
            yield Fault(BAD_CHART, message, "show both in one unit, or draw them in two charts", path=path)
        first = first or shown
    if not 1 <= len(chart.show) <= MOST_LINES:
        message = f"a chart has 1 to {MOST_LINES} lines, not {len(chart.show)}"
        yield Fault(BAD_CHART, message, "draw them in several charts", path=("show",))


def _limit_faults(chart: Chart, kinds: Mapping[str, Kind | None], outputs: Mapping[str, Shown]) -> Iterator[Fault]:
    if chart.limit is None:
        return
    if chart.limit not in kinds:
        do = offer(chart.limit, kinds, "name an input, a fixed value or a formula")
        yield Fault(BAD_CHART, f'nothing is called "{chart.limit}"', do, path=("limit",))
        return
    kind, wanted = kinds[chart.limit], outputs[chart.show[0]].kind
    if kind is not None and kind != wanted:
        message = f"{chart.limit} is {describe(kind)}, what is drawn is {describe(wanted)}"
        yield Fault(BAD_CHART, message, "name what measures the same", path=("limit",))


def _named(shown: Shown) -> str:
    return shown.unit.name or "bare numbers"
