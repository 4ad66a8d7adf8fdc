"""Numbers as people write and read them: exact fractions from text, and text from floats, as formula.js does it too."""

from __future__ import annotations

import math
import re
from fractions import Fraction
from functools import cache, lru_cache
from typing import NamedTuple

from builder.model.quantity import MAX_NUMBER_LENGTH

SIGNIFICANT = 6
"""Figures shown of a number whose digits nobody chose, as in a message."""
_DECIMAL = re.compile(r"[+-]?(?:[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+)(?:[eE][+-]?[0-9]{1,3})?")
_FRACTION = re.compile(r"([+-]?)(?:([0-9]+)[ ]+)?([0-9]+)/([0-9]+)")
_THOUSANDS = re.compile(r"[+-]?[1-9][0-9]{0,2}(?:,[0-9]{3})+")
_WRITTEN = re.compile(
    r"([+-]?(?:[0-9]+[ ]+)?[0-9]+/[0-9]+"
    r"|[+-]?(?:[0-9]+(?:[.,][0-9]+)*[.,]?|[.,][0-9]+)(?:[eE][+-]?[0-9]{1,3}(?![0-9]))?)"
    r"[ ]*(|[^ 0-9.,/+-].*|1/.*)"
)
_SPACES = re.compile(r"[ \t\u00a0\u2009\u202f]+")


class Written(NamedTuple):
    """A number as somebody typed it, with what stood behind it."""

    number: Fraction
    unit: str


@lru_cache(maxsize=8192)
def read_written(text: str) -> Written | str:
    """Read `12.5`, `12,5`, `3/16 inch`, `1 3/16 in` or `20degC`; return what is wrong where that fails.

    A comma is a decimal sign. Where it could also part thousands (`1,250`) the text is refused: guessing wrong by a
    factor of a thousand is worse than asking.
    """
    if len(text) > 2 * MAX_NUMBER_LENGTH:
        return "this is too long for a number and a unit"
    found = _WRITTEN.fullmatch(_SPACES.sub(" ", text.replace("\u2212", "-")).strip())
    if found is None:
        return "this is not a number with a unit"
    number = read_number(found[1])
    return Written(number, found[2].strip()) if isinstance(number, Fraction) else number


@lru_cache(maxsize=8192)
def read_number(text: str) -> Fraction | str:
    """Read a decimal number or a fraction exactly; return what is wrong where that fails."""
    if len(text) > MAX_NUMBER_LENGTH:
        return f"a number has at most {MAX_NUMBER_LENGTH} characters"
    if _THOUSANDS.fullmatch(text):
        return "the comma could part thousands or decimals; write the number with a point or without a comma"
    if _DECIMAL.fullmatch(text):
        return Fraction(text.replace(",", "."))
    found = _FRACTION.fullmatch(text)
    if found is None:
        return "this is not a number"
    sign, whole, above, below = found.groups()
    if int(below) == 0:
        return "a fraction cannot have 0 below its line"
    value = int(whole or 0) + Fraction(int(above), int(below))
    return -value if sign == "-" else value


@lru_cache(maxsize=8192)
def exact(value: float) -> Fraction:
    """Return the shortest decimal that reads back as this float, exactly: 0.1 and not its binary neighbour."""
    return Fraction(repr(value))


def to_float(value: Fraction) -> float:
    """Round once; past the largest float, infinity with its sign."""
    return quotient(value.numerator, value.denominator)


def quotient(above: int, below: int) -> float:
    """Divide whole numbers of any size and round once, as Python does; below its line stands a positive number."""
    try:
        return above / below
    except OverflowError:
        return math.inf if above > 0 else -math.inf


@lru_cache(maxsize=8192)
def fixed(value: float, digits: int) -> str:
    """Write a float with so many decimal places, halves away from zero (2.675 gives 2.68), never `-0`.

    Below 0 it is rounded to tens: -2 writes hundreds.
    """
    scaled = abs(exact(value)) * Fraction(10) ** digits
    whole = (2 * scaled.numerator + scaled.denominator) // (2 * scaled.denominator)
    text = str(whole).rjust(digits + 1, "0")
    sign = "-" if value < 0 and whole else ""
    if digits < 0 and whole:
        return sign + text + "0" * -digits
    return f"{sign}{text[:-digits]}.{text[-digits:]}" if digits > 0 else sign + text


@lru_cache(maxsize=8192)
def plain(value: float, figures: int = SIGNIFICANT) -> str:
    """Write a float with so many significant figures, no trailing zeros; figures before the point all stand."""
    if not math.isfinite(value):
        return "too large a number"
    size = abs(exact(value))
    before = max(-SIGNIFICANT, math.floor(math.log10(abs(value)))) if value else -SIGNIFICANT
    # The logarithm may be a hair off at a power of ten; the exact comparison settles it.
    while size >= _power_of_ten(before):
        before += 1
    text = fixed(value, max(0, figures - before))
    return text.rstrip("0").rstrip(".") if "." in text else text


@cache
def _power_of_ten(exponent: int) -> Fraction:
    return Fraction(10) ** exponent
