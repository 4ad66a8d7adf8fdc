"""Two values alike -> the values between them: in their texts marks are filled in, and numbers lie between the two."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import fields, is_dataclass, replace
from typing import Any, NamedTuple

_NUMBER = re.compile(r"([0-9]+(?:[.][0-9]+)?)")


class Blank(NamedTuple):
    """What makes one value of many."""

    fill: Callable[[str], str]
    """From a text with marks to that without."""
    share: float
    """How far from the first value to the second its numbers lie."""


Between = Callable[[Blank], Any]


def between(one: Any, other: Any, mark: Callable[[str], str]) -> Between | None:
    """Return what makes values between the two; None where each of them is the first.

    `mark` puts marks into a text for what is to be filled in, and leaves other texts as they are.
    """
    if isinstance(one, str) and isinstance(other, str):
        return _of_text(one, mark(one), mark(other))
    if type(one) is type(other) and isinstance(one, tuple) and len(one) == len(other):
        return _of_parts(one, [between(a, b, mark) for a, b in zip(one, other, strict=True)])
    if type(one) is type(other) and is_dataclass(one) and not isinstance(one, type):
        found = {own.name: between(getattr(one, own.name), getattr(other, own.name), mark) for own in fields(one)}
        return _of_fields(one, {name: part for name, part in found.items() if part})
    return None if one == other else lambda blank: one if blank.share < 0.5 else other


def _of_fields(one: Any, varied: dict[str, Between]) -> Between | None:
    return (lambda blank: replace(one, **{name: part(blank) for name, part in varied.items()})) if varied else None


def _of_parts(one: tuple[Any, ...], parts: list[Between | None]) -> Between | None:
    if not any(parts):
        return None
    make = getattr(type(one), "_make", tuple)
    pairs = list(zip(parts, one, strict=True))
    return lambda blank: make([part(blank) if part else own for part, own in pairs])


def _of_text(own: str, one: str, other: str) -> Between | None:
    if own == one == other:
        return None
    if one == other:
        return lambda blank: blank.fill(one)
    parts, others = _NUMBER.split(one), _NUMBER.split(other)
    if parts[::2] != others[::2]:
        return lambda blank: blank.fill(one if blank.share < 0.5 else other)
    pairs = list(zip(parts, others, strict=True))
    return lambda blank: blank.fill("".join([_number(*pair, blank.share) for pair in pairs]))


def _number(one: str, other: str, share: float) -> str:
    """Of two numbers one between them, with as many decimals; of two equal texts that text."""
    if one == other:
        return one
    decimals = len(one.partition(".")[2])
    return f"{float(one) + share * (float(other) - float(one)):.{decimals}f}"
