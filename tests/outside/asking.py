"""From a calculator's name and inputs as text its answer, read in any unit by a registry of our own."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import pint

Calc = Callable[..., "Answer"]
"""`calc("dew-point", air="20 degC", ...)`; raises `Refused` where the inputs are not admitted."""

UNITS: pint.UnitRegistry[float] = pint.UnitRegistry()
"""Pint itself, untouched, so that a wrong factor in the formula language cannot hide in the tests."""


class Refused(Exception):  # noqa: N818 - it is an answer too
    """The inputs were not admitted; its text is what the user is told."""


@dataclass(frozen=True, slots=True)
class Answer:
    """What `seambook calc NAME ... --json` prints, read."""

    printed: dict[str, Any]

    def number(self, output: str, unit: str = "") -> float:
        """Return an output's value in a unit; fails where there is no answer."""
        found = self.printed["outputs"][output]
        value = found["value"]
        assert isinstance(value, int | float), f"{output}: {found}"
        own = found.get("unit") or ""
        if own == unit:
            return float(value)
        if "dB" in (own, unit):
            raise AssertionError(f"{output} is in {own!r}, not in {unit!r}")
        return float(UNITS.Quantity(value, own).to(unit).magnitude)

    def word(self, output: str) -> str:
        """Return an output that is a choice or a decision."""
        value = self.printed["outputs"][output]["value"]
        assert isinstance(value, str), f"{output}: {value}"
        return value

    def why_not(self, output: str) -> str | None:
        """Return why an output has no answer; None where it has one."""
        found = self.printed["outputs"][output]
        return str(found["why"]) if found["value"] is None else None

    def warned(self, level: str) -> list[str]:
        """Return what is said at this level."""
        return [warning["say"] for warning in self.printed["warnings"] if warning["level"] == level]


def warns(calc: Calc, name: str, inputs: dict[str, str], level: str, words: str) -> bool:
    """Whether a calculator says these words in a warning of that level."""
    return any(words in said for said in calc(name, **inputs).warned(level))
