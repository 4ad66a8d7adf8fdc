"""A range of numbers -> the round numbers at which it is divided; scale.js has the twin."""

from __future__ import annotations

import math
from typing import NamedTuple

from builder.formula.numbers import fixed

_ROUND = (1, 2, 5)
_SLACK = 1e-9
"""How far, in steps, a round number may lie beyond an end by the arithmetic alone."""


class Ticks(NamedTuple):
    """Every multiple of a step from the first to the last; the step is `lead * 10 ** power`, exactly."""

    lead: int
    power: int
    first: int
    last: int

    def value(self, at: int) -> float:
        """Return the multiple, rounded once wherever a float holds the power of ten."""
        whole = at * self.lead
        return whole * _ten(self.power) if self.power >= 0 else whole / _ten(-self.power)

    @property
    def values(self) -> tuple[float, ...]:
        """All of them."""
        return tuple(self.value(at) for at in range(self.first, self.last + 1))

    @property
    def texts(self) -> tuple[str, ...]:
        """All of them in words."""
        return tuple(fixed(value, max(0, -self.power)) for value in self.values)


def ticks_around(low: float, high: float, divisions: int) -> Ticks:
    """Return round numbers that take a range in; of a single number, one on each side of it."""
    if not low < high:
        room = abs(low) / 10 or 1.0
        low, high = low - room, high + room
    lead, power = _step((high - low) / divisions)
    step = Ticks(lead, power, 0, 0).value(1)
    return Ticks(lead, power, math.floor(low / step + _SLACK), math.ceil(high / step - _SLACK))


def ticks_within(low: float, high: float, divisions: int) -> Ticks:
    """Return the round numbers in a range."""
    lead, power = _step((high - low) / divisions)
    step = Ticks(lead, power, 0, 0).value(1)
    return Ticks(lead, power, math.ceil(low / step - _SLACK), math.floor(high / step + _SLACK))


def _step(least: float) -> tuple[int, int]:
    """Return the smallest round step that is no less."""
    power = 0
    while _ten(power + 1) <= least:
        power += 1
    while _ten(power) > least:
        power -= 1
    for lead in _ROUND:
        if Ticks(lead, power, 0, 0).value(1) >= least:
            return lead, power
    return 1, power + 1


def _ten(power: int) -> float:
    return float(f"1e{power}")
