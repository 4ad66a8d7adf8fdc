"""A lesson's practical tests -> cards that read on paper, and what the page's script judges them by."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from builder.formula.inputs import asked_unit, read_quantity, read_tolerance
from builder.formula.numbers import fixed, to_float
from builder.model.quantity import split_quantity
from builder.model.records.calculator import Calculator, Output
from builder.model.records.lesson import Practical
from builder.model.reference import Ref
from builder.model.said import Said, said
from builder.model.views import Card, Html, Row
from builder.view.here import Here
from builder.view.learnt_from import living

Data = dict[str, Any]
DIFFERENCE = "delta_"
"""Before a unit of temperature it makes one of differences."""


def _calculator(here: Here, practical: Practical) -> Calculator:
    record = here.book.shelf[Ref("calculator", practical.calculator)]
    assert isinstance(record, Calculator)
    return record


def practical_card(here: Here, practical: Practical) -> Card:
    """Return a test as it is printed."""
    told = (
        ("Measure", _measured(here, practical)), ("Passed with", _passing(here, practical)),
        ("Found alone", _compared(here, practical)),
    )
    several = (Row(label, Html("<br>".join(lines))) for label, found in told if (lines := tuple(found)))
    rows = (*_given_rows(here, practical), *several)
    judge = Row("Judged by", here.anchor(here.link("calculator", practical.calculator)))
    times = (here.row("In a row", str(practical.times)),) if practical.times > 1 else ()
    return Card(here.text(practical.title), (*rows, *times, judge), here.paragraphs(practical.do),
                f"test_{practical.key}")  # fmt: skip


def _given_rows(here: Here, practical: Practical) -> Iterator[Row]:
    inputs = _calculator(here, practical).inputs
    for name, values in practical.given.items():
        if name in inputs:
            asked, units = inputs[name], here.book.units
            choose = asked.choose or {}
            shown = [choose[text] if text in choose else units.value(text, asked.unit or "") for text in values]
            parts = [part for one in shown for part in (" or ", one)][1:]
            yield here.row(f"Given: {asked.ask}", said(*parts))


def _measured(here: Here, practical: Practical) -> Iterator[Html]:
    inputs = _calculator(here, practical).inputs
    for name, ask in practical.measured.items():
        unit = inputs[name].unit if name in inputs else None
        yield here.both(said(ask, ", in ", here.book.units.name(unit)) if unit else said(ask))


def _passing(here: Here, practical: Practical) -> Iterator[Html]:
    calculator = _calculator(here, practical)
    for name, answer in practical.passes.items():
        if name in calculator.outputs:
            told = _told(here, calculator, name, answer)
            yield Html(f"{here.text(calculator.outputs[name].say)}: {told}")


def _compared(here: Here, practical: Practical) -> Iterator[Html]:
    outputs = _calculator(here, practical).outputs
    for name, tolerance in practical.compare.items():
        if name in outputs:
            yield here.both(said(outputs[name].say, *_within(here, outputs[name], tolerance)))


def _within(here: Here, output: Output, tolerance: str) -> tuple[str | Said, ...]:
    quantity = split_quantity(_difference(output, tolerance))
    is_exact = quantity is not None and not quantity.value
    return (", exactly",) if is_exact else (", within ", here.book.units.shown(quantity))


def _told(here: Here, calculator: Calculator, name: str, answer: str) -> Html:
    """Say an answer as the calculator's page does."""
    for row in calculator.decide.get(name, ()):
        if answer in (row.answer, row.otherwise):
            return here.line(row.say)
    output = calculator.outputs[name]
    labels = {id_: label for one in calculator.inputs.values() for id_, label in (one.choose or {}).items()}
    words = output.tells.get(answer) or labels.get(answer)
    return here.text(words) if words else here.both(here.book.units.value(answer, output.unit or ""))


def practical_data(here: Here, practical: Practical) -> Data:
    """Return what the script shows and judges a test by."""
    calculator = _calculator(here, practical)
    return {
        "key": practical.key, "title": practical.title, "do": here.paragraphs(practical.do),
        "calculator": living(here.book, Ref("calculator", practical.calculator)).id,
        "given": {name: [_with_unit(calculator, name, text) for text in values]
                  for name, values in practical.given.items()},
        "measured": [{"input": name, "ask": ask} for name, ask in practical.measured.items()],
        "passes": {name: _as_shown(calculator.outputs[name], text) for name, text in practical.passes.items()},
        "compare": {name: _tolerance(calculator.outputs[name], text) for name, text in practical.compare.items()},
        "times": practical.times,
    }  # fmt: skip


def _with_unit(calculator: Calculator, name: str, text: str) -> str:
    """A bare number stands in the input's own unit; it is shown with it."""
    asked = calculator.inputs[name]
    return f"{text} {asked.unit}" if asked.unit and " " not in text.strip() else text


def _as_shown(output: Output, text: str) -> str:
    """A number as the calculator shows it; the id of a choice or a decision stays."""
    reading = read_quantity(text, asked_unit(output.unit))
    return text if isinstance(reading, str) else fixed(to_float(reading.own), output.digits)


def _tolerance(output: Output, text: str) -> Data:
    """How far an answer may be off: as it was written, and in base units."""
    reading = read_tolerance(text, output.say, asked_unit(output.unit))
    assert not isinstance(reading, str)
    return {"text": _difference(output, text), "tolerance": reading.base}


def _difference(output: Output, text: str) -> str:
    """A tolerance with its unit; of a temperature it is a difference."""
    if not output.unit or " " in text.strip():
        return text
    return f"{text} {DIFFERENCE if asked_unit(output.unit).is_point else ''}{output.unit}"
