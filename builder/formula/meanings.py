"""What operators and functions mean in Python: floats in, a float out, or `Unanswered`; formula.js has the twins."""

from __future__ import annotations

import math

from builder.formula.no_answer import BY_ZERO, NEGATIVE_ROOT, NO_LOGARITHM, NO_POWER, TOO_LARGE, unanswered

NEAR_WHOLE = 1e-9
"""A value this near a whole number, relative to its size, is taken for it: 0.96 m / 0.04 m is 24."""
LARGEST = 1.7976931348623157e308


def finite(value: float) -> float:
    """Return the value where it is a number that floats can hold."""
    if -LARGEST <= value <= LARGEST:
        return value
    raise unanswered(TOO_LARGE)


def add(left: float, right: float) -> float:
    """a + b."""
    value = left + right
    return value if -LARGEST <= value <= LARGEST else finite(value)


def subtract(left: float, right: float) -> float:
    """a - b."""
    value = left - right
    return value if -LARGEST <= value <= LARGEST else finite(value)


def multiply(left: float, right: float) -> float:
    """a * b."""
    value = left * right
    return value if -LARGEST <= value <= LARGEST else finite(value)


def divide(left: float, right: float) -> float:
    """a / b."""
    if right == 0:
        raise unanswered(BY_ZERO)
    return finite(left / right)


def power(base: float, exponent: float) -> float:
    """a ** b."""
    if base == 0 and exponent < 0:
        raise unanswered(BY_ZERO)
    if base < 0 and exponent != math.floor(exponent):
        raise unanswered(NO_POWER)
    try:
        return math.pow(base, exponent)
    except OverflowError:
        raise unanswered(TOO_LARGE) from None


def negate(value: float) -> float:
    """-a."""
    return -value


def negation(value: bool) -> bool:
    """not a."""
    return not value


def least(*values: float) -> float:
    """min: of equal values the first."""
    result = values[0]
    for value in values:
        if value < result:
            result = value
    return result


def greatest(*values: float) -> float:
    """max: of equal values the first."""
    result = values[0]
    for value in values:
        if value > result:
            result = value
    return result


def median(*values: float) -> float:
    """The middle value, or the mean of the two in the middle."""
    ordered = sorted(values)
    half = len(ordered) // 2
    return ordered[half] if len(ordered) % 2 else finite((ordered[half - 1] + ordered[half]) / 2)


def absolute(value: float) -> float:
    """abs."""
    return abs(value)


def floor(value: float) -> float:
    """The whole number at or below, a value within `NEAR_WHOLE` of a whole number being that number."""
    nearest = float(math.floor(value + 0.5))
    near = abs(value - nearest) <= NEAR_WHOLE * max(1.0, abs(value))
    return nearest if near else float(math.floor(value))


def ceil(value: float) -> float:
    """The whole number at or above, a value within `NEAR_WHOLE` of a whole number being that number."""
    return 0.0 - floor(-value)


def round_half_away(value: float) -> float:
    """The nearest whole number, halves away from zero, within `NEAR_WHOLE` of a half being a half."""
    return floor(value + 0.5) if value >= 0 else 0.0 - floor(0.5 - value)


def sqrt(value: float) -> float:
    """The square root."""
    if value < 0:
        raise unanswered(NEGATIVE_ROOT)
    return math.sqrt(value)


def exp(value: float) -> float:
    """e to a power."""
    try:
        return math.exp(value)
    except OverflowError:
        raise unanswered(TOO_LARGE) from None


def ln(value: float) -> float:
    """The natural logarithm."""
    if value <= 0:
        raise unanswered(NO_LOGARITHM)
    return math.log(value)


def log10(value: float) -> float:
    """The logarithm to base ten."""
    if value <= 0:
        raise unanswered(NO_LOGARITHM)
    return math.log10(value)


def in_unit(value: float, above: float, below: float, offset: float) -> float:
    """The bare number that a value in base units has in a unit."""
    return finite((value - offset) * below / above)


def with_unit(number: float, above: float, below: float, offset: float) -> float:
    """The value in base units of a bare number in a unit."""
    return finite(number * above / below + offset)


def pi() -> float:
    """The circle's number."""
    return math.pi
