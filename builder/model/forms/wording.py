"""A form -> what it takes, in words for a comment or a description."""

from __future__ import annotations

from collections.abc import Mapping

from builder.model.forms.form import (
    Amount,
    Either,
    Form,
    Items,
    Key,
    Named,
    Number,
    Part,
    Pointer,
    Scaled,
    Text,
    Words,
)
from builder.model.near import a
from builder.model.records.fields import NONE, ReadingId, StepId
from builder.model.records.job import Clock, Moment
from builder.model.records.lesson import Between
from builder.model.records.procedure import IsoDate
from builder.model.reference import LONE_SUBJECTS

Scales = Mapping[str, tuple[str, ...]]
AS_WRITTEN = {
    hint.__metadata__[0].pattern: said for hint, said in (  # type: ignore[attr-defined]
        (IsoDate, "a date: year-month-day"),
        (Between, "two values: 0.8 mm to 1.5 mm"),
        (Moment, "a day and a time: 2026-11-30T08:00"),
        (Clock, "a time of day: 08:30"),
        (StepId, "a step of the job: procedure@left#step-key, or procedure@#step-key where a car has it once"),
        (ReadingId, "a step of the job and a measure: procedure@left#step-key/Name of the measure"),
    )
}  # fmt: skip
"""Texts of a form, which an example tells better than their pattern."""


def takes(form: Form, scales: Scales) -> str:
    """Say what a value of this form is: `one line of prose`, `a list: each the id of a panel`."""
    match form:
        case Words():
            return f"the word {form.words[0]}" if len(form.words) == 1 else f"one of: {', '.join(form.words)}"
        case Scaled():
            words = scales.get(form.scale, ())
            return f"one of: {', '.join(words)}" if words else f'a word of the scale "{form.scale}"'
        case Number():
            return _number(form)
        case Amount():
            unit = f"such as {form.example}" if form.example else "as they are written in the book"
            return f"a number, a space and a unit, {unit}"
        case Pointer():
            return _pointer(form)
        case Text():
            return _text(form)
        case Either():
            return ", or ".join(takes(one, scales) for one in form.forms)
        case Part():
            return "keys of its own"
        case _:
            return _several(form, scales)


def _several(form: Items | Named, scales: Scales) -> str:
    inner = "keys of its own" if isinstance(form.of, Part) else takes(form.of, scales)
    nothing = f"the word {NONE} where there is nothing, else " if form.none else ""
    if isinstance(form, Items):
        alone = f"{inner}, or a list of such" if form.single else f"a list, each item {inner}"
        return nothing + alone
    return f"{nothing}a mapping: as key {takes(form.keys, scales)}, as value {inner}"


def leave_out(key: Key) -> str:
    """Say whether a key may be left out, and what holds then."""
    if key.required:
        return ""
    return f"may be left out: then {key.default}" if key.default else "may be left out"


def _number(form: Number) -> str:
    noun = "a whole number" if form.whole else "a number"
    if form.least is None:
        return noun
    most = f" to {form.most:g}" if form.most is not None else ""
    return f"{noun} from {form.least:g}{most}"


def _pointer(form: Pointer) -> str:
    if len(form.kinds) == 1:
        return f"the id of {a(form.kinds[0])}" + (", or id#step" if form.with_step else "")
    names = ", ".join(f"{kind}:id" for kind in form.kinds)
    lone = f", {', '.join(LONE_SUBJECTS)}; other: before it means the other side"
    return f"one of {names}{lone if form.lone else ''}"


def _text(form: Text) -> str:
    if form.formula:
        return "a formula or a condition"
    if form.pattern in AS_WRITTEN:
        return AS_WRITTEN[form.pattern]
    if form.pattern:
        underscored = "_" in form.pattern
        is_name = form.pattern.startswith(("^[a-z0-9]", "^[a-z]"))
        return f"lower-case words joined by {'underscores' if underscored else 'hyphens'}" if is_name \
            else f"a text of the form {form.pattern}"  # fmt: skip
    if form.marked:
        return "one line of prose" if form.one_line else "prose, of several paragraphs if need be"
    return "a short text"


__all__ = ["Scales", "leave_out", "takes"]
