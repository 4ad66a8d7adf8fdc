"""Inputs for a calculator as people type them: most are admitted, some lie on a limit or beyond, some read oddly."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import strategies as st

from builder.formula import Program, offered_units
from builder.formula.inputs import Question
from builder.formula.units import Unit

Given = dict[str, str]


def given_to(program: Program) -> st.SearchStrategy[Given]:
    """Texts for the inputs by name; an input with a default is left out now and then."""
    questions = program.questions.items()
    asked = {name: _texts(question) for name, question in questions if question.default is None}
    others = {name: _texts(question) for name, question in questions if question.default is not None}
    return st.fixed_dictionaries(asked, optional=others)


def _texts(question: Question) -> st.SearchStrategy[str]:
    if question.choices:
        return st.sampled_from(sorted(question.choices))
    if question.one_of:
        return _written(st.sampled_from(question.one_of), question.unit)
    low = question.low if question.low is not None else question.unit.to_base(Fraction(0))
    high = question.high if question.high is not None else low + 100 * float(question.unit.factor)
    inside = st.floats(low, high)
    beyond = inside.map(lambda value: value + high - low)  # most of these both sides must refuse
    # Often inside, so that most sets of many inputs are admitted as a whole.
    values = st.sampled_from([inside] * 30 + [st.sampled_from((low, high))] * 3 + [beyond]).flatmap(lambda one: one)
    if question.whole:
        return values.map(lambda value: str(round(question.unit.from_base(value))))
    return _written(values, question.unit)


def _written(values: st.SearchStrategy[float], own: Unit) -> st.SearchStrategy[str]:
    """A value alone or in any of the units offered, now and then with a comma."""
    units = st.sampled_from([None, None, *offered_units(own)]) if own.name else st.none()
    return st.builds(
        lambda value, unit, digits, sign: _text(value, unit or own, unit is not None, digits, sign),
        values, units, st.sampled_from((0, 1, 3)), st.sampled_from("........."",")
    )  # fmt: skip


def _text(value: float, unit: Unit, is_named: bool, digits: int, sign: str) -> str:
    number = unit.from_base(value)
    text = f"{number:.{digits}f}" if abs(number) < 1e9 else repr(number)
    text = text.replace(".", sign)
    return f"{text} {unit.name}" if is_named else text
