"""Inputs for a calculator as people type them: most are admitted, some lie on a limit or beyond, some read oddly."""

from __future__ import annotations

from fractions import Fraction
from typing import TypeVar

from hypothesis import strategies as st

from builder.formula import Program, offered_units
from builder.formula.inputs import Question
from builder.formula.units import Unit

Given = dict[str, str]
T = TypeVar("T")


def given_to(program: Program) -> st.SearchStrategy[Given]:
    """Texts for the inputs by name; one with a default is left out now and then, and one is spoilt now and then."""
    questions = program.questions
    asked = {name: _texts(question) for name, question in questions.items() if question.default is None}
    others = {name: _texts(question) for name, question in questions.items() if question.default is not None}
    admitted = st.fixed_dictionaries(asked, optional=others)
    spoilt = [
        st.builds(lambda given, text, name=name: given | {name: text}, admitted, _beyond(question))
        for name, question in questions.items() if not question.choices and not question.one_of
    ]  # fmt: skip
    return _often(admitted, st.one_of(spoilt), 4) if spoilt else admitted


def _texts(question: Question) -> st.SearchStrategy[str]:
    if question.choices:
        return st.sampled_from(sorted(question.choices))
    if question.one_of:
        return _written(st.sampled_from(question.one_of), question.unit)
    low, high = _ends(question)
    values = _often(st.floats(low, high), st.sampled_from((low, high)), 9)
    if question.whole:
        return values.map(lambda value: str(round(question.unit.from_base(value))))
    return _written(values, question.unit)


def _often(usual: st.SearchStrategy[T], other: st.SearchStrategy[T], times: int) -> st.SearchStrategy[T]:
    """So many times the one for each of the other; `one_of` takes a strategy named twice for one."""
    return st.sampled_from([usual] * times + [other]).flatmap(lambda chosen: chosen)


def _beyond(question: Question) -> st.SearchStrategy[str]:
    """Past the upper end, which both sides must refuse where there is one."""
    low, high = _ends(question)
    return _written(st.floats(low, high).map(lambda value: value + 1.01 * (high - low)), question.unit)


def _ends(question: Question) -> tuple[float, float]:
    low = question.low if question.low is not None else question.unit.to_base(Fraction(0))
    return low, question.high if question.high is not None else low + 100 * float(question.unit.factor)


def _written(values: st.SearchStrategy[float], own: Unit) -> st.SearchStrategy[str]:
    """A value alone or in any of the units offered, now and then with a comma."""
    units = st.sampled_from([None, None, *offered_units(own)]) if own.name else st.none()
    return st.builds(
        lambda value, unit, figures, sign: _text(value, unit or own, unit is not None, figures, sign),
        values, units, st.sampled_from((3, 5, 9)), st.sampled_from("........."",")
    )  # fmt: skip


def _text(value: float, unit: Unit, is_named: bool, figures: int, sign: str) -> str:
    text = f"{unit.from_base(value):.{figures}g}".replace(".", sign)
    return f"{text} {unit.name}" if is_named else text
