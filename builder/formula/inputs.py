"""Inputs: from a calculator's questions what may be answered, and from an answer's text its value in base units."""

from __future__ import annotations

import math
from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from builder.formula.codes import BAD_INPUT_FIELD, BAD_VALUE, GIVEN_BAD, UNKNOWN_UNIT
from builder.formula.fault import Fault
from builder.formula.kinds import Kind, choice, describe, kind_of_unit
from builder.formula.lookup import is_same
from builder.formula.no_answer import TOO_LARGE
from builder.formula.numbers import plain, read_written, to_float
from builder.formula.units import Unit, unit, unit_advice
from builder.model.near import offer
from builder.model.records.calculator import Fixed, Input

BARE_UNIT = Unit("", (0,) * 8, Fraction(1))
"""The unit of a bare number."""


class Reading(NamedTuple):
    """A number with its unit, read exactly."""

    base: float
    """In base units, rounded once."""
    own: Fraction
    """In the unit asked for."""


class Question(NamedTuple):
    """One input, ready to be answered."""

    id: str
    ask: str
    kind: Kind
    unit: Unit
    """The unit asked for; a bare number's has no name."""
    choices: dict[str, str]
    """Ids with labels, where it is a choice."""
    start: str | None
    default: str | None
    low: float | None
    high: float | None
    whole: bool
    one_of: tuple[float, ...]
    admits: str
    """What may be answered, in words: `a number from -20 to 60 degC`."""
    usual: float | str | None = None
    """What the default says, in base units."""


# The numbers of a trade are few, and come back in records and proofs by the dozen.
@lru_cache(maxsize=8192)
def read_quantity(text: str, asked: Unit) -> Reading | str:
    """Read a number, alone (then in `asked`) or with a unit of the same kind; return what is wrong where that fails."""
    written = read_written(text)
    if isinstance(written, str):
        return written
    if not written.unit:
        return _finite(Reading(asked.to_base(written.number), written.number))
    found = unit(written.unit)
    if found is None:
        return f'there is no unit "{written.unit}": {unit_advice(written.unit)}'
    if (found.dimension, found.is_point) != (asked.dimension, asked.is_point):
        return f"{found.name} measures {describe(kind_of_unit(found))}, not {describe(kind_of_unit(asked))}"
    if found.name == asked.name:
        return _finite(Reading(asked.to_base(written.number), written.number))
    exact_base = written.number * found.factor + found.offset
    return _finite(Reading(to_float(exact_base), (exact_base - asked.offset) / asked.factor))


def read_tolerance(text: str, name: str, own: Unit) -> Reading | str:
    """Read how far an answer may be off, alone (then in its unit) or with a unit; of a temperature a difference."""
    reading = read_quantity(text, Unit(own.name, own.dimension, own.factor))
    if not isinstance(reading, str):
        return reading if reading.own >= 0 else f'the tolerance "{text}" is below nothing'
    found = unit(text.split(" ", 1)[-1])
    if found is not None and found.is_point:
        return f"the tolerance of {name} is a difference: write delta_{found.name}"
    return f'the tolerance "{text}" does not fit {name}: {reading}'


def _finite(reading: Reading) -> Reading | str:
    is_finite = math.isfinite(reading.base) and math.isfinite(to_float(reading.own))
    return reading if is_finite else TOO_LARGE


class Constant(NamedTuple):
    """A fixed value, read."""

    kind: Kind
    reading: Reading
    is_bare: bool


def compile_fixed(fixed: Fixed) -> Constant | Fault:
    """Read a fixed value; the fault names its field."""
    if fixed.unit is not None and unit(fixed.unit) is None:
        message = f'there is no unit "{fixed.unit}"'
        return Fault(UNKNOWN_UNIT, message, unit_advice(fixed.unit), path=("unit",))
    own = asked_unit(fixed.unit)
    reading = read_quantity(fixed.value, own)
    if isinstance(reading, str):
        do = "write a number, its unit beside it under unit"
        return Fault(BAD_VALUE, f'"{fixed.value}" cannot be used: {reading}', do, path=("value",))
    return Constant(kind_of_unit(own), reading, fixed.unit is None)


def compile_input(name: str, record: Input) -> tuple[Question | None, tuple[Fault, ...]]:
    """Turn an input's record into a question; its faults name their field."""
    faults = tuple(_choice_faults(record) if record.choose is not None else _number_faults(record))
    if record.start is None and record.default is None:
        do = "write start, which fills the page at first, or default, which makes the input optional"
        faults += (Fault(BAD_INPUT_FIELD, "this input has neither start nor default", do),)
    if faults:
        return None, tuple(fault.under(("inputs", name)) for fault in faults)
    if record.choose is not None:
        admits = "one of " + ", ".join(record.choose)
        question = Question(name, record.ask, choice(record.choose), BARE_UNIT, dict(record.choose), record.start,
                            record.default, None, None, False, (), admits, record.default)  # fmt: skip
        return question, ()
    asked = asked_unit(record.unit)
    low, high, *admitted = (_base(text, asked) for text in (record.from_, record.to, *record.one_of))
    one_of = tuple(value for value in admitted if value is not None)
    question = Question(name, record.ask, kind_of_unit(asked), asked, {}, record.start, record.default, low, high,
                        record.whole, one_of, _admits(record))  # fmt: skip
    first = (("start", record.start), ("default", record.default))
    found = {field: answer(question, text) for field, text in first if text is not None}
    wrong = tuple(
        Fault(BAD_INPUT_FIELD, value.message, value.do, path=("inputs", name, field))
        for field, value in found.items() if isinstance(value, Fault)
    )  # fmt: skip
    usual = found.get("default")
    return question if isinstance(usual, Fault) else question._replace(usual=usual), wrong


def answer(question: Question, given: str | float) -> float | str | Fault:
    """Return the value of an answer, written or in base units already; a fault where it is not admitted."""
    reading: Reading | str
    if question.choices:
        if given in question.choices:
            return given
        do = offer(str(given), question.choices, f"write {question.admits}")
        return _refused(question, given, "is none of the choices", do)
    if isinstance(given, float):
        own = question.unit.from_base(given) if math.isfinite(given) else given
        reading = Reading(given, Fraction(own)) if math.isfinite(own) else TOO_LARGE
    else:
        reading = read_quantity(given, question.unit)
    if isinstance(reading, str):
        return _refused(question, given, "cannot be used: " + reading, f"write {question.admits}")
    misfit = _misfit(question, reading)
    return reading.base if misfit is None else _refused(question, given, misfit, f"write {question.admits}")


def asked_unit(name: str | None) -> Unit:
    """Return the unit of this name, known to exist, or a bare number's."""
    found = unit(name) if name is not None else BARE_UNIT
    assert found is not None
    return found


def _refused(question: Question, given: str | float, why: str, do: str) -> Fault:
    told = given if isinstance(given, str) else _told(question, given)
    return Fault(GIVEN_BAD, f'{question.id}: "{told}" {why}', do, path=("given", question.id))


def _told(question: Question, given: float) -> str:
    """A value in base units as somebody would write it."""
    own = question.unit.from_base(given) if math.isfinite(given) else given
    return f"{plain(own)} {question.unit.name}".rstrip() if math.isfinite(own) else TOO_LARGE


def _misfit(question: Question, reading: Reading) -> str | None:
    if question.low is not None and reading.base < question.low:
        return "is too small"
    if question.high is not None and reading.base > question.high:
        return "is too large"
    whole = round(reading.own)
    if question.whole and abs(reading.own - whole) > Fraction(1, 10**9) * max(1, abs(whole)):
        return "is not a whole number"
    if question.one_of and not any(is_same(reading.base, value) for value in question.one_of):
        return "is not admitted"
    return None


def _admits(record: Input) -> str:
    if record.one_of:
        return "one of " + ", ".join(record.one_of)
    return in_words(record.whole, record.from_, record.to, record.unit)


def in_words(whole: bool, low: str | None, high: str | None, name: str | None) -> str:
    """Say what numbers are admitted: `a number from -20 to 60 degC`."""
    suffix = f" {name}" if name else ""
    noun = "a whole number" if whole else "a number"
    if low is not None and high is not None:
        return f"{noun} from {low} to {high}{suffix}"
    if low is not None:
        return f"{noun} from {low}{suffix} up"
    if high is not None:
        return f"{noun} up to {high}{suffix}"
    return f"{noun} in {name}" if name else noun


def _choice_faults(record: Input) -> Iterator[Fault]:
    """A choice has no unit and no limits, and starts with one of its ids."""
    own = (("unit", record.unit), ("from", record.from_), ("to", record.to), ("one_of", record.one_of))
    for field, value in (*own, ("whole", record.whole)):
        if value:
            yield Fault(BAD_INPUT_FIELD, f"choices have no {field}", "take it out", path=(field,))
    choices = record.choose or {}
    if not choices:
        yield Fault(BAD_INPUT_FIELD, "there are no choices", "write them as id: label", path=("choose",))
    for field, value in (("start", record.start), ("default", record.default)):
        if value is not None and choices and value not in choices:
            do = offer(value, choices, "write one of " + ", ".join(choices))
            yield Fault(BAD_INPUT_FIELD, f'there is no choice "{value}"', do, path=(field,))


def _number_faults(record: Input) -> Iterator[Fault]:
    """Limits and admitted values can be read in the unit, and the lower lies below the upper."""
    if record.unit is not None and unit(record.unit) is None:
        message = f'there is no unit "{record.unit}"'
        yield Fault(UNKNOWN_UNIT, message, unit_advice(record.unit), path=("unit",))
        return
    asked = asked_unit(record.unit)
    fields: list[tuple[tuple[str | int, ...], str]] = [
        (path, text) for path, text in ((("from",), record.from_), (("to",), record.to)) if text is not None
    ]
    fields += [(("one_of", number), text) for number, text in enumerate(record.one_of)]
    for path, text in fields:
        reading = read_quantity(text, asked)
        if isinstance(reading, str):
            do = f"write a number in {record.unit}" if record.unit else "write a number"
            yield Fault(BAD_INPUT_FIELD, f'"{text}" cannot be used: {reading}', do, path=path)
    low, high = _base(record.from_, asked), _base(record.to, asked)
    if low is not None and high is not None and low > high:
        yield Fault(BAD_INPUT_FIELD, f"from {record.from_} lies above to {record.to}", "swap them", path=("from",))


def _base(text: str | None, asked: Unit) -> float | None:
    reading = read_quantity(text, asked) if text is not None else "absent"
    return None if isinstance(reading, str) else reading.base
