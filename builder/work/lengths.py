"""A segment's length -> how a page asks for the one measured on the car: with the limits of what works with it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from math import ceil, floor

from builder.formula.numbers import exact, plain, to_float
from builder.formula.units import Unit, unit
from builder.model.quantity import Quantity
from builder.model.records.calculator import Input
from builder.model.records.law import Method
from builder.work.methods import LENGTH
from builder.work.workings import Shop

ASK = "Length measured on the car"
LAST_DIGIT = Fraction(1, 1000)
"""A limit is told to so much of the record's own unit, rounded to its inside."""


def asked_length(length: Quantity, methods: Iterable[Method], shop: Shop) -> Input | None:
    """Return the question; None where no calculator takes the length, or it has no limits."""
    own = unit(length.unit)
    limits = [*_limits(methods, shop)]
    lows = [low for low, _ in limits if low is not None]
    highs = [high for _, high in limits if high is not None]
    if own is None or not lows or not highs:
        return None
    return Input(
        ask=ASK, unit=length.unit, start=length.number, from_=_told(ceil(_steps(max(lows), own))),
        to=_told(floor(_steps(min(highs), own))),
    )  # fmt: skip


def _limits(methods: Iterable[Method], shop: Shop) -> Iterator[tuple[float | None, float | None]]:
    """What the inputs admit that are given the length itself."""
    for method in methods:
        for working in method.plan:
            questions = shop.programs[working.calculator].questions
            for name, text in working.with_.items():
                if text.strip() == LENGTH:
                    yield questions[name].low, questions[name].high


def _steps(base: float, own: Unit) -> Fraction:
    """A limit in the record's own unit, counted in the last digit that is told."""
    return exact(own.from_base(base)) / LAST_DIGIT


def _told(steps: int) -> str:
    return plain(to_float(steps * LAST_DIGIT))
