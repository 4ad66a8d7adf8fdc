"""A unit of a calculator -> the units a reader may choose in its place, and what is admitted in each."""

from __future__ import annotations

from builder.formula import Pair, Unit, unit
from builder.formula.pairs import offered_with
from builder.model.records.calculator import Input
from builder.model.said import Said, said
from builder.model.signs import sign, with_sign
from builder.model.views import UnitOption
from builder.view.quantities import Units


def shown_units(units: Units, name: str | None) -> tuple[UnitOption, ...]:
    """Return the units that an answer may be shown in; nothing where there is but one."""
    own = unit(name) if name else None
    if own is None:
        return ()
    pair = units.pairs.get(own.name)
    first = _first(units, own)
    offered = offered_with(own, pair)
    return tuple(UnitOption(one.name, sign(one.name), one.name == first) for one in offered) if len(offered) > 1 else ()


def asked_units(units: Units, ask: Input) -> tuple[UnitOption, ...]:
    """Return the units that a question may be answered in, each with the range it admits."""
    own = unit(ask.unit) if ask.unit and not ask.one_of and not ask.choose else None
    if own is None:
        return ()
    return tuple(
        option._replace(limits=_limits_in(ask, own, option.name)) for option in shown_units(units, ask.unit)
    )


def _first(units: Units, own: Unit) -> str:
    pair = units.pairs.get(own.name)
    return pair.other.name if pair is not None and pair.to == units.first else own.name


def _limits_in(ask: Input, own: Unit, name: str) -> str:
    found = unit(name)
    if found is None or name == own.name:
        return _in_words(ask, ask.from_, ask.to, with_sign("", name)).text
    pair = Pair(own, found, "us")
    low = pair.limit(ask.from_, is_lower=True) if ask.from_ else None
    high = pair.limit(ask.to, is_lower=False) if ask.to else None
    return _in_words(ask, low, high, with_sign("", name)).text


def limits_of(units: Units, ask: Input) -> Said:
    """Say what is admitted, in both systems."""
    own = ask.unit or ""
    low = units.limit(ask.from_, own, is_lower=True) if ask.from_ else None
    high = units.limit(ask.to, own, is_lower=False) if ask.to else None
    return _in_words(ask, low, high, units.behind(own))


def _in_words(ask: Input, low: Said | str | None, high: Said | str | None, behind: Said | str) -> Said:
    whole = "whole numbers, " if ask.whole else ""
    if low is not None and high is not None:
        return said(whole, low, " to ", high, behind)
    if low is not None:
        return said(whole, low, behind, " or more")
    if high is not None:
        return said(whole, high, behind, " or less")
    return Said(whole.rstrip(", "))
