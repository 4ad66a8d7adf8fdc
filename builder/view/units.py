"""Quantities -> plain numbers in the units drawings are made in."""

from __future__ import annotations

from builder.formula.units import convert
from builder.model.quantity import Quantity


def millimetres(quantity: Quantity | None) -> float | None:
    """Return a length in mm; None where it is unknown."""
    return None if quantity is None else convert(quantity, "mm")


def minutes(quantity: Quantity) -> float:
    """Return a time in minutes."""
    return convert(quantity, "min") or 0.0
