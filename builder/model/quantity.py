"""Quantities as an author writes them: a number and a unit, such as `0.8 mm` or `18 degC`."""

from __future__ import annotations

import re
from typing import NamedTuple

MAX_NUMBER_LENGTH = 40
_PATTERN = re.compile(r"([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d{1,3})?)(?:\s+(\S.*))?")


class Quantity(NamedTuple):
    """A number with the name of its unit; an empty unit is a bare number."""

    number: str
    """As the author wrote it, so that nothing is lost by rounding."""
    unit: str

    @property
    def value(self) -> float:
        """The number as a float, in its own unit."""
        return float(self.number)

    def __str__(self) -> str:
        return f"{self.number} {self.unit}" if self.unit else self.number


def split_quantity(text: str) -> Quantity | None:
    """Split `12.5 mm` into number and unit; None where it does not begin with a number.

    The unit's name is not judged here: only `formula` knows units.
    """
    if len(text) > 2 * MAX_NUMBER_LENGTH:
        return None
    found = _PATTERN.fullmatch(text.strip())
    if found is None or len(found[1]) > MAX_NUMBER_LENGTH:
        return None
    return Quantity(found[1], (found[2] or "").strip())
