"""A calculator's formulas and decisions, with what was worked out for its starting values -> the block that shows the
way to its answers."""

from __future__ import annotations

from collections.abc import Iterable

from builder.formula import Fault, parse
from builder.model.calculation import DecisionRow, Formula, Formulas
from builder.model.expression import Expression
from builder.model.html import NO_HTML, Html
from builder.model.records.calculator import Calculator, Row
from builder.model.said import Said
from builder.model.work import StepValue
from builder.view.here import Here
from builder.view.mathml import condition, equation, readable


def formulas_block(here: Here, calculator: Calculator, steps: Iterable[StepValue]) -> Formulas:
    """Show each step in the order in which they are worked out."""
    found = tuple(
        _decision(here, step, _say(calculator, step.name), calculator.decide[step.name])
        if step.name in calculator.decide
        else _formula(here, step, _say(calculator, step.name), calculator.work[step.name])
        for step in steps
    )  # fmt: skip
    return Formulas("The way to the answers", found, "formulas")


def _say(calculator: Calculator, name: str) -> str:
    output = calculator.outputs.get(name)
    return output.say if output is not None and output.say.casefold() != readable(name) else ""


def _formula(here: Here, step: StepValue, say: str, text: str) -> Formula:
    value = step.value
    return Formula(
        step.name, readable(step.name), say, equation(step.name, _tree(text)), " ".join(text.split()),
        here.both(_said(here, step)), here.book.units.behind(value.unit), value.why,
    )  # fmt: skip


def _said(here: Here, step: StepValue) -> Said:
    value = step.value
    if value.why:
        return Said("no answer")
    if value.number is not None and not value.text:
        return here.book.units.figured(value.number, value.unit)
    return here.book.units.answer(value.text, value.unit, value.number)


def _decision(here: Here, step: StepValue, say: str, rows: tuple[Row, ...]) -> Formula:
    said = tuple(_row(here, row, at == step.row) for at, row in enumerate(rows))
    value = here.text("no answer") if step.value.why else NO_HTML
    return Formula(step.name, readable(step.name), say, NO_HTML, "", value, Said(""), step.value.why, said)


def _row(here: Here, row: Row, won: bool) -> DecisionRow:
    text = " ".join(row.if_.split()) if row.if_ else ""
    math = condition(_tree(row.if_)) if row.if_ else Html("")
    return DecisionRow(math, text, here.line(row.say), here.line(row.because), won)


def _tree(text: str) -> Expression:
    """What is worked out was parsed without a fault before."""
    found = parse(text)
    assert not isinstance(found, Fault), text
    return found
