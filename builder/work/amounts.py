"""A calculator's answer -> an amount of a supply in the unit it is bought in, and in words how it came about."""

from __future__ import annotations

import re
from typing import NamedTuple

from builder.formula import Answer
from builder.formula.numbers import plain
from builder.formula.units import convert
from builder.model.quantity import Quantity
from builder.model.records.supporting import Pack, Supply
from builder.model.signs import with_sign

FIGURES = 4
"""Shown of a number that somebody reads and may work out again."""
KEPT = 6
"""Decimal places that are kept of an amount; what is shown is rounded from these."""
NO_AMOUNT = "no amount"
_BRACED = re.compile(r"\{([a-z][a-z0-9_]*)\}")
_GROUPS = re.compile(r"(?<=\d)(?=(?:\d{3})+(?:\D|$))")


class Amount(NamedTuple):
    """How much of a supply, and how that came about."""

    number: float | None
    """In the unit of the pack; None where there is no answer."""
    how: str


def unit_of(supply: Supply) -> str:
    """Return the unit a supply is counted in; of things that are counted it is their name."""
    return (supply.pack.size.unit or supply.pack.of or "") if supply.pack is not None else ""


def amount_of(answer: Answer, output: str, how: str, supply: Supply) -> Amount:
    """Return what a calculator makes of a supply's use; where it has no answer its reason stands in place of one."""
    result, pack = answer.outputs[output], supply.pack
    words = filled(how, answer)
    if not isinstance(result.value, float) or pack is None:
        return Amount(None, f"{words}: {NO_AMOUNT}, {result.why or 'it has no answer'}")
    number = in_pack(result.value, result.unit, pack)
    return Amount(number, f"{words} = {shown(number, supply)}")


def in_pack(value: float, unit: str, pack: Pack) -> float:
    """Return a number in the unit of the pack; the check has seen that both measure the same."""
    return round(convert(Quantity(repr(value), unit), pack.size.unit or "1") or 0.0, KEPT)


def filled(how: str, answer: Answer) -> str:
    """Put what the calculator was given in the place of its inputs' names."""
    return _BRACED.sub(lambda found: _taken(answer, found[1]), how)


def inputs_named(how: str) -> tuple[str, ...]:
    """Return the inputs that the words name."""
    return tuple(_BRACED.findall(how))


def _taken(answer: Answer, name: str) -> str:
    taken = answer.inputs[name]
    if taken.value is None:
        return "unknown"
    if isinstance(taken.value, str):
        return taken.value.replace("-", " ")
    return with_sign(grouped(plain(taken.value, FIGURES)), taken.unit)


def shown(number: float, supply: Supply) -> str:
    """Say an amount with its unit."""
    pack = supply.pack
    text = grouped(plain(number, FIGURES - 1))
    return f"{text} {pack.of or ''}".strip() if pack is not None and not pack.size.unit \
        else with_sign(text, pack.size.unit if pack is not None else "")  # fmt: skip


def grouped(text: str) -> str:
    """Part the thousands of a number: 1,420."""
    whole, point, places = text.partition(".")
    return _GROUPS.sub(",", whole) + point + places
